using Lugbook.Restoration.Fit.Solving;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Tests.Fit.Solving;

using SolvingStage = Lugbook.Restoration.Fit.Solving.SolvingStage;

/// <summary>Source: every order tried out, by a search that shares no code with the solver; the rest are laws of any best order.</summary>
public class WorkSolvingTests
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(20);

    [Fact]
    public void One_position_at_a_time_is_as_good_as_the_best_of_all_orders()
    {
        for (var seed = 1; seed <= 60; seed++)
        {
            var problem = ThrownWork.Of(seed, jobs: 3 + seed % 5, lugs: 4 + seed % 3, perMount: 3, classes: 1 + seed % 3, open: 1);
            Same(problem, seed);
        }
    }

    [Fact]
    public void Several_positions_at_a_time_are_as_good_as_the_best_of_all_orders()
    {
        for (var seed = 1; seed <= 40; seed++)
        {
            var problem = ThrownWork.Of(1000 + seed, jobs: 3 + seed % 4, lugs: 4 + seed % 3, perMount: 3, classes: 1 + seed % 2, open: 2 + seed % 2);
            Same(problem, seed);
        }
    }

    private static void Same(WorkProblem problem, int seed)
    {
        var solution = SolvingStage.Run(problem, Limit, stop: TestContext.Current.CancellationToken);
        Assert.Null(problem.FaultOf(solution.Rounds));
        Assert.Equal(SolveEnd.Proven, solution.End);
        var best = EveryOrder.Best(problem);
        Assert.True(best == solution.Cost.Total, $"seed {seed}: the best is {best}, found {solution.Cost.Total}");
        Assert.Equal(solution.Cost.Total, solution.Bound);
    }

    [Fact]
    public void The_first_order_is_allowed_the_same_on_every_run_and_never_below_its_bound()
    {
        for (var seed = 1; seed <= 40; seed++)
        {
            var problem = ThrownWork.Of(seed, jobs: 40, lugs: 30, perMount: 5, classes: 1 + seed % 8, open: 1 + seed % 3);
            var first = SolvingStage.First(problem);
            Assert.Null(problem.FaultOf(first.Rounds));
            Assert.True(first.Bound <= first.Cost.Total);
            Assert.Equal(first.Rounds.SelectMany(r => r), SolvingStage.First(problem).Rounds.SelectMany(r => r));
        }
    }

    [Fact]
    public void A_lug_is_left_only_once_its_joints_are_done_where_nothing_is_more_urgent()
    {
        // Three parts on one lug, and three elsewhere between them in the book's order.
        var problem = new WorkProblem { Jobs = [.. Enumerable.Range(0, 6).Select(j => new WorkJob([j % 2 == 0 ? 0 : j], [j % 2], 0))], LugCost = [10, 10, 10, 10, 10, 10] };
        var solution = SolvingStage.Run(problem, Limit, stop: TestContext.Current.CancellationToken);
        Assert.Equal((0, 1), (solution.Cost.Reheats, solution.Cost.Moves));
        Assert.Equal(SolveEnd.Proven, solution.End);
    }

    [Fact]
    public void What_is_more_urgent_comes_first_though_a_lug_is_heated_twice()
    {
        var problem = new WorkProblem { Jobs = [new([0], [0], 2), new([1], [0], 1), new([0], [0], 0)], LugCost = [10, 10] };
        var solution = SolvingStage.Run(problem, Limit, stop: TestContext.Current.CancellationToken);
        Assert.Equal([2, 1, 0], solution.Rounds.Select(r => r.Single()));
        Assert.Equal((1, 10L), (solution.Cost.Reheats, solution.Bound));
    }

    [Fact]
    public void Twins_are_never_open_together_and_the_limit_of_open_positions_holds()
    {
        var problem = new WorkProblem { Jobs = [new([0], [0], 0), new([0], [0], 0), new([0], [0], 0)], LugCost = [10], Apart = [(0, 1)], Open = 2 };
        var solution = SolvingStage.Run(problem, Limit, stop: TestContext.Current.CancellationToken);
        Assert.Equal(2, solution.Rounds.Length);
        Assert.DoesNotContain(solution.Rounds, r => r.Contains(0) && r.Contains(1));
    }

    [Fact]
    public void Parts_that_cover_each_other_in_a_circle_are_refused()
    {
        var problem = new WorkProblem { Jobs = [new([0], [0], 0), new([0], [0], 0)], LugCost = [10], Before = [(0, 1), (1, 0)] };
        Assert.Throws<ArgumentException>(() => SolvingStage.First(problem));
    }

    [Fact]
    public void A_search_that_is_stopped_gives_the_best_order_so_far_with_its_bound()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var problem = ThrownWork.Of(7, jobs: 60, lugs: 40, perMount: 5, classes: 3, open: 1);
        var solution = SolvingStage.Run(problem, Limit, stop: stop.Token);
        Assert.Equal(SolveEnd.Stopped, solution.End);
        Assert.Null(problem.FaultOf(solution.Rounds));
        Assert.True(solution.Bound <= solution.Cost.Total && solution.Gap > 0);
    }
}

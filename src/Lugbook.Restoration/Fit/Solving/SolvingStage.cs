using System.Diagnostics;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Fit.Solving;

/// <summary>The order of the work that heats no lug needlessly, with its proof or the gap that is left. The formula is in docs/fit.md.</summary>
public static class SolvingStage
{
    // Above this the rounds of several open positions are improved, not proven.
    private const int ProvenRounds = 14;
    // A tour through a class of more jobs than this is bettered and bounded, not handed to the solver: to build its model alone takes seconds.
    private const int ModelledClass = 70;
    private const int FirstPrices = 200, Prices = 2000;

    /// <summary>A good order at once, the same on every run, with a bound that holds for all orders.</summary>
    /// <exception cref="ArgumentException">What covers lies in a later class than what it covers, or in a circle.</exception>
    public static WorkSolution First(WorkProblem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var clock = Stopwatch.StartNew();
        var rounds = FirstOrder.Of(problem);
        var cost = problem.CostOf(rounds);
        var bound = problem.Open == 1 ? Math.Min(cost.Total, OneTree.Bound(problem, FirstOrder.Steps(problem), cost.Total, FirstPrices)) : problem.LeastCost();
        return new(rounds, cost, bound, cost.Total == bound ? SolveEnd.Proven : SolveEnd.TimeUp, clock.Elapsed);
    }

    /// <summary>Solves. The answer's cost is counted exactly, whatever the solver said; a proven answer costs the same on every run.</summary>
    /// <param name="problem">The jobs.</param>
    /// <param name="limit">Time after which the best order so far is given, with its gap.</param>
    /// <param name="progress">Hears of better orders and bounds, on other threads.</param>
    /// <param name="stop">Ends early with the best order so far.</param>
    /// <exception cref="ArgumentException">What covers lies in a later class than what it covers, or in a circle.</exception>
    public static WorkSolution Run(WorkProblem problem, TimeSpan limit, IProgress<SolveProgress>? progress = null, CancellationToken stop = default)
    {
        var clock = Stopwatch.StartNew();
        var first = First(problem);
        if (first.End == SolveEnd.Proven || stop.IsCancellationRequested) return first with { End = first.End == SolveEnd.Proven ? first.End : SolveEnd.Stopped };
        var modelled = problem.Open > 1 ? problem.Jobs.Length <= ProvenRounds || problem.Jobs.Length * first.Rounds.Length <= 6000 : problem.Jobs.CountBy(j => j.Class).Max(c => c.Value) <= ModelledClass;
        if (problem.Open == 1) first = Bettered(problem, first, modelled, modelled ? limit * 0.6 : limit * 0.95, clock, stop);
        if (first.End == SolveEnd.Proven) return first with { Elapsed = clock.Elapsed };
        progress?.Report(new(first.Cost.Total, first.Bound, clock.Elapsed));
        if (!modelled) return first with { End = stop.IsCancellationRequested ? SolveEnd.Stopped : SolveEnd.TimeUp, Elapsed = clock.Elapsed };
        var search = new Search(limit, progress, clock, stop);
        var exact = problem.Open == 1 || problem.Jobs.Length <= ProvenRounds;
        var (found, bound, end) = problem.Open == 1 ? SequenceModel.Solve(problem, first.Rounds, search) : RoundsModel.Solve(problem, first.Rounds, exact ? problem.Jobs.Length : first.Rounds.Length + 1, search);
        // Of equals the one that comes out the same on every run.
        var rounds = problem.FaultOf(found) is null && problem.CostOf(found).Total < first.Cost.Total ? found : first.Rounds;
        var cost = problem.CostOf(rounds);
        var least = Math.Max(first.Bound, exact ? bound : 0);
        var proven = cost.Total <= least;
        return new(rounds, cost, proven ? cost.Total : Math.Min(least, cost.Total), proven ? SolveEnd.Proven : end == SolveEnd.Proven ? SolveEnd.TimeUp : end, clock.Elapsed);
    }

    private static WorkSolution Bettered(WorkProblem problem, WorkSolution first, bool modelled, TimeSpan limit, Stopwatch clock, CancellationToken stop)
    {
        int[] order = [.. first.Rounds.Select(r => r[0])];
        var step = FirstOrder.Steps(problem);
        Annealing.Better(problem, step, order, modelled ? 20_000 * order.Length : 400_000 * order.Length, first.Bound - problem.FixedCost(), 6, () => stop.IsCancellationRequested ? 1 : clock.Elapsed / limit);
        var rounds = FirstOrder.One(order);
        var cost = problem.CostOf(rounds);
        // Of equals the one that comes out the same on every run.
        if (cost.Total >= first.Cost.Total || problem.FaultOf(rounds) is not null) (rounds, cost) = (first.Rounds, first.Cost);
        var bound = Math.Min(cost.Total, Math.Max(first.Bound, OneTree.Bound(problem, step, cost.Total, Prices)));
        return first with { Rounds = rounds, Cost = cost, Bound = bound, End = cost.Total == bound ? SolveEnd.Proven : SolveEnd.TimeUp };
    }
}

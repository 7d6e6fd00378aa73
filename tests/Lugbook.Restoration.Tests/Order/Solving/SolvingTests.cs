using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Tests.Order.Solving;

/// <summary>Source: exhaustive search, and sums that can be done by hand.</summary>
public class SolvingTests
{
    private static readonly TimeSpan Enough = TimeSpan.FromSeconds(60);

    private static OrderSolution Solve(OrderProblem problem) => SolvingStage.Run(problem, Enough, null, TestContext.Current.CancellationToken);

    [Fact]
    public void The_optimum_is_that_of_exhaustive_search_in_500_cases()
    {
        var open = 0;
        Parallel.For(1, 501, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed =>
        {
            var problem = RandomProblems.Of(seed);
            var expected = Exhaustive.Best(problem);
            var solved = Solve(problem);
            Assert.True(solved.End == SolveEnd.Proven, $"seed {seed}: not proven");
            Assert.True(expected == (solved.Cost.Open, solved.Cost.Total), $"seed {seed}: {solved.Cost.Open} open, {solved.Cost.Total}; exhaustive {expected}");
            if (expected.Open > 0) Interlocked.Increment(ref open);
        });
        Assert.InRange(open, 10, 400);     // the cases do run out of stock, and most do not
    }

    private static SaleItem Sold(int shop, long price, params (int From, long Price)[] more) => new() { Shop = shop, Prices = [new(1, price), .. more.Select(m => new PriceStep(m.From, m.Price))] };
    private static Demand Needs(params int[] items) => new([.. items.Select(i => new Way([new(i, 1)]))]);

    [Fact]
    public void Ten_are_bought_for_nine_where_that_is_cheaper()
    {
        var item = Sold(0, 4500, (10, 3800));
        Assert.Equal((10, 38_000), item.Buy(9));
        Assert.Equal((8, 36_000), item.Buy(8));
        Assert.Equal((10, 38_000), (item with { Pack = 5 }).Buy(6));
        Assert.Null((item with { Stock = 3 }).Buy(4));
        Assert.Equal((10, 38_000), (item with { Spares = 1 }).Buy(8));
    }

    [Fact]
    public void Two_lines_become_one_where_the_line_costs_more_than_the_better_part()
    {
        // 400 V parts at 0.30 and 630 V parts at 0.35: with no line price two lines, with 1.00 a line one.
        OrderProblem problem = new() { Items = [Sold(0, 3000), Sold(0, 3500)], Shops = [new(0, null, 0)], Demands = [Needs(0, 1), Needs(0, 1), Needs(1)] };
        var two = Solve(problem).Cost;
        Assert.Equal((2, 9500), (two.Lines, two.Money));
        var one = Solve(problem with { LinePrice = 10_000 }).Cost;
        Assert.Equal((1, 10_500, 20_500), (one.Lines, one.Money, one.Total));
    }

    [Fact]
    public void Goods_are_filled_up_to_free_postage_only_where_that_is_cheaper()
    {
        Assert.Equal((10_000, 0), new ShopTerms(49_500, 500_000, 0).Charge(490_000));
        Assert.Equal((0, 49_500), new ShopTerms(49_500, 500_000, 0).Charge(400_000));
        Assert.Equal((60_000, 49_500), new ShopTerms(49_500, 500_000, 100_000).Charge(40_000));
        Assert.Equal((0, 0), new ShopTerms(49_500, 500_000, 0).Charge(500_000));
    }

    [Fact]
    public void The_drawer_is_taken_first_and_runs_out()
    {
        var solved = Solve(new() { Items = [new() { Stock = 2 }, Sold(0, 5000)], Shops = [new(0, null, 0)], Demands = [Needs(0, 1), Needs(0, 1), Needs(0, 1)] });
        Assert.Equal((2, 1, 5000), (solved.Cost.Bought[0], solved.Cost.Bought[1], solved.Cost.Money));
    }

    [Fact]
    public void Of_equal_plans_each_position_gets_the_nearer_part()
    {
        // Both items stand at both demands; each is nearer at one of them.
        Demand first = new([new([new(0, 1)], 30), new([new(1, 1)], 0)]), second = new([new([new(0, 1)], 0), new([new(1, 1)], 30)]);
        var solved = Solve(new() { Items = [new() { Stock = 1 }, new() { Stock = 1 }], Shops = [], Demands = [first, second] });
        Assert.Equal([1, 0], solved.WayOf);
    }

    [Fact]
    public void A_stop_gives_the_best_plan_so_far_and_its_bound()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var problem = RandomProblems.Of(7);
        var solved = SolvingStage.Run(problem, Enough, stop: stop.Token);
        Assert.Equal(SolveEnd.Stopped, solved.End);
        Assert.NotNull(problem.CostOf(solved.WayOf));
        Assert.InRange(solved.Bound, 0, solved.Cost.Total);
    }

    [Fact]
    public void A_search_that_runs_is_stopped_by_the_user()
    {
        using var stop = new CancellationTokenSource();
        // Windows so wide that nearly every item stands nearly everywhere: no proof within seconds.
        var random = new Random(1);
        OrderProblem hard = new()
        {
            Shops = [new(45_000, 400_000, 0), new(60_000, 500_000, 100_000)], LinePrice = 5000,
            Items = [.. Enumerable.Range(0, 200).Select(i => Sold(i % 2, random.Next(1000, 6000), (10, 900)))],
            Demands = [.. Enumerable.Range(0, 80).Select(_ => Needs([.. Enumerable.Range(0, 12).Select(_ => random.Next(200)).Distinct()]))],
        };
        var heard = new List<SolveProgress>();
        var progress = new Told(p => { lock (heard) heard.Add(p); if (p.Best is not null) stop.Cancel(); });
        var solved = SolvingStage.Run(hard, Enough, progress, stop.Token);
        Assert.True(solved.Elapsed < TimeSpan.FromSeconds(30), $"{solved.Elapsed}");
        Assert.True(solved.End is SolveEnd.Stopped or SolveEnd.Proven);
        Assert.NotEmpty(heard);
        Assert.InRange(solved.Gap, 0, 1);
    }

    private sealed class Told(Action<SolveProgress> hear) : IProgress<SolveProgress>
    {
        public void Report(SolveProgress value) => hear(value);
    }
}

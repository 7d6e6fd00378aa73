using System.Diagnostics;

namespace Lugbook.Restoration.Order.Solving;

/// <summary>The cheapest plan, with its proof or the gap that is left. The formula is in docs/order.md.</summary>
public static class SolvingStage
{
    /// <summary>Solves. The answer's cost is counted exactly, whatever the solver said; a proven answer costs the same on every run.</summary>
    /// <param name="problem">What is to be bought where.</param>
    /// <param name="limit">Time after which the best plan so far is given, with its gap.</param>
    /// <param name="progress">Hears of better plans and bounds, on other threads.</param>
    /// <param name="stop">Ends early with the best plan so far.</param>
    public static OrderSolution Run(OrderProblem problem, TimeSpan limit, IProgress<SolveProgress>? progress = null, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var clock = Stopwatch.StartNew();
        var reduced = Reduction.Of(problem);
        var start = FirstPlan.Of(reduced.Problem);
        var (wayOf, bound, end) = stop.IsCancellationRequested ? (start, 0L, SolveEnd.Stopped) : ConstraintModel.Solve(reduced, start, limit, progress, clock, stop);
        var full = NearerParts.Exchange(problem, reduced.Back(wayOf));
        var cost = problem.CostOf(full)!;
        return new([.. full], cost, end == SolveEnd.Proven ? cost.Total : Math.Min(bound, cost.Total), end, clock.Elapsed);
    }
}

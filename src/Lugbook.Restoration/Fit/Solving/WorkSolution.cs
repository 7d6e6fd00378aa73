using System.Collections.Immutable;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Fit.Solving;

/// <summary>The best order found.</summary>
/// <param name="Rounds">Jobs that are open at once, round by round; within a round in the order in which they are taken.</param>
/// <param name="Cost">Counted exactly.</param>
/// <param name="Bound">No order costs less; equal to the cost when proven.</param>
/// <param name="End">How it ended.</param>
/// <param name="Elapsed">How long it took.</param>
public sealed record WorkSolution(ImmutableArray<ImmutableArray<int>> Rounds, WorkCost Cost, long Bound, SolveEnd End, TimeSpan Elapsed)
{
    /// <summary>How much less an order could cost at most, as a fraction of this one's cost; 0 when proven.</summary>
    public double Gap => Cost.Total <= 0 ? 0 : Math.Max(0, (double)(Cost.Total - Bound) / Cost.Total);
}

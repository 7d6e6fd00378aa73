using System.Collections.Immutable;
using System.Numerics;
using Google.OrTools.Sat;

namespace Lugbook.Restoration.Prove.Solving;

/// <summary>The fewest sets that cover all that is open, for problems too large to try every way.</summary>
/// <param name="Chosen">Numbers of the sets, in order.</param>
/// <param name="Least">No fewer cover it: proven.</param>
internal sealed record LeastCover(ImmutableArray<int> Chosen, int Least)
{
    // Work and not seconds, so that the same book gives the same readings on any machine.
    private const double MostWork = 12, MostSeconds = 60;
    private const long Whole = 1000;

    /// <summary>Finds it.</summary>
    /// <param name="sets">What each set covers.</param>
    /// <param name="open">What is to be covered; each by some set.</param>
    /// <param name="dearer">Among equally few: sets that are better avoided.</param>
    /// <param name="stop">Ends it early.</param>
    /// <exception cref="OperationCanceledException"><paramref name="stop"/> was raised.</exception>
    public static LeastCover Of(IReadOnlyList<BigInteger> sets, BigInteger open, Func<int, bool> dearer, CancellationToken stop)
    {
        stop.ThrowIfCancellationRequested();
        if (open.IsZero) return new([], 0);
        // Of sets that cover the same the first of the cheaper ones is enough.
        int[] among = [.. Enumerable.Range(0, sets.Count).Where(i => !(sets[i] & open).IsZero).GroupBy(i => sets[i] & open).Select(g => g.OrderBy(i => dearer(i) ? 1 : 0).First()).Order()];
        var model = new CpModel();
        var take = among.Select(i => model.NewBoolVar("")).ToArray();
        var size = (int)open.GetBitLength();
        for (var s = 0; s < size; s++)
            if (!(open >> s).IsEven) model.AddBoolOr(Enumerable.Range(0, among.Length).Where(k => !(sets[among[k]] >> s).IsEven).Select(k => take[k]));
        model.Minimize(LinearExpr.WeightedSum(take, among.Select(i => dearer(i) ? Whole + 1 : Whole)));
        var greedy = Greedy(sets, among, open);
        for (var k = 0; k < among.Length; k++) model.AddHint(take[k], greedy.Contains(among[k]));
        var solver = new CpSolver { StringParameters = FormattableString.Invariant($"max_deterministic_time:{MostWork} max_time_in_seconds:{MostSeconds} num_workers:1 random_seed:1 relative_gap_limit:0 absolute_gap_limit:0.99") };
        using var ended = new CancellationTokenSource();
        using var registration = stop.Register(() => _ = StopAsync(solver, ended.Token));
        var status = solver.Solve(model);
        ended.Cancel();
        stop.ThrowIfCancellationRequested();
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible)) return new([.. greedy.Order()], 1);
        // Fewer than so many cost less than the bound, even were they all dearer.
        var least = (int)Math.Ceiling((solver.BestObjectiveBound - 1e-6) / (Whole + 1));
        return new([.. Enumerable.Range(0, among.Length).Where(k => solver.BooleanValue(take[k])).Select(k => among[k])], Math.Max(1, least));
    }

    private static HashSet<int> Greedy(IReadOnlyList<BigInteger> sets, int[] among, BigInteger open)
    {
        var taken = new HashSet<int>();
        while (!open.IsZero)
        {
            var next = among.MaxBy(i => Count(sets[i] & open));
            taken.Add(next);
            open &= ~sets[next];
        }
        return taken;
    }

    private static int Count(BigInteger set) => set.ToByteArray().Sum(b => BitOperations.PopCount(b));

    private static async Task StopAsync(CpSolver solver, CancellationToken ended)
    {
        for (; !ended.IsCancellationRequested; await Task.Delay(20, CancellationToken.None)) solver.StopSearch();
    }
}

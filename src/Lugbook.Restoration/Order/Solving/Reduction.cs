using System.Collections.Immutable;

namespace Lugbook.Restoration.Order.Solving;

/// <summary>The same problem with less in it: ways that can never pay are left out, and equal demands are told as one kind.</summary>
/// <remarks>
/// An item is left out when another of the same shop serves wherever it serves, costs no more for any quantity and never runs out: whoever
/// buys the first can buy the second instead, on one line if both are bought, since prices do not rise with the quantity.
/// A shop's charge never falls when its goods rise (ShopTerms.Charge), so cheaper goods never cost more.
/// </remarks>
internal sealed class Reduction
{
    private readonly ImmutableArray<ImmutableArray<int>> _ways;    // for each demand, the index of each kept way in the full problem

    private Reduction(OrderProblem problem, ImmutableArray<ImmutableArray<int>> ways, ImmutableArray<ImmutableArray<int>> kinds) => (Problem, _ways, Kinds) = (problem, ways, kinds);

    /// <summary>The smaller problem.</summary>
    public OrderProblem Problem { get; }
    /// <summary>Demands that have the same ways, together.</summary>
    public ImmutableArray<ImmutableArray<int>> Kinds { get; }

    /// <summary>An assignment of the smaller problem in terms of the full one.</summary>
    public int[] Back(IReadOnlyList<int> wayOf) => [.. wayOf.Select((w, d) => w < 0 ? -1 : _ways[d][w])];

    public static Reduction Of(OrderProblem problem)
    {
        var gone = Dominated(problem);
        var ways = problem.Demands.Select(d => Enumerable.Range(0, d.Ways.Length).Where(w => !d.Ways[w].Items.Any(i => gone[i.Item])).ToImmutableArray()).ToImmutableArray();
        var smaller = problem with { Demands = [.. problem.Demands.Select((d, at) => new Demand([.. ways[at].Select(w => d.Ways[w])]))] };
        var kinds = Enumerable.Range(0, smaller.Demands.Length).Where(d => smaller.Demands[d].Ways.Length > 0)
            .GroupBy(d => string.Join('|', smaller.Demands[d].Ways.Select(w => string.Join('+', w.Items.OrderBy(i => i.Item).Select(i => $"{i.Item}x{i.Count}")))))
            .Select(g => g.ToImmutableArray()).ToImmutableArray();
        return new(smaller, ways, kinds);
    }

    private static bool[] Dominated(OrderProblem problem)
    {
        var gone = new bool[problem.Items.Length];
        // Where an item alone serves; items that are also part of a bag are left alone.
        var serves = new HashSet<int>[problem.Items.Length];
        var inBag = new bool[problem.Items.Length];
        for (var i = 0; i < serves.Length; i++) serves[i] = [];
        for (var d = 0; d < problem.Demands.Length; d++)
            foreach (var way in problem.Demands[d].Ways)
                if (way.Items is [{ Count: 1 } only]) serves[only.Item].Add(d);
                else foreach (var (item, _) in way.Items) inBag[item] = true;
        foreach (var shop in Enumerable.Range(0, problem.Items.Length).Where(i => problem.Items[i].Shop is not null && serves[i].Count > 0 && !inBag[i]).GroupBy(i => problem.Items[i].Shop))
        {
            var items = shop.OrderByDescending(i => serves[i].Count).ThenBy(i => i).ToArray();
            foreach (var weak in items)
                foreach (var strong in items)
                {
                    if (weak == strong || gone[strong] || serves[strong].Count < serves[weak].Count || problem.Items[strong].Stock is not null) continue;
                    if (!serves[weak].IsSubsetOf(serves[strong])) continue;
                    if (!NeverDearer(problem.Items[strong], problem.Items[weak], serves[weak].Count, out var strictly)) continue;
                    if (!strictly && serves[strong].Count == serves[weak].Count && weak < strong) continue;    // of two alike one stays
                    gone[weak] = true;
                    break;
                }
        }
        return gone;
    }

    private static bool NeverDearer(SaleItem strong, SaleItem weak, int most, out bool strictly)
    {
        strictly = false;
        if (strong.Spares > weak.Spares) return false;
        for (var n = 1; n <= most; n++)
        {
            if (weak.Buy(n) is not { } other) continue;
            var own = strong.Buy(n)!.Value;
            if (own.Cost > other.Cost) return false;
            strictly |= own.Cost < other.Cost;
        }
        return true;
    }
}

using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Sheet;

/// <summary>A part that moves a reading.</summary>
/// <param name="Position">The part.</param>
/// <param name="Volts">How far the reading moves from the middle when the part goes to the end of its healthy range, V; the sign is that of a larger value.</param>
/// <param name="Cause">Why it may be there.</param>
public sealed record Mover(string Position, double Volts, SpreadCause Cause);

/// <summary>What moves a reading, by the sensitivities of the solved set.</summary>
internal static class Movers
{
    /// <summary>Parts that move a node most, largest first.</summary>
    /// <param name="solved">The set.</param>
    /// <param name="node">The map's node.</param>
    /// <param name="most">How many at most.</param>
    /// <remarks>First order: dV/d(ln p) from one adjoint solution, times half the relative range. Empty where nothing is solved.</remarks>
    public static ImmutableArray<Mover> Of(SolveResult solved, int node, int most = 6)
    {
        if (solved.Direct is not { } network || node == network.Reference) return [];
        ImmutableArray<NodeSensitivity> rows;
        try
        {
            rows = Sensitivity.Of(network, node);
        }
        catch (UnsolvableException)
        {
            return [];
        }
        var spreads = solved.Spreads.Where(s => s.Nominal != 0).ToLookup(s => (s.Element, s.Parameter));
        return
        [
            .. rows.SelectMany(r => spreads[(r.Element, r.Parameter)].Take(1).Select(s => (Row: r, Spread: s)))
                .Select(x => new Mover(Position(solved, x.Spread), x.Row.VoltsPerLog[0] * Math.Abs(x.Spread.High - x.Spread.Low) / 2 / Math.Abs(x.Spread.Nominal), x.Spread.Cause))
                .GroupBy(m => (m.Position, m.Cause)).Select(g => g.First() with { Volts = g.Key.Cause == SpreadCause.Line ? g.Sum(m => m.Volts) : g.MaxBy(m => Math.Abs(m.Volts))!.Volts })
                .Where(m => Math.Abs(m.Volts) > 1e-3).OrderByDescending(m => Math.Abs(m.Volts)).Take(most),
        ];
    }

    private static string Position(SolveResult solved, Spread spread) =>
        spread.Cause == SpreadCause.Line ? "the line" : solved.Netlist.Origins.FirstOrDefault(o => o.Element == spread.Element)?.Position ?? spread.Element;
}

using Lugbook.Restoration.Map;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>A reading that could be taken next.</summary>
/// <param name="Place">Where and what.</param>
/// <param name="Meter">With which meter.</param>
/// <param name="Cost">Effort and danger: 1 for ohms with the plug out.</param>
/// <param name="Part">The part across which it is; null for a lug to common.</param>
internal sealed record Candidate(ProbePlace Place, Meter Meter, double Cost, string? Part);

/// <summary>All readings that a bench allows: volts and ohms of every node to common, ohms and capacitance across every part.</summary>
internal static class Candidates
{
    // Effort and danger beside ohms with the plug out; common practice, no source.
    private const double AcrossCost = 0.2, LeastAcross = 0.3;
    private const double FaradsCost = 1.05, VoltsCost = 1.0, HighCost = 0.05, VeryHighCost = 0.3, LineCost = 0.5, ChangeCost = 0.1;

    /// <param name="model">The set.</param>
    /// <param name="last">What was read last: going over from running to unplugged and back costs.</param>
    public static List<Candidate> Of(TraceModel model, ReadingKind? last)
    {
        var map = model.Solved.Netlist.Map;
        var settings = model.Settings;
        var common = map.Common.Node!;
        var list = new List<Candidate>();
        var healthy = model.Variants[0].Volts;
        var ran = last == ReadingKind.Volts;
        foreach (var node in map.Nodes)
        {
            if (node.Index == common.Index || LugOf(map, node) is not { } lug) continue;
            if (settings.MayRun && healthy is not null)
            {
                var volts = Math.Abs(healthy[node.Index]);
                list.Add(new(new(ReadingKind.Volts, lug, common.Lugs[0]), settings.Volts,
                    VoltsCost + (volts > 60 ? HighCost : 0) + (volts > 300 ? VeryHighCost : 0) + (map.IsOnLine(node) ? LineCost : 0) + (last is not null && !ran ? ChangeCost : 0), null));
            }
            list.Add(new(new(ReadingKind.Ohms, lug, LugOf(map, common) ?? common.Lugs[0]), settings.Meters.Ohms, 1 + (ran ? ChangeCost : 0), null));
        }
        foreach (var part in map.Book.Parts)
        {
            if (part.LeadA is not { } a || part.LeadB is not { } b || map.NodeOf(a) is not { } from || map.NodeOf(b) is not { } to || from.Index == to.Index) continue;
            if (from.Index != common.Index && to.Index != common.Index) list.Add(new(new(ReadingKind.Ohms, a, b), settings.Meters.Ohms, 1 + (ran ? ChangeCost : 0), part.Name));
            // Across a part that carries direct current, both ends live: what flows there, to the volt.
            if (settings.MayRun && healthy is not null && from.Index != common.Index && to.Index != common.Index && !part.Kind.IsCapacitor() && Math.Abs(healthy[from.Index] - healthy[to.Index]) > LeastAcross)
                list.Add(new(new(ReadingKind.Volts, a, b), settings.Volts, VoltsCost + AcrossCost + (Math.Max(Math.Abs(healthy[from.Index]), Math.Abs(healthy[to.Index])) > 300 ? VeryHighCost : 0) + (last is not null && !ran ? ChangeCost : 0), part.Name));
            if (part.Kind.IsCapacitor() && settings.Meters.Farads is { Farads: { } scale } farads && part.Value is { } value && value <= scale.Top) list.Add(new(new(ReadingKind.Farads, a, b), farads, FaradsCost + (ran ? ChangeCost : 0), part.Name));
        }
        // Two parts side by side, or one to common, are one and the same reading: the first is kept.
        return [.. list.DistinctBy(c => (c.Place.Kind, Pair(map.NodeOf(c.Place.From)!.Index, map.NodeOf(c.Place.To)!.Index)))];
    }

    private static (int, int) Pair(int a, int b) => a < b ? (a, b) : (b, a);

    /// <summary>The lug of a node that a probe reaches best: a valve's pin, as charts have it, else a strip.</summary>
    private static string? LugOf(MapResult map, Node node) => node.Pins.Select(p => p.Lug).OrderBy(l => l, NaturalOrder.Names).FirstOrDefault() ?? Prove.ShortFinder.LugOf(map, node.Index);
}

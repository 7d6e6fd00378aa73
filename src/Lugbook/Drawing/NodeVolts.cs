using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Valves;

namespace Lugbook.Drawing;

/// <summary>The solved volts as drawings show them.</summary>
public static class NodeVolts
{
    /// <summary>"84 V", "−7.6 V" of a node; null for everything when nothing is solved.</summary>
    public static Func<int, string?> Of(SolveResult solved) => node =>
        solved.Point is not { } point || point.FloatingNodes.Contains(node) ? null
        : Math.Abs(point.Volts[node]) < 0.05 ? "0 V"
        : $"{point.Volts[node].ToString(Math.Abs(point.Volts[node]) < 20 ? "0.0" : "0", CultureInfo.InvariantCulture).Replace('-', '−')} V";

    /// <summary>Volts to write beside lugs: at every pin of a valve but its heater's, and once at every other node; common is left out, and what alternates.</summary>
    public static ImmutableDictionary<string, string> AtLugs(SolveResult solved)
    {
        var map = solved.Netlist.Map;
        var volts = Of(solved);
        var notes = ImmutableDictionary.CreateBuilder<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var node in map.Nodes)
        {
            if (node.Index == map.Common.Node?.Index || node.Index == map.Chassis.Node?.Index || node.Index == map.Earth.Node?.Index || volts(node.Index) is not { } text) continue;
            if (solved.Cycle?.Nodes[node.Index] is { } cycle && cycle.RippleRms > Math.Abs(cycle.Average)) continue;
            var pins = node.Pins.Where(p => !p.Has(ElectrodeKind.Heater) && !p.Has(ElectrodeKind.HeaterTap)).Select(p => p.Lug).ToArray();
            var lugs = pins.Length > 0 ? pins : [.. node.Lugs.Where(l => map.Book.Lugs.Named(l) is { } lug && map.Book.Mounts.Named(lug.Mount)?.Kind.IsSocket() != true).Take(1)];
            foreach (var lug in lugs) notes[lug] = text;
        }
        return notes.ToImmutable();
    }
}

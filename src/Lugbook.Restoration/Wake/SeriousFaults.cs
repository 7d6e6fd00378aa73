using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Wake;

/// <summary>A fault that costs a transformer, a valve or worse.</summary>
/// <param name="Words">In words.</param>
/// <param name="Position">The part.</param>
/// <param name="In">The set with it.</param>
public sealed record SeriousFault(string Words, string Position, Func<Network, Network> In);

/// <summary>The faults that stop limits are set against.</summary>
/// <remarks>Which faults are serious and how large they are taken: common practice, no source.</remarks>
internal static class SeriousFaults
{
    private const double ShortOhms = 5, FlashedOhms = 20, LeakOhms = 100e3, TurnsOhmsShare = 0.4, CathodeOhms = 100, ReversedOhms = 500, LeastCathodeVolts = 8;
    private const double LeastSupplyFarads = 1e-6;

    public static ImmutableArray<SeriousFault> Of(WakeSet set)
    {
        var (network, parts) = (set.Network, set.Solved.Netlist.Map.Book.Parts);
        var cycle = set.Solved.Cycle!;
        var faults = ImmutableArray.CreateBuilder<SeriousFault>();
        foreach (var c in network.Elements.OfType<Capacitor>())
        {
            var position = set.PositionOf(c.Name);
            if (parts.Named(position) is not { } part) continue;
            var volts = Math.Abs(cycle.Nodes[c.A].Average - cycle.Nodes[c.B].Average);
            if (part.Kind == PartKind.Electrolytic && c.Farads >= LeastSupplyFarads && volts > 40)
            {
                faults.Add(new($"{position} shorted", position, Across(c.A, c.B, ShortOhms)));
                faults.Add(new($"{position} fitted the wrong way round", position, Across(c.A, c.B, ReversedOhms)));
            }
            else if (part.Kind != PartKind.Electrolytic && OnLine(set, c)) faults.Add(new($"{position} on the line shorted", position, Across(c.A, c.B, ShortOhms)));
            else if (part.Kind != PartKind.Electrolytic && volts > 40 && IsOutputGrid(network, c)) faults.Add(new($"{position} leaks onto an output grid", position, Across(c.A, c.B, LeakOhms)));
        }
        foreach (var d in set.Rectifiers)
            faults.Add(new($"rectifier {d.Name} shorted", set.PositionOf(d.Name), n => n.With(new Resistor(d.Name, d.Anode, d.Cathode, d.Law.NeedsHeat ? FlashedOhms : ShortOhms))));
        foreach (var t in network.Elements.OfType<Transformer>().Where(t => t.Windings.Any(w => IsPrimary(set, w))))
        {
            var primary = t.Windings.First(w => IsPrimary(set, w));
            var position = set.PositionOf(t.Name);
            faults.Add(new($"{position}: turns shorted", position, Across(primary.A, primary.B, TurnsOhmsShare * LineOhms(set))));
        }
        foreach (var (valve, filament) in set.Solved.Netlist.Heaters)
        {
            if (network.Elements.FirstOrDefault(e => e.Name == filament) is not Filament f || CathodeOf(network, set, valve) is not { } cathode || cathode == f.A || cathode == f.B) continue;
            if (Math.Abs(cycle.Nodes[cathode].Average - cycle.Nodes[f.A].Average) > LeastCathodeVolts || IsSeries(set, f)) faults.Add(new($"{valve}: heater touches cathode", valve, Across(f.A, cathode, CathodeOhms)));
        }
        foreach (var (node, lug, _) in set.Supplies.Take(1)) faults.Add(new($"supply at {lug} touches common", lug, Across(node, network.Reference, ShortOhms)));
        return faults.ToImmutable();
    }

    private static Func<Network, Network> Across(int a, int b, double ohms) => network => a == b ? network : network.Adding(new Resistor("fault", a, b, ohms));

    private static bool OnLine(WakeSet set, Capacitor c) => (c.A, c.B) == (set.Line.A, set.Line.B) || (c.B, c.A) == (set.Line.A, set.Line.B)
        || set.Solved.Netlist.Map.IsOnLine(NodeOf(set, c.A)) && set.Solved.Netlist.Map.IsOnLine(NodeOf(set, c.B));

    private static Map.Node? NodeOf(WakeSet set, int node) => node < set.Solved.Netlist.Map.Nodes.Length ? set.Solved.Netlist.Map.Nodes[node] : null;

    /// <summary>One end on the grid of a valve that draws more than a voltage amplifier does.</summary>
    private static bool IsOutputGrid(Network network, Capacitor c) => network.Elements.OfType<Pentode>().Any(p => (p.Grid == c.A || p.Grid == c.B) && p.Law.Perveance > 0.6e-3);

    private static bool IsPrimary(WakeSet set, WindingOf w) => NodeOf(set, w.A) is { } a && NodeOf(set, w.B) is { } b && set.Solved.Netlist.Map.IsOnLine(a) && set.Solved.Netlist.Map.IsOnLine(b);

    // What the healthy set looks like to the line.
    private static double LineOhms(WakeSet set) => set.LineVolts / Math.Max(set.Solved.Cycle!.Currents.GetValueOrDefault(set.Line.Name)?.Rms ?? 0.3, 0.05);

    private static int? CathodeOf(Network network, WakeSet set, string valve)
    {
        var own = set.Solved.Netlist.ElementsOf(valve).ToHashSet(StringComparer.Ordinal);
        return network.Elements.Where(e => own.Contains(e.Name)).Select(e => e switch
        {
            Triode t => t.Cathode, Pentode p => p.Cathode, Converter c => c.Cathode, Diode { Law.NeedsHeat: true } d => (int?)d.Cathode, _ => null,
        }).FirstOrDefault(c => c is not null);
    }

    private static bool IsSeries(WakeSet set, Filament f) => NodeOf(set, f.A) is { } a && set.Solved.Netlist.Map.IsOnLine(a);
}

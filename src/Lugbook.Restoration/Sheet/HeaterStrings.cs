using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Sheet;

/// <summary>Which valves go dark when one is pulled: all of its series string, none of a parallel one.</summary>
/// <remarks>
/// Heaters, their droppers, lamps and shunts are solved as resistances at the heat they have; line and windings are their rms volts, in or out of phase. Exact where heaters keep their resistance; a heater
/// that is left with less than half of its volts counts as dark (its emission is gone by then: common practice, no source).
/// </remarks>
internal static class HeaterStrings
{
    private const double DarkShare = 0.5;
    // What was not lit before cannot go out.
    private const double LitShare = 0.2;
    private const double LeastWindingOhms = 0.01;

    /// <summary>Valves without heat, the pulled one among them.</summary>
    public static IReadOnlySet<string> Dark(SolveResult solved, string pulled)
    {
        var dark = new HashSet<string>(StringComparer.OrdinalIgnoreCase) { pulled };
        if (solved.Cycle is not { } cycle || solved.Netlist.Network is not { } network) return dark;
        var own = solved.Netlist.ElementsOf(pulled).ToHashSet(StringComparer.Ordinal);
        Filament[] filaments = [.. network.Elements.OfType<Filament>()];
        if (!filaments.Any(f => own.Contains(f.Name))) return dark;
        var (before, after) = (Volts(network, cycle, []), Volts(network, cycle, own));
        foreach (var valve in solved.Netlist.Map.Book.Parts.Where(p => p.Kind == Trade.Parts.PartKind.Valve).Select(p => p.Name))
        {
            var elements = solved.Netlist.ElementsOf(valve).ToHashSet(StringComparer.Ordinal);
            if (filaments.Any(f => elements.Contains(f.Name) && Math.Abs(before(f)) > LitShare * f.RatedVolts && Math.Abs(after(f)) < DarkShare * Math.Abs(before(f)))) dark.Add(valve);
        }
        return dark;
    }

    private static Func<Filament, double> Volts(Network network, SupplyState cycle, HashSet<string> without)
    {
        var point = OperatingPoint.Of(new(network.NodeNames, network.Reference, network.Elements.Where(e => !without.Contains(e.Name)).SelectMany(e => Heating(e, network, cycle))));
        return f => point.Volts[f.A] - point.Volts[f.B];
    }

    private static IEnumerable<Element> Heating(Element element, Network network, SupplyState cycle) => element switch
    {
        Resistor or Control or Fuse or Switch => [element],
        Filament f => [new Resistor(f.Name, f.A, f.B, Hot(f, cycle))],
        Thermistor t => [new Resistor(t.Name, t.A, t.B, t.ColdOhms)],
        Inductor l => [new Resistor(l.Name, l.A, l.B, l.Ohms)],
        Mains m => [new Battery(m.Name, m.A, m.B, InPhase(network, cycle, m.A, m.B), m.Ohms)],
        Transformer t => t.Windings.Select((w, k) => new Battery($"{t.Name} {k}", w.A, w.B, InPhase(network, cycle, w.A, w.B), Math.Max(w.Ohms, LeastWindingOhms))),
        _ => [],
    };

    private static double Hot(Filament f, SupplyState cycle)
    {
        if (cycle.Currents.GetValueOrDefault(f.Name) is not { Rms: > 0 } amperes) return f.RatedVolts / f.RatedAmperes;
        return Math.Max(Math.Sqrt(cycle.Cycle.Volts.Skip(1).Average(v => (v[f.A] - v[f.B]) * (v[f.A] - v[f.B]))) / amperes.Rms, 1e-2);
    }

    /// <summary>Rms volts between two nodes, below 0 where they fall while the line rises.</summary>
    private static double InPhase(Network network, SupplyState cycle, int a, int b)
    {
        var line = network.Elements.OfType<Mains>().First();
        double square = 0, along = 0;
        foreach (var v in cycle.Cycle.Volts.Skip(1))
        {
            square += (v[a] - v[b]) * (v[a] - v[b]);
            along += (v[a] - v[b]) * (v[line.A] - v[line.B]);
        }
        return (along < 0 ? -1 : 1) * Math.Sqrt(square / (cycle.Cycle.Volts.Length - 1));
    }
}

using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Wake;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Tests.Wake;

/// <summary>Serious faults of kinds and sizes that the stop limits are not set against. Which are serious: common practice, no source.</summary>
internal static class OtherFaults
{
    public static IEnumerable<(string Kind, string Words, Func<Network, Network> In)> Of(WakeSet set)
    {
        var (network, cycle, parts) = (set.Network, set.Solved.Cycle!, set.Solved.Netlist.Map.Book.Parts);
        double Volts(int a, int b) => cycle.Nodes[a].Average - cycle.Nodes[b].Average;
        string Say(double ohms) => ohms >= 1e6 ? $"{ohms / 1e6:0.#} MΩ" : ohms >= 1e3 ? $"{ohms / 1e3:0.#} kΩ" : $"{ohms:0.#} Ω";
        (string, string, Func<Network, Network>) Across(string kind, string what, int a, int b, double ohms) =>
            (kind, string.Create(CultureInfo.InvariantCulture, $"{what} {Say(ohms)}"), n => n.Adding(new Resistor("fault", a, b, ohms)));
        foreach (var c in network.Elements.OfType<Capacitor>())
        {
            var position = set.PositionOf(c.Name);
            if (parts.Named(position) is not { } part) continue;
            var volts = Volts(c.A, c.B);
            if (part.Kind == PartKind.Electrolytic && Math.Abs(volts) > 40)
            {
                foreach (var ohms in new[] { 1.0, 15, 50, 150 }) yield return Across("supply electrolytic shorted", position, c.A, c.B, ohms);
                var (plus, minus) = volts > 0 ? (c.A, c.B) : (c.B, c.A);
                // Backwards the oxide conducts as a poor diode: some volts at some ten milliamperes. From memory.
                foreach (var amperes in new[] { 0.03, 0.1, 0.3 })
                    yield return ("electrolytic reversed, as a diode", string.Create(CultureInfo.InvariantCulture, $"{position} ({amperes * 1e3:0} mA at 6 V)"), n => n.Adding(new Diode("fault", plus, minus, DiodeLaw.Vacuum(6, amperes) with { NeedsHeat = false })));
            }
            else if (part.Kind == PartKind.Electrolytic && Math.Abs(volts) > 3) yield return Across("cathode bypass shorted", position, c.A, c.B, 2);
            else if (part.Kind != PartKind.Electrolytic && Math.Abs(volts) > 40 && network.Elements.OfType<Pentode>().Any(p => (p.Grid == c.A || p.Grid == c.B) && p.Law.Perveance > 0.6e-3))
                foreach (var ohms in new[] { 20e3, 50e3, 220e3, 470e3, 1e6 }) yield return Across("output coupling leaks", position, c.A, c.B, ohms);
        }
        foreach (var d in set.Rectifiers)
            foreach (var ohms in new[] { 2.0, 60, 150 })
                yield return ("rectifier shorted", string.Create(CultureInfo.InvariantCulture, $"{d.Name} {ohms:0} Ω"), n => n.With(new Resistor(d.Name, d.Anode, d.Cathode, ohms)));
        foreach (var p in network.Elements.OfType<Pentode>().Where(p => p.Law.Perveance > 0.6e-3))
            foreach (var ohms in new[] { 10.0, 50, 200 })
            {
                yield return Across("pentode: plate to common", set.PositionOf(p.Name), p.Plate, network.Reference, ohms);
                yield return Across("pentode: screen to common", set.PositionOf(p.Name), p.Screen, network.Reference, ohms);
            }
        foreach (var t in network.Elements.OfType<Transformer>().Where(t => t.Windings.Length > 2))
            for (var k = 1; k < t.Windings.Length; k++)
            {
                var w = t.Windings[k];
                var rms = Math.Sqrt(Math.Pow(cycle.Nodes[w.A].RippleRms, 2) + Math.Pow(cycle.Nodes[w.B].RippleRms, 2));
                if (rms < 1) continue;
                var watts = set.LineVolts * (cycle.Currents.GetValueOrDefault(set.Line.Name)?.Rms ?? 0.3);
                foreach (var share in new[] { 0.6, 2 })
                    yield return ("turns of a secondary shorted", string.Create(CultureInfo.InvariantCulture, $"{t.Name} winding {k + 1}, {share:0.#} × the set's load"), n => n.Adding(new Resistor("fault", w.A, w.B, rms * rms / (share * watts))));
            }
        foreach (var (valve, filament) in set.Solved.Netlist.Heaters)
        {
            if (network.Elements.FirstOrDefault(e => e.Name == filament) is not Filament f) continue;
            var own = set.Solved.Netlist.ElementsOf(valve).ToHashSet(StringComparer.Ordinal);
            int? cathode = network.Elements.Where(e => own.Contains(e.Name)).Select(e => e switch { Triode t => t.Cathode, Pentode p => p.Cathode, Converter c => c.Cathode, Diode d => (int?)d.Cathode, _ => null }).FirstOrDefault(c => c is not null);
            if (cathode is not { } k || k == f.A || k == f.B) continue;
            foreach (var ohms in new[] { 10.0, 200, 1000 }) yield return Across("heater touches cathode", valve, f.B, k, ohms);
        }
        // The bleeder: what takes most from the highest supply straight to common.
        var supply = set.Supplies.IsEmpty ? -1 : set.Supplies[0].Node;
        if (network.Elements.OfType<Resistor>().Where(r => (r.A == supply && r.B == network.Reference || r.B == supply && r.A == network.Reference)).MinBy(r => r.Ohms) is { } bleeder)
            yield return ("bleeder open", bleeder.Name, n => n.With(bleeder with { Ohms = 1e9 }));
        foreach (var (node, lug, _) in set.Supplies)
            foreach (var ohms in new[] { 10.0, 30, 100, 300 }) yield return Across("supply to common", lug, node, network.Reference, ohms);
    }
}

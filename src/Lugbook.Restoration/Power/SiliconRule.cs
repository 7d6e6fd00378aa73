using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Power;

/// <summary>Puts silicon in place of all rectifiers of the supply (a bias rectifier is left as it is), and finds the series resistor that brings the volts back.</summary>
/// <remarks>One resistor behind each diode; the secant rule on the mean volts of the first output, from the cycle itself, to a fifth of a per cent, then the nearest E12 value.</remarks>
internal static class SiliconRule
{
    private const double High = 1 + SolveStage.LineShare;
    private const int Rounds = 5;
    // Ratings on sale, W: common practice, no source.
    private static readonly double[] Ratings = [1, 2, 3, 5, 10, 25, 50];

    /// <param name="runs">The supply.</param>
    /// <param name="share">Line that the volts are brought back for, over the set's.</param>
    public static SiliconSwap? Of(Runs runs, double share)
    {
        // Silicon already: nothing to change.
        var old = runs.Rectifiers.Where(d => !runs.DeliversMinus(d)).Where(d => d.Law.NeedsHeat || d.Law != DiodeLaw.Silicon()).ToArray();
        if (old.Length == 0 || runs.Solved.Cycle is not { } before) return null;
        var output = runs.Last!.Cathode;
        var target = before.Nodes[output].Average;
        double? At(double ohms) => runs.Cycle(Changed(runs, old, ohms, share))?.Nodes[output].Average;
        if (At(0) is not { } bare) return null;
        var amperes = old.Max(d => before.Currents[d.Name].Average);
        var (ohms, volts) = bare > target * 1.002 && amperes > 0 ? Back(At, bare, target, amperes) : (0.0, bare);
        if (ohms > 0)
        {
            ohms = PreferredValues.Nearest(ohms, PreferredSeries.E12);
            volts = At(ohms) ?? volts;
        }
        var after = runs.Cycle(Changed(runs, old, ohms, share * High));
        if (after is null) return null;
        var heat = ohms > 0 ? old.Max(d => after.Currents[d.Name].Rms * after.Currents[d.Name].Rms) * ohms : 0;
        var lift = runs.Solved.Rectifiers.First(r => r.Element == old[0].Name).LiftVolts;
        var start = Start(runs, old, output, share * High) ?? lift * share * High;
        var under = Under(runs, output, start);
        var swap = new SiliconSwap
        {
            Positions = [.. old.Select(d => runs.PositionOf(d.Name)).Distinct(StringComparer.OrdinalIgnoreCase)],
            VoltsBefore = target, VoltsBare = bare, SeriesOhms = ohms, VoltsAfter = volts,
            SeriesWatts = ohms > 0 ? Ratings.FirstOrDefault(w => w >= 2 * heat, Ratings[^1]) : 0,
            InverseVolts = old.Max(d => Runs.Inverse(after, d)), StartVolts = start, Under = under, Sentences = [],
        };
        return swap with { Sentences = [.. Sentences(runs, old, swap, heat)] };
    }

    private static (double Ohms, double Volts) Back(Func<double, double?> at, double bare, double target, double amperes)
    {
        var (lastOhms, lastVolts) = (0.0, bare);
        // A reservoir's current flows in pulses of about five times the mean.
        var ohms = (bare - target) / (5 * amperes);
        var volts = bare;
        for (var round = 0; round < Rounds; round++)
        {
            if (at(ohms) is not { } now) break;
            volts = now;
            if (Math.Abs(now - target) < 0.002 * Math.Abs(target) || Math.Abs(now - lastVolts) < 1e-6) break;
            var next = ohms + (target - now) * (ohms - lastOhms) / (now - lastVolts);
            (lastOhms, lastVolts, ohms) = (ohms, now, Math.Clamp(next, 0.1, 100 * ohms));
        }
        return (ohms, volts);
    }

    private static Network Changed(Runs runs, Diode[] old, double ohms, double share)
    {
        var names = runs.Network.NodeNames.ToBuilder();
        var network = runs.AtLine(share);
        var elements = network.Elements.Where(e => !old.Any(d => d.Name == e.Name)).ToList();
        foreach (var d in old)
        {
            if (ohms <= 0)
            {
                elements.Add(d with { Law = DiodeLaw.Silicon() });
                continue;
            }
            names.Add($"{d.Name} series");
            elements.Add(new Diode(d.Name, d.Anode, names.Count - 1, DiodeLaw.Silicon()));
            elements.Add(new Resistor($"{d.Name} series", names.Count - 1, d.Cathode, ohms));
        }
        return new(names, network.Reference, elements);
    }

    // Before any valve draws: the valves' currents gone, the cycle solved once more.
    private static double? Start(Runs runs, Diode[] old, int output, double share)
    {
        var changed = Changed(runs, old, 0, share);
        var cold = new Network(changed.NodeNames, changed.Reference, changed.Elements.Where(e => e is not (Triode or Pentode or Converter or CurrentDrain or GasRegulator)));
        return runs.Cycle(cold)?.Nodes[output].Highest;
    }

    // What resistors and windings join to the output, and no valve: it all rises to the peak.
    private static ImmutableArray<string> Under(Runs runs, int output, double start)
    {
        var reached = new HashSet<int> { output };
        bool grown;
        do
        {
            grown = false;
            foreach (var e in runs.Network.Elements)
            {
                var ends = e switch { Resistor r when r.Ohms < 100e3 => (r.A, r.B), Inductor l => (l.A, l.B), Fuse f => (f.A, f.B), Switch { Closed: true } s => (s.A, s.B), _ => (-1, -1) };
                if (ends.Item1 < 0 || ends.Item1 == runs.Network.Reference || ends.Item2 == runs.Network.Reference) continue;
                if (reached.Contains(ends.Item1)) grown |= reached.Add(ends.Item2);
                else if (reached.Contains(ends.Item2)) grown |= reached.Add(ends.Item1);
            }
        }
        while (grown);
        var map = runs.Solved.Netlist.Map;
        return [.. map.Book.Parts.Where(p => p.Kind.IsFixedCapacitor() && p.RatedVolts is > 0 && p.RatedVolts < start
            && (Joins(p.LeadA, p.LeadB) || Joins(p.LeadB, p.LeadA))).Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Name} {p.RatedVolts:0} V"))];
        bool Joins(string? hot, string? cold) => map.NodeOf(hot) is { } h && reached.Contains(h.Index) && map.NodeOf(cold)?.Index == runs.Network.Reference;
    }

    private static IEnumerable<string> Sentences(Runs runs, Diode[] old, SiliconSwap s, double heat)
    {
        string Say(FormattableString f) => f.ToString(CultureInfo.InvariantCulture);
        yield return Say($"Silicon alone would raise the supply from {s.VoltsBefore:0} to {s.VoltsBare:0} V.")
            + (s.SeriesOhms > 0 ? Say($" {Notation.Print(s.SeriesOhms, Unit.Ohm)} {s.SeriesWatts:0} W in series with {(s.Positions.Length > 1 ? "each" : "it")} brings it back to {s.VoltsAfter:0} V; it turns {heat:0.#} W to heat.") : " No resistor is needed.");
        yield return Say($"Each diode sees {s.InverseVolts:0} V backwards with the line 10 % high: a 1 A, 1000 V type will do{(s.InverseVolts > 800 ? ", two in series here" : "")}.");
        yield return Say($"It conducts at once: {s.StartVolts:0} V stand at the first capacitor before any valve draws.") + (s.Under.IsEmpty ? " Every marked rating on that supply bears it." : $" Marked below that: {string.Join(", ", s.Under)}. A thermistor or a delay keeps that from them; better ratings are surer.");
        foreach (var d in old.Where(d => d.Law.NeedsHeat).DistinctBy(d => runs.Solved.Netlist.Valves.FirstOrDefault(v => v.Element == d.Name)?.Valve))
            if (runs.Solved.Netlist.Heaters.TryGetValue(d.Name, out var name) && runs.Network.Elements.FirstOrDefault(e => e.Name == name) is Filament f)
                yield return Say($"If the valve is pulled and its heater stands in a series string, {f.RatedVolts / f.RatedAmperes:0} Ω {2 * f.RatedVolts * f.RatedAmperes:0} W must take its heater's place, or the string is dark; across a winding nothing is needed. The valve may stay lit for the look.");
    }
}

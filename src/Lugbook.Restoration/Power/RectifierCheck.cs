using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Power;

/// <summary>Holds each rectifier's computed currents and volts against its handbook line, and finds how large its first capacitor may be.</summary>
/// <remarks>
/// Steady currents come from the cycle. Hot switching: the first peak into an empty reservoir while the cathode is hot is where the peak volts (line 10 % high) are shared by source resistance and the
/// rectifier's own law; it lasts about 3·Rs·C. The handbook's largest first capacitor holds where the source resistance is at least the handbook's least; where it is less, resistance is to be added first.
/// </remarks>
internal static class RectifierCheck
{
    private const double High = 1 + SolveStage.LineShare;
    private const double ReturnOhms = 3300;      // as the map counts what leads on
    private static readonly double[] Larger = [2, 4];

    public static IEnumerable<RectifierReport> Of(Runs runs, ImmutableArray<RectifierLimit> limits)
    {
        if (runs.Solved.Cycle is not { } cycle || runs.Cycle(runs.AtLine(High)) is not { } high) yield break;
        foreach (var part in runs.Rectifiers.GroupBy(d => runs.PositionOf(d.Name), StringComparer.OrdinalIgnoreCase))
            yield return Report(runs, part.Key, [.. part], cycle, high, limits);
    }

    private static RectifierReport Report(Runs runs, string position, Diode[] plates, SupplyState cycle, SupplyState high, ImmutableArray<RectifierLimit> limits)
    {
        var part = runs.Solved.Netlist.Map.Book.Parts.Named(position);
        var isValve = plates[0].Law.NeedsHeat;
        var limit = isValve ? ChooseStage.LimitOf(limits, part?.Marked) : null;
        var peak = plates.Max(d => high.Currents[d.Name].Peak);
        var direct = plates.Sum(d => high.Currents[d.Name].Average);
        var inverse = plates.Max(d => Runs.Inverse(high, d));
        var reservoir = Reservoir(runs, plates[0]);
        var ohms = SourceOhms(runs, plates[0], reservoir);
        var hot = ohms is { } rs ? HotPeak(runs.Solved.Rectifiers.First(r => r.Element == plates[0].Name).LiftVolts * High, rs, plates[0].Law) : (double?)null;
        var checks = ImmutableArray.CreateBuilder<LimitCheck>();
        checks.Add(new("direct current", "A", direct, limit?.DirectAmperes));
        checks.Add(new("peak current of a plate", "A", peak, limit?.PeakAmperes));
        checks.Add(new("peak inverse volts", "V", inverse, limit?.PeakInverseVolts));
        if (ohms is { } source) checks.Add(new("source resistance of a plate", "Ω", source, limit?.LeastSupplyOhms, IsLeast: true));
        if (hot is { } first) checks.Add(new("first peak, switched on hot", "A", first, limit?.HotSwitchAmperes));
        if (reservoir is not null) checks.Add(new("first capacitor", "F", reservoir.Farads, limit?.MaxInputFarads));
        var (largest, why) = Largest(limit, ohms, reservoir, isValve);
        return new()
        {
            Position = position,
            Type = part?.Marked,
            IsValve = isValve,
            OutputVolts = cycle.Nodes[runs.OutputOf(plates[0])].Average,
            Checks = checks.ToImmutable(),
            HotSwitchAmperes = hot,
            Sizes = reservoir is null ? [] : [.. Sizes(runs, plates[0], reservoir, cycle)],
            LargestFarads = largest,
            Sentence = Sentence(position, checks, hot, ohms, reservoir, why),
        };
    }

    private static (double? Farads, string Why) Largest(RectifierLimit? limit, double? ohms, Capacitor? reservoir, bool isValve)
    {
        if (reservoir is null) return (null, "No capacitor stands from its output to common.");
        if (!isValve) return (null, "No valve limits the first capacitor; mind the diode's surge rating and the fuse.");
        if (limit?.MaxInputFarads is not { } most) return (Math.Max(reservoir.Farads, Math.Min(1.5 * reservoir.Farads, 47e-6)), "Its handbook limit is not known: not more than half as much again, and 47 µF.");
        if (limit.LeastSupplyOhms is { } least && ohms is { } rs && rs < least)
            return (reservoir.Farads, Say($"The handbook asks for {least:0} Ω a plate and {rs:0} Ω are there: before a larger capacitor comes {least - rs:0} Ω in each plate lead."));
        return (most, $"The handbook allows {Notation.Print(most, Unit.Farad)} with this source resistance.");
    }

    // The largest capacitor from the rectifier's output to common, or to the winding's tap where a bias resistance keeps that from common. In a doubler the first rectifier has none.
    private static Capacitor? Reservoir(Runs runs, Diode diode)
    {
        var returns = new HashSet<int> { runs.Network.Reference };
        while (runs.Network.Elements.OfType<Resistor>().Where(r => r.Ohms <= ReturnOhms).FirstOrDefault(r => returns.Contains(r.A) != returns.Contains(r.B)) is { } way) returns.UnionWith([way.A, way.B]);
        var output = runs.OutputOf(diode);
        return returns.Contains(output) ? null
            : runs.Network.Elements.OfType<Capacitor>().Where(c => c.Farads >= 0.5e-6 && (c.A == output && returns.Contains(c.B) || c.B == output && returns.Contains(c.A))).MaxBy(c => c.Farads);
    }

    private static IEnumerable<ReservoirSize> Sizes(Runs runs, Diode diode, Capacitor reservoir, SupplyState now)
    {
        ReservoirSize Size(double farads, SupplyState c) => new(farads, c.Nodes[runs.OutputOf(diode)].Average, c.Nodes[runs.OutputOf(diode)].RipplePeakToPeak, c.Currents[diode.Name].Peak);
        yield return Size(reservoir.Farads, now);
        foreach (var factor in Larger)
            if (runs.Cycle(runs.Network.With(reservoir with { Farads = reservoir.Farads * factor })) is { } cycle) yield return Size(reservoir.Farads * factor, cycle);
    }

    /// <summary>What a plate sees towards the other end of its reservoir (else common) at the line's frequency, the other rectifiers blocked, Ω; null where it sees none.</summary>
    private static double? SourceOhms(Runs runs, Diode diode, Capacitor? reservoir)
    {
        var without = new Network(runs.Network.NodeNames, runs.Network.Reference, runs.Network.Elements.Where(e => e is not Diode and not Triode and not Pentode and not Converter and not GasRegulator)
            .Select(e => e is Mains m ? new Resistor(m.Name, m.A, m.B, m.Ohms) : e));
        var seen = Impedance.Between(without, runs.DeliversMinus(diode) ? diode.Cathode : diode.Anode, reservoir is null ? without.Reference : reservoir.A == runs.OutputOf(diode) ? reservoir.B : reservoir.A, runs.Line.Hertz).SeriesOhms;
        return double.IsFinite(seen) && seen is > 0 and < 5000 ? seen : null;
    }

    /// <summary>I with V = I·Rs + V(I), V(I) from the diode's law by bisection.</summary>
    private static double HotPeak(double volts, double ohms, DiodeLaw law)
    {
        var (low, high) = (0.0, volts / ohms);
        for (var k = 0; k < 60; k++)
        {
            var amperes = (low + high) / 2;
            var drop = law.OffsetVolts + Math.Pow(amperes / law.Perveance, 1 / law.Exponent);
            if (amperes * ohms + drop < volts) low = amperes; else high = amperes;
        }
        return low;
    }

    private static string Sentence(string position, IEnumerable<LimitCheck> checks, double? hot, double? ohms, Capacitor? reservoir, string why)
    {
        var passed = checks.Where(c => c.Passed == true).Select(c => c.Unit == "F"
            ? $"{c.What} {Notation.Print(c.Amount, Unit.Farad)}, allowed {Notation.Print(c.Limit!.Value, Unit.Farad)}"
            : Say($"{c.What} {c.Amount:0.###} {c.Unit}, {(c.IsLeast ? "asked for" : "allowed")} {c.Limit:0.###} {c.Unit}")).ToArray();
        var unknown = checks.All(c => c.Limit is null);
        var surge = hot is { } i && ohms is { } rs && reservoir is { } c ? Say($" Switched on again while hot, the first peak is {i:0.0} A for about {3 * rs * c.Farads * 1e3:0.#} ms.") : "";
        return $"{position}: {(passed.Length > 0 ? $"with the line 10 % high it passes {string.Join("; ", passed)}." : unknown ? "its limits are not known." : "with the line 10 % high every known limit is kept.")}{surge} {why}";
    }

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}

using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Sheet;

/// <summary>Volts and watts of every part and electrode, at their normal and at their worst moment.</summary>
internal static class Stresses
{
    private const double Off = 1e-9;
    private const string Warm = "warm, normal line";

    public sealed record Found(ImmutableArray<PartStress> Parts, ImmutableArray<ValveStress> Valves, ImmutableArray<string> Moments);

    /// <param name="Name">In words.</param>
    /// <param name="Volts">Direct volts of every node.</param>
    /// <param name="Network">What conducts.</param>
    /// <param name="LineShare">Its line over the set's.</param>
    /// <param name="Loaded">Does the supply deliver its current, so that it hums?</param>
    private sealed record Moment(string Name, double[] Volts, Network Network, double LineShare, bool Loaded);

    public static Found Of(SolveResult solved, SheetConditions how)
    {
        var moments = Moments(solved, how);
        var parts = solved.Netlist.Map.Book.Parts.Where(p => p.Kind != PartKind.Valve).Select(p => Part(p, solved, moments)).OfType<PartStress>().ToImmutableArray();
        var valves = solved.Netlist.Valves.SelectMany(v => Valve(v, how.ValveLimits(v.Type, v.Section), moments)).ToImmutableArray();
        return new(parts, valves, [.. moments.Select(m => m.Name)]);
    }

    private static List<Moment> Moments(SolveResult solved, SheetConditions how)
    {
        var direct = solved.Direct!;
        var conducting = solved.Netlist.Valves.Where(v => direct.Elements.Any(e => e.Name == v.Element && e is Triode or Pentode or Converter)).ToArray();
        var table = new VariantTable(direct,
        [
            .. conducting.Select(v => new Varied(v.Element, Parameter.Perveance)), .. solved.Rectifiers.Select(r => new Varied(r.Source, Parameter.Volts)),
            .. solved.Netlist.WarmOnly.Select(w => new Varied(w, Parameter.Ohms)), .. solved.Netlist.Balances.Select(b => new Varied(b.Element, Parameter.Amperes)),
        ]);
        var list = new List<(string Name, int Variant, double Share, string[] Dead, bool Loaded)>();
        IEnumerable<(string, Parameter, double)> Line(double share) => solved.Rectifiers.Select(r => (r.Source, Parameter.Volts, r.LiftVolts * share));
        IEnumerable<(string, Parameter, double)> Dead(string element) => table.Holds(element, Parameter.Perveance) ? [(element, Parameter.Perveance, table.NominalOf(element, Parameter.Perveance) * Off)] : [];
        var high = Math.Max(how.TodayLineShare, 1) * (1 + SolveStage.LineShare);
        if (!table.IsEmpty)
        {
            list.Add((Warm, table.Add(Line(how.TodayLineShare)), how.TodayLineShare, [], true));
            if (!solved.Rectifiers.IsEmpty)
            {
                list.Add((string.Create(CultureInfo.InvariantCulture, $"line {100 * (high - 1):0} % high"), table.Add(Line(high)), high, [], true));
                list.Add((ColdStart(solved), table.Add(
                [
                    .. Line(high), .. conducting.SelectMany(v => Dead(v.Element)), .. solved.Netlist.WarmOnly.Select(w => (w, Parameter.Ohms, double.PositiveInfinity)),
                    .. solved.Netlist.Balances.Select(b => (b.Element, Parameter.Amperes, 0.0)),
                ]), high, [.. conducting.Select(v => v.Element)], false));
            }
            foreach (var valve in conducting.Select(v => v.Valve).Distinct(StringComparer.Ordinal)) list.Add(Pulled(valve));
        }
        // What loses its heat with the pulled valve is as if pulled too; a rectifier that goes out gives nothing.
        (string, int, double, string[], bool) Pulled(string valve)
        {
            var dark = HeaterStrings.Dark(solved, valve);
            bool IsDark(string element) => solved.Netlist.Valves.Any(v => v.Element == element && dark.Contains(v.Valve));
            string[] dead = [.. solved.Netlist.Valves.Where(v => dark.Contains(v.Valve)).Select(v => v.Element)];
            var supply = solved.Rectifiers.Select(r => (r.Source, Parameter.Volts, IsDark(r.Element) ? 0 : r.LiftVolts * how.TodayLineShare));
            // What is warm only with the set, and what declared voltages imply, goes out with the last valve.
            var all = conducting.All(v => IsDark(v.Element));
            var variant = table.Add(
            [
                .. supply, .. dead.SelectMany(Dead), .. all ? solved.Netlist.WarmOnly.Select(w => (w, Parameter.Ohms, double.PositiveInfinity)) : [],
                .. all ? solved.Netlist.Balances.Select(b => (b.Element, Parameter.Amperes, 0.0)) : [],
            ]);
            var others = dark.Count - 1;
            return (others == 0 ? $"{valve} pulled" : $"{valve} pulled, which puts its heater string out", variant, how.TodayLineShare, dead, !solved.Rectifiers.Any(r => IsDark(r.Element)));
        }

        if (list.Count == 0) return [new(Warm, [.. solved.Point!.Volts], direct, how.TodayLineShare, true)];
        var result = table.Solve();
        return [.. list.Where(m => result.ReasonOf(m.Variant) is null).Select(m => new Moment(m.Name, result.VoltsOf(m.Variant).ToArray(), Without(direct, m.Dead), m.Share, m.Loaded))];
    }

    // A filament rectifier, selenium and silicon deliver the peak before any other valve is warm; one with a cathode of its own warms with the rest.
    private static string ColdStart(SolveResult solved) =>
        Delivering(solved).All(r => solved.Netlist.Valves.FirstOrDefault(v => v.Element == r.Element) is { } valve && HasCathode(solved, valve.Valve))
            ? "switched on with the rectifier warm first (it seldom is), line high"
            : "switched on, valves still cold, line high";

    // A bias rectifier charges nothing above common.
    private static IEnumerable<AveragedRectifier> Delivering(SolveResult solved) =>
        solved.Rectifiers.Where(r => solved.Cycle is not { } cycle || solved.Netlist.Network!.Elements.OfType<Diode>().FirstOrDefault(d => d.Name == r.Element) is not { } diode || cycle.Nodes[diode.Cathode].Average > 1);

    private static bool HasCathode(SolveResult solved, string valve) =>
        solved.Netlist.Map.Nodes.SelectMany(n => n.Pins).Any(p => p.Valve.Name == valve && p.Has(ElectrodeKind.Cathode));

    // A valve that does not conduct must not be given currents by its law.
    private static Network Without(Network direct, string[] dead) =>
        dead.Length == 0 ? direct : new(direct.NodeNames, direct.Reference, direct.Elements.Where(e => !dead.Contains(e.Name)));

    private static PartStress? Part(Part part, SolveResult solved, List<Moment> moments)
    {
        var map = solved.Netlist.Map;
        if (map.NodeOf(part.LeadA) is not { } a || map.NodeOf(part.LeadB) is not { } b || a == b) return null;
        if (part.Kind is PartKind.Switch or PartKind.Fuse or PartKind.Lamp or PartKind.Winding or PartKind.Speaker or PartKind.SubUnit or PartKind.Thermistor or PartKind.Other) return null;
        var (peak, rms) = Alternating(solved, a.Index, b.Index);
        // Hum of a loaded supply, or what the line itself puts across the part.
        var fromLine = peak > Math.Abs(moments[0].Volts[a.Index] - moments[0].Volts[b.Index]);
        var volts = Worst(moments, m => Math.Abs(m.Volts[a.Index] - m.Volts[b.Index]) + (m.Loaded || fromLine ? peak * m.LineShare : 0));
        var isResistor = part.Kind is PartKind.Resistor or PartKind.Control;
        var watts = isResistor ? Worst(moments, m => Watts(m, solved.Netlist.ElementsOf(part.Name)) + (part.Value is { } ohms and > 0 && part.Kind == PartKind.Resistor ? Math.Pow(rms * m.LineShare, 2) / ohms : 0)) : null;
        var amperes = part.Kind.IsCapacitor() && solved.Cycle?.Currents.TryGetValue(part.Name, out var c) == true ? c.Rms : (double?)null;
        return new(part.Name, volts, watts, amperes, part.RatedVolts, part.RatedWatts, Over(part, volts, watts));
    }

    private static string? Over(Part part, Stress volts, Stress? watts)
    {
        if (part.RatedVolts is { } rated and > 0 && part.Kind.IsCapacitor() && volts.Worst > rated)
            return string.Create(CultureInfo.InvariantCulture, $"{volts.Worst:0} V across it when {volts.Moment}; marked {rated:0} V");
        if (part.RatedWatts is { } marked and > 0 && watts is not null && watts.Worst > marked)
            return string.Create(CultureInfo.InvariantCulture, $"{watts.Worst:0.##} W in it when {watts.Moment}; marked {marked:0.##} W");
        return null;
    }

    /// <summary>What alternates across a part: its peak above the mean, and its rms.</summary>
    private static (double Peak, double Rms) Alternating(SolveResult solved, int a, int b)
    {
        if (solved.Cycle is not { } cycle) return (0, 0);
        var across = cycle.Cycle.Volts.Skip(1).Select(v => v[a] - v[b]).ToArray();
        var mean = across.Average();
        return (Math.Max(across.Max() - mean, mean - across.Min()), Math.Sqrt(across.Average(v => (v - mean) * (v - mean))));
    }

    private static double Watts(Moment moment, IEnumerable<string> elements)
    {
        double watts = 0;
        foreach (var name in elements)
            if (moment.Network.Elements.FirstOrDefault(e => e.Name == name) is { } element and (Resistor or Control))
                foreach (var (node, amperes) in Currents.Into(element, moment.Volts)) watts += moment.Volts[node] * amperes;
        return watts;
    }

    private static Stress Worst(List<Moment> moments, Func<Moment, double> amount)
    {
        var worst = moments.MaxBy(amount)!;
        return new(amount(moments[0]), amount(worst), worst.Name);
    }

    private static IEnumerable<ValveStress> Valve(ValveElement valve, ValveLimits? limits, List<Moment> moments)
    {
        foreach (var (electrode, unit, limit, amount) in new (string, string, double?, Func<Moment, double?>)[]
        {
            ("plate", "W", limits?.PlateWatts, m => Electrode(m, valve.Element, 0)),
            ("screen", "W", limits?.ScreenWatts, m => Electrode(m, valve.Element, 1)),
            ("cathode current", "A", limits?.CathodeAmperes, m => Cathode(m, valve.Element)),
            // Only while it draws current, and at today's line: design-centre limits leave room for the line, and makers allow more on a cold valve (from memory).
            ("plate volts", "V", limits?.PlateVolts, m => m.LineShare > moments[0].LineShare ? null : ToCathode(m, valve.Element, 0)),
            ("screen volts", "V", limits?.ScreenVolts, m => m.LineShare > moments[0].LineShare ? null : ToCathode(m, valve.Element, 1)),
        })
        {
            if (amount(moments[0]) is null) continue;
            var stress = Worst(moments, m => amount(m) ?? 0);
            yield return new(valve.Valve, valve.Section, electrode, unit, stress, limit, Over(electrode, unit, stress, limit));
        }
    }

    private static string? Over(string electrode, string unit, Stress stress, double? limit) =>
        limit is not { } most || stress.Worst <= most ? null
        : unit == "V" ? string.Create(CultureInfo.InvariantCulture, $"{stress.Worst:0} V from {electrode.Split(' ')[0]} to cathode when {stress.Moment}; limit {most:0} V")
        : unit == "W" ? string.Create(CultureInfo.InvariantCulture, $"{stress.Worst:0.##} W in its {electrode} when {stress.Moment}; limit {most:0.##} W")
        : string.Create(CultureInfo.InvariantCulture, $"{stress.Worst * 1e3:0.#} mA from its cathode when {stress.Moment}; limit {most * 1e3:0.#} mA");

    private static double? Electrode(Moment moment, string element, int which) => Flow(moment, element, which) is var (volts, amperes) ? volts * amperes : null;

    private static double? ToCathode(Moment moment, string element, int which) => Flow(moment, element, which)?.Volts;

    private static (double Volts, double Amperes)? Flow(Moment moment, string element, int which)
    {
        var found = moment.Network.Elements.FirstOrDefault(e => e.Name == element);
        int? cathode = found switch { Triode t => t.Cathode, Pentode p => p.Cathode, Converter c => c.Cathode, _ => null };
        if (cathode is not { } k || which == 1 && found is Triode) return null;
        var (node, amperes) = Currents.Into(found!, moment.Volts)[which];
        return (moment.Volts[node] - moment.Volts[k], amperes);
    }

    private static double? Cathode(Moment moment, string element)
    {
        var found = moment.Network.Elements.FirstOrDefault(e => e.Name == element);
        if (found is not (Triode or Pentode or Converter or Diode)) return null;
        return -Currents.Into(found, moment.Volts)[^1].Amperes;
    }
}

using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Bounds;

/// <summary>How much leakage and drift does each position bear before the first limit is passed?</summary>
/// <remarks>
/// Every capacitor gets a leakage and every resistor another value, in steps of a ladder, all solved as variants of one network; between the last step that passes no limit and the
/// first that does, the ladder is refined six times. Limits: marked volts and watts, a tenth of any valve's current, any plate, screen or cathode reading outside the healthy
/// sets' (docs/bounds.md). Direct current only: what a changed value does to signals is not asked here.
/// </remarks>
public static class BoundsStage
{
    /// <summary>No leakage below this is tried, Ω: the part is then a resistor and not a capacitor.</summary>
    public const double LeastLeakOhms = 10e3;
    private const double MostLeakOhms = 100e9;
    private const double LeastShare = 0.2, MostShare = 10;
    private const int Samples = 400, Refinements = 6;
    // A leak that turns a tenth of a watt into heat inside a small capacitor runs away, half a watt in a can; common practice, no source.
    private const double HeatWatts = 0.1, CanHeatWatts = 0.5;

    /// <summary>Pure: the same solved set, the same bounds.</summary>
    public static BoundsResult Run(SolveResult solved)
    {
        if (solved.Direct is not { } direct) return new() { Reason = solved.Reason, Positions = [] };
        var asked = Asked(solved, direct);
        var table = new VariantTable(direct, [.. asked.Select(a => new Varied(a.Element, Parameter.Ohms)), .. solved.Spreads.Select(s => new Varied(s.Element, s.Parameter))]);
        if (table.IsEmpty) return new() { Positions = [] };
        try
        {
            var nominal = solved.Point!.Volts.ToArray();
            var limits = new Limits(solved, nominal, Healthy(solved, direct));
            var down = Ladder(direct, limits, asked, up: false);
            var up = Ladder(direct, limits, asked, up: true);
            return new() { Positions = [.. asked.Select(a => Bound(a, solved, down.GetValueOrDefault(a.Element), up.GetValueOrDefault(a.Element)))] };
        }
        catch (UnsolvableException e)
        {
            return new() { Reason = e.Message, Positions = [] };
        }
    }

    private sealed record Position(Part Part, string Element, double Ohms, bool IsCapacitor, double LineRms);

    private static Position[] Asked(SolveResult solved, Network direct)
    {
        var list = new List<Position>();
        foreach (var part in solved.Netlist.Map.Book.Parts.Where(p => p.Kind.IsCapacitor() || p.Kind == PartKind.Resistor))
        {
            var element = solved.Netlist.ElementsOf(part.Name).Select(n => direct.Elements.FirstOrDefault(e => e.Name == n)).FirstOrDefault(e => e is Capacitor or Resistor);
            if (element is Capacitor c) list.Add(new(part, c.Name, c.LeakOhms, true, Rms(solved, c.A, c.B)));
            else if (element is Resistor r && !solved.Spreads.Any(s => s.Element == r.Name && s.Cause == SpreadCause.Unknown)) list.Add(new(part, r.Name, r.Ohms, false, 0));
        }
        return [.. list];
    }

    private static double Rms(SolveResult solved, int a, int b)
    {
        if (solved.Cycle is not { } cycle) return Math.Abs(solved.Point!.Volts[a] - solved.Point.Volts[b]);
        return Math.Sqrt(cycle.Cycle.Volts.Skip(1).Average(v => (v[a] - v[b]) * (v[a] - v[b])));
    }

    private static Dictionary<int, (double, double)> Healthy(SolveResult solved, Network direct)
    {
        var table = new VariantTable(direct, solved.Spreads.Select(s => new Varied(s.Element, s.Parameter)));
        if (table.IsEmpty) return [];
        foreach (var sample in HealthySamples.Of(solved.Spreads, Samples)) table.Add(sample);
        var result = table.Solve();
        return Enumerable.Range(0, solved.Netlist.Map.Nodes.Length).ToDictionary(n => n, n =>
        {
            var volts = Enumerable.Range(0, Samples).Select(v => result.VoltsOf(v)[n]).Where(double.IsFinite).Order().ToArray();
            return volts.Length == 0 ? (double.NegativeInfinity, double.PositiveInfinity) : (volts[(int)(0.025 * (volts.Length - 1))], volts[(int)Math.Ceiling(0.975 * (volts.Length - 1))]);
        });
    }

    /// <summary>For each element the value nearest nominal at which a limit is passed.</summary>
    private static Dictionary<string, (double Ohms, PassedLimit Limit)> Ladder(Network direct, Limits limits, Position[] asked, bool up)
    {
        var open = asked.Where(a => !up || !a.IsCapacitor).ToDictionary(a => a.Element, a => a.IsCapacitor ? (Good: MostLeakOhms, Bad: double.NaN) : (Good: a.Ohms, Bad: double.NaN));
        var passed = new Dictionary<string, (double, PassedLimit)>();
        var rungs = asked.Where(a => open.ContainsKey(a.Element)).ToDictionary(a => a.Element, a => Rungs(a, up));
        Try(rungs);
        for (var k = 0; k < Refinements; k++)
            Try(open.Where(o => !double.IsNaN(o.Value.Bad)).ToDictionary(o => o.Key, o => new[] { Math.Sqrt(o.Value.Good * o.Value.Bad) }));
        return passed;

        void Try(Dictionary<string, double[]> tries)
        {
            if (tries.Count == 0) return;
            var table = new VariantTable(direct, tries.Keys.Select(e => new Varied(e, Parameter.Ohms)));
            var rows = new List<(string Element, double Ohms, int Variant)>();
            foreach (var (element, values) in tries)
                foreach (var ohms in values) rows.Add((element, ohms, table.Add([(element, Parameter.Ohms, ohms)])));
            var result = table.Solve();
            foreach (var group in rows.GroupBy(r => r.Element))
            {
                var part = asked.First(a => a.Element == group.Key);
                foreach (var (element, ohms, variant) in group)
                {
                    var limit = result.ReasonOf(variant) is null ? Check(limits, direct, part, result.VoltsOf(variant), ohms) : new("unsolvable", part.Part.Name, "the circuit no longer settles");
                    if (limit is null)
                    {
                        open[element] = open[element] with { Good = ohms };
                        continue;
                    }
                    open[element] = open[element] with { Bad = ohms };
                    passed[element] = (ohms, limit);
                    break;
                }
            }
        }
    }

    private static PassedLimit? Check(Limits limits, Network direct, Position position, ReadOnlySpan<double> volts, double ohms)
    {
        var element = direct.Elements.First(e => e.Name == position.Element);
        Element changed = element is Capacitor c ? new Resistor(c.Name, c.A, c.B, ohms) : ((Resistor)element) with { Ohms = ohms };
        if (position.IsCapacitor && changed is Resistor leak)
        {
            var across = Math.Max(Math.Abs(volts[leak.A] - volts[leak.B]), position.LineRms);
            if (across * across / ohms > (position.Part.Kind == PartKind.Electrolytic ? CanHeatWatts : HeatWatts))
                return limits.First(volts, position.Part.Name, changed) ?? new("heat", position.Part.Name, string.Create(CultureInfo.InvariantCulture, $"its leak turns {across * across / ohms:0.##} W into heat inside it at {across:0} V"));
        }
        return limits.First(volts, position.Part.Name, changed);
    }

    private static double[] Rungs(Position position, bool up)
    {
        var (from, to, steps) = position.IsCapacitor ? (MostLeakOhms, LeastLeakOhms, 22) : up ? (position.Ohms * 1.03, position.Ohms * MostShare, 16) : (position.Ohms / 1.03, position.Ohms * LeastShare, 14);
        return [.. Enumerable.Range(0, steps).Select(k => from * Math.Pow(to / from, k / (double)(steps - 1)))];
    }

    private static PositionBound Bound(Position a, SolveResult solved, (double Ohms, PassedLimit Limit) down, (double Ohms, PassedLimit Limit) up)
    {
        var name = a.Part.Name;
        var known = !solved.Spreads.Any(s => s.Cause == SpreadCause.Unknown);
        if (a.IsCapacitor)
        {
            var sentence = down.Limit is null
                ? $"{name}: even {Notation.Print(LeastLeakOhms, Unit.Ohm)} of leakage passes no limit of direct current here."
                : $"{name}: below {Show(down.Ohms)} of insulation {down.Limit.Sentence}.";
            return new(name, down.Limit is null ? null : down.Ohms, down.Limit, null, null, known, sentence);
        }
        DriftBound? Drift((double Ohms, PassedLimit Limit) found) => found.Limit is null ? null : new(found.Ohms, found.Ohms / a.Ohms, found.Limit);
        var (d, u) = (Drift(down), Drift(up));
        var words = new List<string>();
        words.Add(u is null ? "may rise tenfold" : string.Create(CultureInfo.InvariantCulture, $"may rise to {Show(u.Ohms)} ({100 * (u.Share - 1):+0} %), then {u.Limit.Sentence}"));
        words.Add(d is null ? "may fall to a fifth" : string.Create(CultureInfo.InvariantCulture, $"may fall to {Show(d.Ohms)} ({100 * (d.Share - 1):0} %), then {d.Limit.Sentence}"));
        return new(name, null, null, d, u, known, $"{name}: {string.Join("; ", words)}.");
    }

    private static string Show(double ohms) => Notation.Print(TwoFigures.Of(ohms), Unit.Ohm);
}

using System.Collections.Immutable;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>Two parts in the place of one, where no single part of the catalogue fits.</summary>
/// <remarks>
/// Parallel capacitors add, and each bears the whole voltage. Series capacitors of C₁ and C₂ make C₁C₂/(C₁+C₂) and share the voltage inversely to their capacitance; the worst share is taken with one at
/// the upper and the other at the lower end of its tolerance. Series resistors share volts and watts in proportion to their value, parallel ones watts inversely. Never in a Y position: there the parts'
/// classes would have to be judged together.
/// </remarks>
internal static class Combining
{
    /// <summary>The best combination of either joining, of the first kind that has one; best first, the others with what is against them; empty when there is none.</summary>
    public static ImmutableArray<Candidate> Of(Requirement need, ValueWindow window, Catalogue catalogue)
    {
        if (need.SafetyClass is SafetyClass.Y1 or SafetyClass.Y2) return [];
        var found = need.Kinds.Select(kind => (need.Unit == Unit.Ohm ? new[] { Resistors(need, window, catalogue, kind, Joining.Series), Resistors(need, window, catalogue, kind, Joining.Parallel) }
            : new[] { Parallel(need, window, catalogue, kind), need.SafetyClass == SafetyClass.None ? Series(need, window, catalogue, kind) : null }).OfType<Candidate>().ToArray()).FirstOrDefault(f => f.Length > 0) ?? [];
        // Capacitors side by side need no balancing and stand first; of resistors the nearer value does.
        if (need.Unit == Unit.Ohm) found = [.. found.OrderBy(c => Math.Round(PartPicker.Off(c.Value, window), 3)).ThenBy(c => c.Joining)];
        return [.. found.Select((c, i) => i == 0 ? c : c with { WhyNot = WhyNot(window, found[0], c) })];
    }

    private static string WhyNot(ValueWindow window, Candidate taken, Candidate other) => other.Balancer is not null && taken.Balancer is null ? "It needs a balancing resistor across each of the two."
        : Math.Round(PartPicker.Off(other.Value, window), 3) > Math.Round(PartPicker.Off(taken.Value, window), 3) ? $"{Show.Deviation(window.Target, other.Value)} against {Show.Deviation(window.Target, taken.Value)}."
        : "It fits as well, joined the other way.";

    // The larger part of a pair first: one that comes near the value with a small one beside it is better than two of all sorts.
    private static Candidate? Parallel(Requirement need, ValueWindow window, Catalogue catalogue, NewKind kind)
    {
        (double Off, double Ratio, CatalogueSeries Series, double A, double B)? best = null;
        foreach (var series in PartPicker.Rated(need, catalogue, kind))
            foreach (var a in series.Values.Where(v => v < window.High))
                foreach (var b in series.Values.Where(v => v <= a && window.Holds(a + v) && new[] { a, v }.All(x => RippleRating.Fault(need, series.RippleOf(x), series.RippleHertz, x / (a + v)) is null)))
                {
                    var off = Math.Round(PartPicker.Off(a + b, window), 3);
                    if (best is not { } had || (series.Rank, off, a / b).CompareTo((had.Series.Rank, had.Off, had.Ratio)) < 0) best = (off, a / b, series, a, b);
                }
        if (best is not var (_, _, s, x, y)) return null;
        return Pair(Joining.Parallel, PartPicker.Part(s, x), PartPicker.Part(s, y), x + y, s.TolerancePercent,
            $"Side by side: {Show.Value(x + y, Unit.Farad)}, each bears the whole voltage{(need.RippleAmperes is null ? "" : "; the ripple current divides in proportion to their capacitance")}.");
    }

    private static Candidate? Series(Requirement need, ValueWindow window, Catalogue catalogue, NewKind kind)
    {
        if (need.VoltsAtLeast is not { } volts) return null;
        Candidate? best = null;
        var bestOff = double.PositiveInfinity;
        foreach (var series in catalogue.Series.Where(s => s.Kind == kind && s.Unit == Unit.Farad && s.SafetyClass == SafetyClass.None))
        {
            if (need.TolerancePercentAtMost is { } widest && series.TolerancePercent > widest || CategoryTemperature.Fault(need, series.Kind, series.Celsius) is not null) continue;
            var t = series.TolerancePercent / 100;
            // Equal marks: the smaller of the two takes (1+t)/2 of the voltage.
            var share = volts * (1 + t) / 2;
            if (share > series.Volts) continue;
            foreach (var v in series.Values.Where(v => window.Holds(v / 2) && RippleRating.Fault(need, series.RippleOf(v), series.RippleHertz) is null))
            {
                var off = Math.Round(PartPicker.Off(v / 2, window), 3) + series.Rank;
                if (off >= bestOff) continue;
                bestOff = off;
                var part = PartPicker.Part(series, v);
                best = Pair(Joining.Series, part, part, v / 2, series.TolerancePercent,
                    $"One after the other: {Show.Value(v / 2, Unit.Farad)}; of {Show.Volts(Math.Round(volts))} the smaller of the two takes up to {Show.Volts(Math.Ceiling(share))}, and {Show.Volts(series.Volts)} are allowed.") with { Balancer = Balance(kind, v, series.Volts, volts) };
            }
        }
        return best;
    }

    /// <summary>What keeps a series pair from being shared by leakage alone.</summary>
    /// <remarks>Electrolytics: R = (2·Vr − Vs)/(0.0015·C·Vs) in MΩ with C in µF, from memory; at most 470 kΩ. Film leaks a thousand times less: 10 MΩ each (common practice, no source).</remarks>
    private static Balancer Balance(NewKind kind, double farads, double rated, double volts)
    {
        var most = kind == NewKind.Electrolytic ? Math.Clamp((2 * rated - volts) / (0.0015 * farads * 1e6 * volts) * 1e6, 22e3, 470e3) : 10e6;
        var ohms = PreferredValues.Within(most / 1.5, most * (1 + 1e-9), PreferredSeries.E12) is [.., var largest] ? largest : most;
        var heat = volts * volts / 4 / ohms;
        var watts = new[] { 0.5, 1, 2, 3, 5 }.FirstOrDefault(w => w >= 2 * heat, 5);
        return new(ohms, watts, $"Across each of the two {Show.Value(ohms, Unit.Ohm)} {Show.Number(watts)} W, which bears {Show.Volts(Math.Round(volts / 2))}: without it leakage alone would share the voltage. Both discharge through it when the set is off.");
    }

    private static Candidate? Resistors(Requirement need, ValueWindow window, Catalogue catalogue, NewKind kind, Joining how)
    {
        (double Cost, CatalogueSeries Series, double A, double B)? best = null;
        foreach (var series in catalogue.Series.Where(s => s.Kind == kind && s.Unit == Unit.Ohm && s.Watts is not null))
        {
            if (need.TolerancePercentAtMost is { } widest && series.TolerancePercent > widest || CategoryTemperature.Fault(need, series.Kind, series.Celsius) is not null) continue;
            foreach (var a in series.Values)
                foreach (var b in Partners(series, a, window))
                {
                    var value = how == Joining.Series ? a + b : a * b / (a + b);
                    if (!window.Holds(value) || !Bears(need, series, how, a, b)) continue;
                    // A pair near each other shares evenly; in series the volts too.
                    var cost = series.Rank * 100 + Math.Round(PartPicker.Off(value, window), 3) * 10 + Math.Abs(Math.Log(a / b)) * 0.1 + series.Watts!.Value * 0.01;
                    if (best is not { } had || cost < had.Cost) best = (cost, series, a, b);
                }
        }
        if (best is not var (_, s, x, y)) return null;
        var whole = how == Joining.Series ? x + y : x * y / (x + y);
        var larger = how == Joining.Series ? Math.Max(x, y) / (x + y) : Math.Max(x, y) / (x + y);
        return Pair(how, PartPicker.Part(s, x), PartPicker.Part(s, y), whole, s.TolerancePercent, how == Joining.Series
            ? $"One after the other: the larger takes {Show.Number(Math.Round(100 * larger))} % of volts and watts, so the pair bears {Show.Volts(Math.Round(s.Volts / larger))} and {Show.Number(Math.Round(s.Watts!.Value / larger, 2))} W."
            : $"Side by side: the smaller takes {Show.Number(Math.Round(100 * larger))} % of the watts, so the pair bears {Show.Number(Math.Round(s.Watts!.Value / larger, 2))} W.");
    }

    // Only values that can make the window with a: for a series pair the difference, for a parallel pair the reciprocal one.
    private static IEnumerable<double> Partners(CatalogueSeries series, double a, ValueWindow window) => series.Values.Where(b => b <= a && (window.Holds(a + b) || window.Holds(a * b / (a + b))));

    private static bool Bears(Requirement need, CatalogueSeries series, Joining joining, double a, double b)
    {
        var larger = Math.Max(a, b) / (a + b);
        var volts = joining == Joining.Series ? series.Volts / larger : series.Volts;
        return (need.VoltsAtLeast is null || volts >= need.VoltsAtLeast) && (need.WattsAtLeast is null || series.Watts / larger >= need.WattsAtLeast);
    }

    private static Candidate Pair(Joining joining, ChosenPart a, ChosenPart b, double value, double tolerancePercent, string sharing) => new()
    {
        Parts = [a, b],
        Joining = joining,
        Text = $"{(a == b ? $"2 × {a.Text}" : $"{a.Text} and {b.Text}")} in {(joining == Joining.Series ? "series" : "parallel")}",
        Value = value,
        TolerancePercent = tolerancePercent,
        Sharing = sharing,
    };
}

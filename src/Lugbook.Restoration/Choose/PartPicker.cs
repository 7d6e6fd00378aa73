using System.Collections.Immutable;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>Takes from the catalogue the nearest value in the window at the lowest sufficient rating, and the next best with what is against them.</summary>
internal static class PartPicker
{
    private const int Most = 5;

    /// <summary>The ways to fill the position, best first; or none, and what nearly fits.</summary>
    public static (ImmutableArray<Candidate> Candidates, string? Nearly) Pick(Requirement need, Catalogue catalogue)
    {
        if (need.Value is not { } window) return ([], "The old value is not known.");
        if (need.VoltsAtLeast is null && need.SafetyClass == SafetyClass.None) return ([], "The voltage is not known.");
        var ranked = need.Kinds.SelectMany(kind => Rated(need, catalogue, kind)
            .SelectMany(s => s.Values.Where(v => window.Holds(v) && RippleRating.Fault(need, s.RippleOf(v), s.RippleHertz) is null).Select(v => (Series: s, Value: v)))
            .OrderBy(c => c.Series.Rank).ThenBy(c => Math.Round(Off(c.Value, window), 9))
            .ThenBy(c => c.Series.Watts ?? 0).ThenBy(c => c.Series.Volts).ThenBy(c => c.Series.SafetyClass)
            .ThenBy(c => c.Series.PriceLow ?? decimal.MaxValue).ThenBy(c => c.Series.Name, StringComparer.Ordinal)).Take(Most).ToArray();
        if (ranked.Length == 0)
            return Combining.Of(need, window, catalogue) is { IsEmpty: false } pairs ? (pairs, Nearly(need, window, catalogue)) : ([], Nearly(need, window, catalogue));
        var first = ranked[0];
        return ([.. ranked.Select((c, n) => One(c.Series, c.Value, n == 0 ? null : WhyNot(need, window, first, c)))], null);
    }

    /// <summary>Series of a kind whose ratings suffice, whatever their values.</summary>
    public static IEnumerable<CatalogueSeries> Rated(Requirement need, Catalogue catalogue, NewKind kind) => catalogue.Series.Where(s =>
        s.Kind == kind && s.Unit == need.Unit && Fitting.OfClass(need, s.SafetyClass) is null && Fitting.OfRatings(need, s.Volts, s.LineVolts, s.Watts, s.TolerancePercent) is null
        && CategoryTemperature.Fault(need, s.Kind, s.Celsius) is null);

    /// <summary>How far a value lies from the one aimed at, as a ratio's logarithm.</summary>
    public static double Off(double value, ValueWindow window) => Math.Abs(Math.Log(value / window.Target));

    private static Candidate One(CatalogueSeries series, double value, string? whyNot) => new()
    {
        Parts = [Part(series, value)], Text = Text(series, value), Value = value, TolerancePercent = series.TolerancePercent, WhyNot = whyNot, BodyMm = series.BodyOf(value).LengthMm,
    };

    private static string WhyNot(Requirement need, ValueWindow window, (CatalogueSeries Series, double Value) taken, (CatalogueSeries Series, double Value) other)
    {
        var (t, o) = (taken.Series, other.Series);
        if (t.Kind != o.Kind && need.Kinds.IndexOf(t.Kind) < need.Kinds.IndexOf(o.Kind)) return $"{Show.Kind(t.Kind)} is preferred here.";
        if (o.Rank > t.Rank) return "A type that is harder to get, or made for other needs.";
        if (Math.Round(Off(other.Value, window), 9) > Math.Round(Off(taken.Value, window), 9)) return $"{Show.Deviation(window.Target, other.Value)} against {Show.Deviation(window.Target, taken.Value)}.";
        if (o.Watts > t.Watts) return $"{Show.Number(o.Watts.Value)} W where {Show.Number(t.Watts!.Value)} W suffice: a larger body.";
        if (o.Volts > t.Volts) return $"{Show.Volts(o.Volts)} where {Show.Volts(t.Volts)} suffice: a larger body.";
        return "It fits as well; dearer, or later in the catalogue.";
    }

    private static string Nearly(Requirement need, ValueWindow window, Catalogue catalogue)
    {
        var rated = need.Kinds.SelectMany(k => Rated(need, catalogue, k)).SelectMany(s => s.Values.Select(v => (Series: s, Value: v))).ToArray();
        if (rated.Length > 0)
        {
            var near = rated.OrderBy(c => Off(c.Value, window)).ThenBy(c => c.Series.Volts).First();
            return window.Holds(near.Value) ? $"{Part(near.Series, near.Value).Text} fits but for its ripple current: {RippleRating.Fault(need, near.Series.RippleOf(near.Value), near.Series.RippleHertz)}"
                : $"Nearest of sufficient rating: {Part(near.Series, near.Value).Text}, {Show.Deviation(window.Target, near.Value)}.";
        }
        var kinds = need.Kinds.SelectMany(k => catalogue.Series.Where(s => s.Kind == k && s.Unit == need.Unit && need.Accepts(s.SafetyClass) && s.Values.Any(window.Holds))).ToArray();
        if (kinds.Length == 0) return "The catalogue has no series of this kind and value.";
        var strongest = kinds.OrderByDescending(s => need.WattsAtLeast is null ? s.Volts : s.Watts ?? 0).First();
        return $"The strongest of this kind and value is {Part(strongest, strongest.Values.Where(window.Holds).OrderBy(v => Off(v, window)).First()).Text}: not enough.";
    }

    /// <summary>A part of a series.</summary>
    public static ChosenPart Part(CatalogueSeries series, double value) => new()
    {
        Text = Text(series, value),
        Series = series.Name,
        Kind = series.Kind,
        Unit = series.Unit,
        Value = value,
        Volts = series.Volts,
        LineVolts = series.LineVolts,
        Watts = series.Watts,
        SafetyClass = series.SafetyClass,
        TolerancePercent = series.TolerancePercent,
        Celsius = series.Celsius,
        RippleAmperes = series.RippleOf(value),
        RippleHertz = series.RippleHertz,
        BodyMm = series.BodyOf(value).LengthMm,
        DiameterMm = series.BodyOf(value).DiameterMm,
        PriceLow = series.PriceLow,
        PriceHigh = series.PriceHigh,
    };

    private static string Text(CatalogueSeries series, double value) => series switch
    {
        { Unit: Unit.Ohm } => $"{Show.Value(value, Unit.Ohm)} {Show.Number(series.Watts ?? 0)} W {Show.Kind(series.Kind)}",
        { SafetyClass: not SafetyClass.None } => $"{Show.Value(value, Unit.Farad)} class {series.SafetyClass} {Show.Number(series.LineVolts ?? 0)} V AC",
        { Kind: NewKind.Electrolytic, Celsius: { } celsius } => $"{Show.Value(value, Unit.Farad)} {Show.Volts(series.Volts)} {Show.Kind(series.Kind)} {Show.Number(celsius)} °C",
        { TolerancePercent: <= 5 } => $"{Show.Value(value, Unit.Farad)} {Show.Volts(series.Volts)} {Show.Kind(series.Kind)} {Show.Number(series.TolerancePercent)} %",
        _ => $"{Show.Value(value, Unit.Farad)} {Show.Volts(series.Volts)} {Show.Kind(series.Kind)}",
    };
}

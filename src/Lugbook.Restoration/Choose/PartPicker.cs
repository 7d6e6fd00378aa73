using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>Takes from the catalogue the nearest value in the window at the lowest sufficient rating.</summary>
internal static class PartPicker
{
    /// <summary>The part; or none, and what nearly fits.</summary>
    public static (ChosenPart? Part, string? Nearly) Pick(Requirement need, Catalogue catalogue)
    {
        if (need.Value is not { } window) return (null, "The old value is not known.");
        if (need.VoltsAtLeast is null && need.SafetyClass == SafetyClass.None) return (null, "The voltage is not known.");
        foreach (var kind in need.Kinds)
        {
            var best = Rated(need, catalogue, kind)
                .SelectMany(s => s.Values.Where(window.Holds).Select(v => (Series: s, Value: v)))
                .OrderBy(c => c.Series.Rank).ThenBy(c => Math.Round(Off(c.Value, window), 9))
                .ThenBy(c => c.Series.Watts ?? 0).ThenBy(c => c.Series.Volts).ThenBy(c => c.Series.SafetyClass)
                .ThenBy(c => c.Series.PriceLow ?? decimal.MaxValue).ThenBy(c => c.Series.Name, StringComparer.Ordinal)
                .Cast<(CatalogueSeries Series, double Value)?>().FirstOrDefault();
            if (best is var (series, value)) return (Part(series, value), null);
        }
        return (null, Nearly(need, window, catalogue));
    }

    private static IEnumerable<CatalogueSeries> Rated(Requirement need, Catalogue catalogue, NewKind kind) => catalogue.Series.Where(s =>
        s.Kind == kind && s.Unit == need.Unit && Fitting.OfClass(need, s.SafetyClass) is null && Fitting.OfRatings(need, s.Volts, s.LineVolts, s.Watts, s.TolerancePercent) is null);

    private static double Off(double value, ValueWindow window) => Math.Abs(Math.Log(value / window.Target));

    private static string Nearly(Requirement need, ValueWindow window, Catalogue catalogue)
    {
        var rated = need.Kinds.SelectMany(k => Rated(need, catalogue, k)).SelectMany(s => s.Values.Select(v => (Series: s, Value: v))).ToArray();
        if (rated.Length > 0)
        {
            var near = rated.OrderBy(c => Off(c.Value, window)).ThenBy(c => c.Series.Volts).First();
            return $"Nearest of sufficient rating: {Part(near.Series, near.Value).Text}, {Show.Deviation(window.Target, near.Value)}.";
        }
        var kinds = need.Kinds.SelectMany(k => catalogue.Series.Where(s => s.Kind == k && s.Unit == need.Unit && need.Accepts(s.SafetyClass) && s.Values.Any(window.Holds))).ToArray();
        if (kinds.Length == 0) return "The catalogue has no series of this kind and value.";
        var strongest = kinds.OrderByDescending(s => need.WattsAtLeast is null ? s.Volts : s.Watts ?? 0).First();
        return $"The strongest of this kind and value is {Part(strongest, strongest.Values.Where(window.Holds).OrderBy(v => Off(v, window)).First()).Text}: not enough.";
    }

    private static ChosenPart Part(CatalogueSeries series, double value) => new()
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
        BodyMinMm = series.BodyMinMm,
        BodyMaxMm = series.BodyMaxMm,
        PriceLow = series.PriceLow,
        PriceHigh = series.PriceHigh,
    };

    private static string Text(CatalogueSeries series, double value) => series switch
    {
        { Unit: Unit.Ohm } => $"{Show.Value(value, Unit.Ohm)} {Show.Number(series.Watts ?? 0)} W {Show.Kind(series.Kind)}",
        { SafetyClass: not SafetyClass.None } => $"{Show.Value(value, Unit.Farad)} class {series.SafetyClass} {Show.Number(series.LineVolts ?? 0)} V AC",
        { TolerancePercent: <= 5 } => $"{Show.Value(value, Unit.Farad)} {Show.Volts(series.Volts)} {Show.Kind(series.Kind)} {Show.Number(series.TolerancePercent)} %",
        _ => $"{Show.Value(value, Unit.Farad)} {Show.Volts(series.Volts)} {Show.Kind(series.Kind)}",
    };
}

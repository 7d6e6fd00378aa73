using System.Collections.Frozen;
using Lugbook.Trade.Preferred;
using Unit = Lugbook.Trade.Quantities.Unit;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>How well a value suits what was made.</summary>
internal enum Fit
{
    /// <summary>In no series.</summary>
    None,
    /// <summary>In a finer series than its tolerance asks for.</summary>
    Finer,
    /// <summary>An old round value, from before the series.</summary>
    Round,
    /// <summary>In the series of its tolerance.</summary>
    Own,
}

/// <summary>Was a value of this tolerance made? Membership in the preferred series and among the old round values.</summary>
internal static class SeriesFit
{
    // The search asks some hundred times a marking: three figures looked up, not a decade walked.
    private static readonly FrozenDictionary<PreferredSeries, FrozenSet<int>> Decades = Enum.GetValues<PreferredSeries>()
        .ToFrozenDictionary(s => s, s => PreferredValues.Decade(s).Select(v => (int)Math.Round(v * 100)).ToFrozenSet());

    /// <summary>How a value of this tolerance fits, and the name of the series it is in; empty when in none.</summary>
    /// <param name="value">Above 0, base unit.</param>
    /// <param name="unit">Its unit.</param>
    /// <param name="percent">Tolerance; null when not known or not of interest: then E24 is the series.</param>
    public static (Fit Fit, string Series) Of(double value, Unit unit, double? percent)
    {
        var own = Series(percent);
        if (In(own)) return (Fit.Own, $"{own}");
        // Fine tolerances are sold in the E24 values too.
        if (percent <= 2 && In(PreferredSeries.E24)) return (Fit.Own, "E24");
        // ±20 % parts of an E12 value are rather ±10 % ones whose band is lost, even where the value is an old one too.
        if (percent >= 20 && In(PreferredSeries.E12)) return (Fit.Finer, "E12");
        if (OldValues.Contains(value, unit)) return (Fit.Round, "");
        foreach (var finer in Finer(percent))
            if (In(finer)) return (Fit.Finer, $"{finer}");
        return (Fit.None, "");

        bool In(PreferredSeries series) => Figures(value) is { } figures && Decades[series].Contains(figures);
    }

    /// <summary>The series that belongs to a tolerance: "E12".</summary>
    public static string SeriesOf(double? percent) => $"{Series(percent)}";

    private static PreferredSeries Series(double? percent) => percent switch
    {
        >= 20 => PreferredSeries.E6,
        >= 10 => PreferredSeries.E12,
        null or > 2 => PreferredSeries.E24,
        2 => PreferredSeries.E48,
        >= 1 => PreferredSeries.E96,
        _ => PreferredSeries.E192,
    };

    /// <summary>The value's first three figures, 100 to 999; null when it has more.</summary>
    private static int? Figures(double value)
    {
        var scaled = value / Math.Pow(10, Math.Floor(Math.Log10(value) + 1e-9) - 2);
        var whole = Math.Round(scaled);
        return Math.Abs(scaled / whole - 1) < 1e-6 ? (int)whole : null;
    }

    private static PreferredSeries[] Finer(double? percent) => percent switch
    {
        null => [PreferredSeries.E96],
        > 2 => [PreferredSeries.E24],
        _ => [PreferredSeries.E96, PreferredSeries.E192],
    };
}

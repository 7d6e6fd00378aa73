using System.Globalization;
using Lugbook.Restoration.Judge;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Slips;

/// <summary>Figures and hints of an after-check in sentences.</summary>
internal static class CheckWords
{
    /// <summary>"376 kΩ to 620 kΩ", "over 20 MΩ", "578 kΩ or more", "next to nothing, up to 150 pF".</summary>
    /// <param name="kind">Ohms or capacitance.</param>
    /// <param name="shown">The figures.</param>
    /// <param name="top">The meter's top: what is above it is "over".</param>
    public static string Shown(ReadingKind kind, Interval shown, double top)
    {
        // Rounded outwards: what is said holds all that is meant.
        var (low, high) = (Rounded(shown.Low, Math.Floor), Rounded(shown.High, Math.Ceiling));
        if (double.IsInfinity(high)) return low <= 0 ? "any figure" : shown.Low >= top ? $"over {Say.Of(kind, low)}" : $"{Say.Of(kind, low)} or more";
        if (low <= 0) return kind == ReadingKind.Ohms ? $"0 Ω to {Say.Of(kind, high)}" : $"next to nothing, {Say.Of(kind, high)} at most";
        return Say.Between(kind, new(low, high));
    }

    /// <summary>Several stretches.</summary>
    public static string Shown(ReadingKind kind, System.Collections.Immutable.ImmutableArray<Interval> shown, double top) => string.Join(", or ", shown.Select(s => Shown(kind, s, top)));

    private static double Rounded(double value, Func<double, double> way)
    {
        if (value == 0 || !double.IsFinite(value)) return value;
        var step = Math.Pow(10, Math.Floor(Math.Log10(Math.Abs(value))) - 2);
        return double.Parse((way(Math.Round(value / step, 6)) * step).ToString("G4", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }

    /// <summary>How long to wait and which way round.</summary>
    public static string? Hint(ReadingKind kind, Interval expected, double seconds, bool electrolytic)
    {
        if (kind != ReadingKind.Ohms) return electrolytic ? "Red is on the plus of an electrolytic." : null;
        var wait = double.IsInfinity(seconds) || double.IsInfinity(expected.High) && seconds > 2 ? "The figure climbs while a capacitor charges: wait until it shows over."
            : seconds > 120 ? string.Create(CultureInfo.InvariantCulture, $"It stands after about {seconds / 60:0} min: look only whether it passes beyond the lower figure.")
            : seconds > 2 ? string.Create(CultureInfo.InvariantCulture, $"Wait about {Math.Ceiling(seconds / 5) * 5:0} s until it stands.") : null;
        return electrolytic ? $"{wait} Red is on the plus of an electrolytic: the other way round it reads too low.".TrimStart() : wait;
    }
}

using System.Globalization;
using Lugbook.Restoration.Judge;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Slips;

/// <summary>Figures and hints of an after-check in sentences.</summary>
internal static class CheckWords
{
    /// <summary>"376 kΩ to 620 kΩ", "over 20 MΩ", "next to nothing, up to 150 pF".</summary>
    public static string Shown(ReadingKind kind, Interval shown)
    {
        if (shown.Low <= 0 && double.IsInfinity(shown.High)) return "any figure";
        if (double.IsInfinity(shown.High)) return $"over {Say.Of(kind, shown.Low)}";
        if (shown.Low <= 0) return kind == ReadingKind.Ohms ? $"0 Ω to {Say.Of(kind, shown.High)}" : $"next to nothing, up to {Say.Of(kind, shown.High)}";
        return Say.Between(kind, shown);
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

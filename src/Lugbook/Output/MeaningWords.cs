using System.Globalization;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Output;

/// <summary>A meaning in the trade's notation, for pages and commands alike.</summary>
internal static class MeaningWords
{
    public static string Value(Meaning meaning) =>
        string.Join(" + ", meaning.Sections.Select(s => Notation.Print(s.Value, meaning.Unit)));

    public static string Tolerance(Meaning meaning) => meaning.Tolerance is { } t ? Notation.Print(t) : "";

    public static string Rating(Meaning meaning)
    {
        var volts = meaning.Sections.Select(s => s.RatedVolts).Distinct().ToList();
        var parts = new List<string>();
        if (volts.Any(v => v is not null))
            parts.Add(string.Join(", ", volts.Select(v => v is { } x ? Notation.Print(x, Unit.Volt) : "?")) + (meaning.VoltsAreAc ? " AC" : ""));
        if (meaning.RatedWatts is { } watts) parts.Add(Notation.Print(watts, Unit.Watt));
        if (meaning.SafetyClass != SafetyClass.None) parts.Add($"class {meaning.SafetyClass}");
        if (meaning.Dielectric is { } dielectric) parts.Add(dielectric);
        if (meaning.TempcoPpm is { } ppm) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{ppm:0} ppm/K"));
        return string.Join(", ", parts);
    }

    public static string Share(Meaning meaning) => meaning.Share >= 0.995 && meaning.Share < 1 ? "> 99 %"
        : meaning.Share < 0.01 ? "< 1 %"
        : string.Create(CultureInfo.InvariantCulture, $"{100 * meaning.Share:0} %");
}

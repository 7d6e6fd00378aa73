using System.Collections.Frozen;

namespace Lugbook.Drawing.Bodies;

/// <summary>Colours of bands, dots and insulation as paint, by name.</summary>
internal static class Paint
{
    private static readonly FrozenDictionary<string, string> ByName = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase)
    {
        ["black"] = "#26221f", ["brown"] = "#7a4a26", ["red"] = "#c23a2b", ["orange"] = "#e08427", ["yellow"] = "#ecc93a", ["green"] = "#3f8a4a",
        ["blue"] = "#2f62ad", ["violet"] = "#7d4f9e", ["purple"] = "#7d4f9e", ["grey"] = "#8d8d8a", ["gray"] = "#8d8d8a", ["white"] = "#f6f4ee",
        ["gold"] = "#c9a24a", ["silver"] = "#c3c6c9", ["pink"] = "#e59aa8", ["tan"] = "#c9a577", ["maroon"] = "#6e2b30", ["slate"] = "#74797d",
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    private static readonly string[] Figures = ["black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white"];
    private static readonly char[] Breaks = [' ', ',', ';', '/', '-', '.', '\t'];

    public static string? Of(string colour) => ByName.GetValueOrDefault(colour.Trim());

    /// <summary>The colours that a text names, in order: "red white", "green-yellow".</summary>
    public static string[] In(string? text) => text is null ? []
        : [.. text.Split(Breaks, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(Of).OfType<string>()];

    /// <summary>The colours of a code, when it is one: every word names a colour or "none", or is '?'.</summary>
    public static string[]? Code(string? code)
    {
        if (string.IsNullOrWhiteSpace(code)) return null;
        var words = code.Split(Breaks, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (!words.All(w => Of(w) is not null || w is "?" || string.Equals(w, "none", StringComparison.OrdinalIgnoreCase))) return null;
        string[] colours = [.. words.Where(w => !string.Equals(w, "none", StringComparison.OrdinalIgnoreCase)).Select(w => Of(w) ?? "none")];
        return colours.Length is >= 1 and <= 9 ? colours : null;
    }

    /// <summary>Bands of a resistor by its value: two figures, multiplier, tolerance; null when two figures cannot say it.</summary>
    /// <remarks>Source: IEC 60062, four-band code. No tolerance, or 20 %: no fourth band.</remarks>
    public static string[]? Bands(double ohms, double? tolerance)
    {
        if (!(ohms >= 0.1 && ohms < 99.5e9)) return null;
        var power = (int)Math.Floor(Math.Log10(ohms) + 1e-9) - 1;
        var figures = Math.Round(ohms / Math.Pow(10, power));
        if (figures >= 100) { figures /= 10; power++; }
        if (Math.Abs(figures * Math.Pow(10, power) - ohms) > 1e-6 * ohms) return null;
        var multiplier = power switch { -2 => "silver", -1 => "gold", >= 0 and <= 9 => Figures[power], _ => null };
        if (multiplier is null) return null;
        var last = tolerance switch { 0.1 => "silver", 0.05 => "gold", 0.02 => "red", 0.01 => "brown", _ => null };
        string[] names = [Figures[(int)figures / 10], Figures[(int)figures % 10], multiplier];
        return [.. (last is null ? names : [.. names, last]).Select(n => ByName[n])];
    }

    /// <summary>Is ink readable on this paint, rather than white?</summary>
    public static bool IsLight(string paint) =>
        0.299 * Convert.ToInt32(paint[1..3], 16) + 0.587 * Convert.ToInt32(paint[3..5], 16) + 0.114 * Convert.ToInt32(paint[5..7], 16) > 128;
}

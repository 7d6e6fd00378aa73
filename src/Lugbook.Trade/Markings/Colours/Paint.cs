using System.Collections.Frozen;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>Colours of bands, dots and insulation as paint, by name.</summary>
public static class Paint
{
    // Insulation comes in more colours than codes have, and people write some of them differently.
    private static readonly FrozenDictionary<string, string> ByName = ColourNames.All.Select(c => (c.Name(), c.Hex()))
        .Concat([("purple", Colour.Violet.Hex()), ("gray", Colour.Grey.Hex()), ("tan", "#c3a070"), ("maroon", "#6a2d2f"), ("slate", "#74797d"), ("clear", "#d9d4c4")])
        .ToFrozenDictionary(c => c.Item1, c => c.Item2, StringComparer.OrdinalIgnoreCase);

    private static readonly char[] Breaks = [' ', ',', ';', '/', '-', '.', '\t'];

    /// <summary>The paint of a colour's name, as #rrggbb; null when it names none.</summary>
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
        if (power is < -2 or > 9) return null;
        var multiplier = power switch { -2 => Colour.Silver, -1 => Colour.Gold, _ => Figure(power) };
        var last = tolerance switch { 0.1 => Colour.Silver, 0.05 => Colour.Gold, 0.02 => Colour.Red, 0.01 => Colour.Brown, _ => Colour.None };
        Colour[] bands = [Figure((int)figures / 10), Figure((int)figures % 10), multiplier, last];
        return [.. bands.Where(b => b != Colour.None).Select(b => b.Hex())];
    }

    private static Colour Figure(int figure) => ColourNames.All[figure];   // the colours stand in the order of their figures
}

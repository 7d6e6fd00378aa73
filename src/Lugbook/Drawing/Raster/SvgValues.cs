using System.Globalization;
using System.Text.RegularExpressions;
using SkiaSharp;

namespace Lugbook.Drawing.Raster;

/// <summary>Values of styles and attributes in our own drawings.</summary>
internal static partial class SvgValues
{
    private static readonly Dictionary<string, string> Named = new() { ["white"] = "#ffffff", ["black"] = "#000000", ["red"] = "#ff0000" };

    public static double[] Numbers(string text) => [.. text.Split([' ', ',', '\t', '\n'], StringSplitOptions.RemoveEmptyEntries).Select(Number)];

    public static double Number(string text) => double.Parse(text.AsSpan().Trim().TrimEnd("px").TrimEnd("m"), NumberStyles.Float, CultureInfo.InvariantCulture);

    /// <summary>Replaces var(--name, fallback) until none is left.</summary>
    public static string Resolve(string value, IReadOnlyDictionary<string, string> variables)
    {
        for (var guard = 0; guard < 8 && value.Contains("var(", StringComparison.Ordinal); guard++)
            value = Variable().Replace(value, m => variables.TryGetValue(m.Groups["name"].Value, out var known) ? known : m.Groups["else"].Success ? m.Groups["else"].Value : "#000000");
        return value.Trim();
    }

    /// <summary>A colour; null for none.</summary>
    public static SKColor? Colour(string value)
    {
        if (value is "none" or "transparent") return null;
        if (Named.TryGetValue(value, out var hex)) value = hex;
        return SKColor.TryParse(value, out var colour) ? colour : throw new NotSupportedException($"The drawing's colour '{value}' is not known to the picture writer.");
    }

    [GeneratedRegex(@"var\((?<name>--[\w-]+)(?:,(?<else>[^()]*))?\)")] private static partial Regex Variable();
}

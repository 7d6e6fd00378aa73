using Lugbook.Trade.Markings.Colours;

namespace Lugbook.Components;

/// <summary>A band as it looks, with ink that can be read on it.</summary>
internal static class ColourSwatches
{
    /// <summary>The colours that a part may show.</summary>
    public static IEnumerable<Colour> All => ColourNames.All.Where(c => c != Colour.None);

    /// <summary>The paint and the ink of a band.</summary>
    public static string Style(Colour colour)
    {
        if (colour == Colour.None) return "background:transparent";
        var hex = colour.Hex();
        return $"background:{hex};color:{(Luminance(hex) > 0.18 ? "#1c1814" : "#fffaf0")}";
    }

    /// <summary>The same for a written name; nothing for a word that is no colour.</summary>
    public static string Style(string name) =>
        ColourNames.All.Where(c => string.Equals(c.Name(), Usual(name), StringComparison.OrdinalIgnoreCase)).Select(Style).FirstOrDefault() ?? "";

    private static string Usual(string name) => name.ToLowerInvariant() switch { "gray" => "grey", "purple" => "violet", var other => other };

    // Relative luminance, WCAG 2.2.
    private static double Luminance(string hex)
    {
        double Channel(int at)
        {
            var c = Convert.ToInt32(hex.Substring(at, 2), 16) / 255.0;
            return c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
        }
        return 0.2126 * Channel(1) + 0.7152 * Channel(3) + 0.0722 * Channel(5);
    }
}

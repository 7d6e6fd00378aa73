using System.Collections.Immutable;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>What heat, light and varnish make of a colour.</summary>
/// <remarks>Common practice, no source: data/reference/colour-codes.csv, rule Q-03. A dirty gold that looks yellow: from memory.</remarks>
internal static class Ageing
{
    private const string Warm = "red, orange and brown drift into each other";
    private const string Violet = "violet goes brown or grey";
    private const string Merge = "blue and green merge under varnish";
    private const string White = "white yellows, and yellow goes white";

    /// <summary>The colours that may once have been what is now seen, each with the reason.</summary>
    public static ImmutableArray<(Colour Was, string Why)> Before(Colour seen, Role role) => (seen, role) switch
    {
        (Colour.None, Role.Tolerance) => [(Colour.Gold, "gold fades to nothing"), (Colour.Silver, "a silver band may be lost")],
        (Colour.None, Role.Figure or Role.Multiplier) => [(Colour.Black, "the paint of the end or the dot may have gone")],
        (Colour.Yellow, Role.Tolerance) => [(Colour.Gold, "a dirty gold looks yellow"), (Colour.White, White)],
        (Colour.Brown, _) => [(Colour.Red, Warm), (Colour.Orange, Warm), (Colour.Violet, Violet)],
        (Colour.Red, _) => [(Colour.Orange, Warm), (Colour.Brown, Warm)],
        (Colour.Orange, _) => [(Colour.Red, Warm), (Colour.Brown, Warm)],
        (Colour.Yellow, _) => [(Colour.White, White)],
        (Colour.White, _) => [(Colour.Yellow, White)],
        (Colour.Grey, _) => [(Colour.Violet, Violet), (Colour.Silver, "silver tarnishes to grey")],
        (Colour.Violet, _) => [],
        (Colour.Blue, _) => [(Colour.Green, Merge)],
        (Colour.Green, _) => [(Colour.Blue, Merge)],
        (Colour.Black, _) => [(Colour.Silver, "silver tarnishes to black")],
        _ => [],
    };
}

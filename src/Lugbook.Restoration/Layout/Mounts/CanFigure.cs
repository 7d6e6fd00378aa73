using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Restoration.Layout.Mounts;

/// <summary>The foot of an electrolytic can: fibre plate, ring, and beside each lug the symbol of its section.</summary>
internal static class CanFigure
{
    // Usual diameters of cans, inches: 3/4, 7/8, 1, 1 1/8, 1 1/4, 1 3/8, 1 1/2, 2 (common practice, no source).
    private static readonly double[] Radii = [9.5, 11.1, 12.7, 14.3, 15.9, 17.5, 19.05, 25.4];

    public static MountFigure Of(PlacedMount mount, ImmutableDictionary<string, string> symbols)
    {
        var (centre, reach) = BestFit.Enclosing([.. mount.Lugs.Select(l => l.At)]);
        var radius = Radii.FirstOrDefault(r => r >= reach + 1.6, reach + 3);
        List<Shape> shapes =
        [
            new DiscShape(centre, radius + 0.9, "metal"),
            new DiscShape(centre, radius - 0.4, "fibre"),
        ];
        foreach (var lug in mount.Lugs)
        {
            var inward = lug.At.To(centre) < 1 ? new Pt(0, -1) : (centre - lug.At).Unit;
            if (symbols.TryGetValue(lug.Name, out var symbol)) shapes.AddRange(SectionSymbol(symbol, lug.At + inward * 4.2, inward));
        }
        return new(mount, [.. shapes], centre, Box.Of(centre, 2 * radius, 2 * radius), (0, 0));
    }

    /// <summary>A section's cut-out: square, triangle, half moon; nothing for a plain one.</summary>
    public static IEnumerable<Shape> SectionSymbol(string symbol, Pt at, Pt up)
    {
        const double r = 1.5;
        var s = symbol.ToLowerInvariant();
        var side = up.Turned;
        if (s.Contains("square", StringComparison.Ordinal)) yield return new OutlineShape(Outline.Area(new Slab(at, up, 2 * r * 0.9, 2 * r * 0.9).Corners), "symbol");
        else if (s.Contains("triangle", StringComparison.Ordinal)) yield return new OutlineShape(Outline.Area(at + up * r * 1.1, at - up * r * 0.8 + side * r * 1.1, at - up * r * 0.8 - side * r * 1.1), "symbol");
        else if (s.Contains("moon", StringComparison.Ordinal) || s.Contains("half", StringComparison.Ordinal) || s.Contains("semicirc", StringComparison.Ordinal))
            yield return new OutlineShape(Outline.Curve(at - side * r * 1.2 - up * 0.6, at - side * r * 1.2 + up * r * 1.5, at + side * r * 1.2 + up * r * 1.5, at + side * r * 1.2 - up * 0.6), "symbol");
        else if (s.Contains("plain", StringComparison.Ordinal)) yield return new OutlineShape(Outline.Line(at - side * 0.9, at + side * 0.9), "ink thin", null, true);
    }

    /// <summary>The symbol that a text names, or null.</summary>
    public static string? SymbolIn(string? text) => text is null ? null
        : new[] { "square", "triangle", "half moon", "half-moon", "moon", "semicircle", "plain" }.FirstOrDefault(s => text.Contains(s, StringComparison.OrdinalIgnoreCase));
}

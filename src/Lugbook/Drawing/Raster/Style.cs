using System.Collections.Immutable;
using SkiaSharp;

namespace Lugbook.Drawing.Raster;

/// <summary>What holds at an element: what it has of its own and what it inherits. Source: SVG 1.1, property index, column "inherited".</summary>
internal sealed class Style
{
    private static readonly HashSet<string> NotInherited = ["opacity", "display"];
    private readonly ImmutableDictionary<string, string> _all;
    private readonly Dictionary<string, string> _own;

    private Style(ImmutableDictionary<string, string> all, Dictionary<string, string> own) => (_all, _own) = (all, own);

    /// <summary>What SVG begins with.</summary>
    public static Style Initial { get; } = new(ImmutableDictionary.CreateRange(new Dictionary<string, string> { ["fill"] = "#000000", ["stroke"] = "none", ["stroke-width"] = "1", ["text-anchor"] = "start", ["font-size"] = "16", ["font-weight"] = "400" }), []);

    public Style With(Dictionary<string, string> own)
    {
        var all = _all;
        foreach (var (name, value) in own)
            if (!NotInherited.Contains(name)) all = all.SetItem(name, value);
        return new(all, own);
    }

    public string? Own(string name) => _own.TryGetValue(name, out var value) ? SvgValues.Resolve(value, _all) : null;

    public string? Get(string name) => Own(name) ?? (!NotInherited.Contains(name) && _all.TryGetValue(name, out var value) ? SvgValues.Resolve(value, _all) : null);

    /// <summary>The paint of the area; null for none. The caller disposes it.</summary>
    public SKPaint? Fill() => SvgValues.Colour(Get("fill")!) is { } colour ? new() { Color = Faded(colour, "fill-opacity"), IsAntialias = true, Style = SKPaintStyle.Fill } : null;

    /// <summary>The paint of the line; null for none. The caller disposes it.</summary>
    public SKPaint? Stroke()
    {
        if (SvgValues.Colour(Get("stroke")!) is not { } colour) return null;
        var paint = new SKPaint
        {
            Color = Faded(colour, "stroke-opacity"), IsAntialias = true, Style = SKPaintStyle.Stroke, StrokeWidth = (float)SvgValues.Number(Get("stroke-width")!),
            StrokeCap = Get("stroke-linecap") switch { "round" => SKStrokeCap.Round, "square" => SKStrokeCap.Square, _ => SKStrokeCap.Butt },
            StrokeJoin = Get("stroke-linejoin") switch { "round" => SKStrokeJoin.Round, "bevel" => SKStrokeJoin.Bevel, _ => SKStrokeJoin.Miter },
        };
        if (Get("stroke-dasharray") is { } dashes and not "none")
        {
            float[] lengths = [.. SvgValues.Numbers(dashes).Select(n => (float)n)];
            if (lengths.Length % 2 != 0) lengths = [.. lengths, .. lengths];
            using var effect = SKPathEffect.CreateDash(lengths, 0);
            paint.PathEffect = effect;
        }
        return paint;
    }

    private SKColor Faded(SKColor colour, string property) => Get(property) is { } share ? colour.WithAlpha((byte)Math.Round(colour.Alpha * SvgValues.Number(share))) : colour;
}

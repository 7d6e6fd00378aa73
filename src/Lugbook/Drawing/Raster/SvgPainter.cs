using System.Xml.Linq;
using SkiaSharp;

namespace Lugbook.Drawing.Raster;

/// <summary>Paints the elements that our own drawings use: groups, paths, circles, rectangles, lines and text.</summary>
internal sealed class SvgPainter
{
    private static readonly Lazy<(SKTypeface Plain, SKTypeface Bold)> Faces = new(() => (Face("DejaVuSans.ttf"), Face("DejaVuSans-Bold.ttf")));
    private readonly XElement _root;
    private readonly StyleRules _rules;

    public SvgPainter(XElement root)
    {
        _root = root;
        _rules = new(string.Concat(root.Descendants().Where(e => e.Name.LocalName == "style").Select(e => e.Value)));
    }

    public void Paint(SKCanvas canvas) => Element(canvas, _root, Style.Initial);

    private void Element(SKCanvas canvas, XElement element, Style inherited)
    {
        var style = inherited.With(_rules.Of(element));
        if (style.Get("display") == "none") return;
        var opacity = style.Own("opacity") is { } share ? SvgValues.Number(share) : 1;
        var before = canvas.SaveCount;
        if (opacity < 1)
        {
            using var veil = new SKPaint { Color = SKColors.White.WithAlpha((byte)Math.Round(255 * opacity)) };
            canvas.SaveLayer(veil);
        }
        else canvas.Save();
        Transform(canvas, (string?)element.Attribute("transform"));
        switch (element.Name.LocalName)
        {
            case "svg" or "g" or "a":
                foreach (var child in element.Elements()) Element(canvas, child, style);
                break;
            case "path":
                using (var path = SKPath.ParseSvgPathData((string)element.Attribute("d")!)) Draw(canvas, path, style);
                break;
            case "circle":
                using (var path = new SKPath())
                {
                    path.AddCircle(F(element, "cx"), F(element, "cy"), F(element, "r"));
                    Draw(canvas, path, style);
                }
                break;
            case "rect":
                using (var path = new SKPath())
                {
                    path.AddRoundRect(SKRect.Create(F(element, "x"), F(element, "y"), F(element, "width"), F(element, "height")), F(element, "rx"), F(element, "rx"));
                    Draw(canvas, path, style);
                }
                break;
            case "line":
                using (var path = new SKPath())
                {
                    path.MoveTo(F(element, "x1"), F(element, "y1"));
                    path.LineTo(F(element, "x2"), F(element, "y2"));
                    Draw(canvas, path, style);
                }
                break;
            case "text":
                Text(canvas, element, style);
                break;
            case "title" or "style" or "desc":
                break;
            case var other:
                throw new NotSupportedException($"The drawing's element '{other}' is not known to the picture writer.");
        }
        canvas.RestoreToCount(before);
    }

    private static void Transform(SKCanvas canvas, string? transform)
    {
        foreach (var step in transform?.Split(')', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries) ?? [])
        {
            var (name, numbers) = step.Split('(', 2) is [var word, var list] ? (word, SvgValues.Numbers(list)) : (step, []);
            if (name == "rotate" && numbers.Length is (1 or 3)) canvas.RotateDegrees((float)numbers[0], numbers.Length > 1 ? (float)numbers[1] : 0, numbers.Length > 1 ? (float)numbers[2] : 0);
            else if (name == "translate" && numbers.Length is (1 or 2)) canvas.Translate((float)numbers[0], numbers.Length > 1 ? (float)numbers[1] : 0);
            else throw new NotSupportedException($"The drawing's transform '{transform}' is not known to the picture writer.");
        }
    }

    private static void Draw(SKCanvas canvas, SKPath path, Style style)
    {
        using var fill = style.Fill();
        if (fill is not null) canvas.DrawPath(path, fill);
        using var stroke = style.Stroke();
        if (stroke is not null) canvas.DrawPath(path, stroke);
    }

    private static void Text(SKCanvas canvas, XElement element, Style style)
    {
        var bold = style.Get("font-weight") is "bold" || int.TryParse(style.Get("font-weight"), out var weight) && weight >= 600;
        var size = (float)SvgValues.Number(style.Get("font-size")!);
        using var font = new SKFont(bold ? Faces.Value.Bold : Faces.Value.Plain, size) { Edging = SKFontEdging.Antialias, Subpixel = true, Hinting = SKFontHinting.None };
        var width = font.MeasureText(element.Value);
        var x = F(element, "x") - style.Get("text-anchor") switch { "middle" => width / 2, "end" => width, _ => 0 };
        using var fill = style.Fill();
        using var stroke = style.Stroke();
        // A halo stands behind its letters.
        if (stroke is not null) canvas.DrawText(element.Value, x, F(element, "y"), font, stroke);
        if (fill is not null) canvas.DrawText(element.Value, x, F(element, "y"), font, fill);
    }

    private static float F(XElement element, string name) => (string?)element.Attribute(name) is { } text ? (float)SvgValues.Number(text) : 0;

    private static SKTypeface Face(string name)
    {
        using var stream = typeof(SvgPainter).Assembly.GetManifestResourceStream($"fonts.{name}") ?? throw new InvalidOperationException($"The font {name} is missing from the program.");
        using var data = SKData.Create(stream);
        return SKTypeface.FromData(data);
    }
}

using System.Globalization;
using System.Text;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Drawing;

/// <summary>Writes a scene as SVG that needs nothing else: style, titles and words included; one unit is one millimetre.</summary>
/// <remarks>
/// The page may restyle it through the variables of <see cref="SvgStyle"/>; without them it stands on paper in ink.
/// Every lug, part, wire and mount is a group with data-lug, data-part, data-wire or data-mount, its row's data-id, a title and a label in words.
/// </remarks>
public static class SvgWriter
{
    /// <summary>The scene as SVG text.</summary>
    public static string Write(Scene scene)
    {
        var svg = new StringBuilder(400_000);
        var b = scene.Bounds;
        svg.Append("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chassis-drawing").Append(scene.Dims ? " dims" : "").Append("\" viewBox=\"");
        Number(svg, b.Left).Append(' '); Number(svg, b.Top).Append(' '); Number(svg, b.Width).Append(' '); Number(svg, b.Height);
        svg.Append("\" role=\"group\" aria-label=\""); Text(svg, scene.Description).Append("\">\n<title>"); Text(svg, scene.Title).Append("</title>\n<style>")
            .Append(SvgStyle.Css).Append("</style>\n<rect class=\"sheet\" x=\"");
        Number(svg, b.Left).Append("\" y=\""); Number(svg, b.Top).Append("\" width=\""); Number(svg, b.Width).Append("\" height=\""); Number(svg, b.Height).Append("\"/>\n");
        foreach (var layer in scene.Layers)
        {
            svg.Append("<g data-layer=\"").Append(layer.Name).Append(layer.Name == LayerNames.Labels ? "\" aria-hidden=\"true\">\n" : "\">\n");
            foreach (var item in layer.Items) Item(svg, item);
            svg.Append("</g>\n");
        }
        return svg.Append("</svg>\n").ToString();
    }

    private static void Item(StringBuilder svg, SceneItem item)
    {
        svg.Append("<g");
        if (item.Kind == ItemKind.Other)
        {
            if (item.Name.Length > 0) { svg.Append(" data-for-").Append(item.Words).Append("=\""); Text(svg, item.Name).Append('"'); }
        }
        else
        {
            svg.Append(item.Kind switch { ItemKind.Lug => " data-lug=\"", ItemKind.Part => " data-part=\"", ItemKind.Wire => " data-wire=\"", ItemKind.Mount => " data-mount=\"", _ => " data-group=\"" });
            Text(svg, item.Name).Append('"');
            if (item.Id > 0) svg.Append(" data-id=\"").Append(item.Id.ToString(CultureInfo.InvariantCulture)).Append('"');
            svg.Append(" role=\"img\" aria-label=\""); Text(svg, item.Words).Append('"');
        }
        if (item.Class.Length > 0) svg.Append(" class=\"").Append(item.Class).Append('"');
        svg.Append('>');
        if (item.Kind != ItemKind.Other) { svg.Append("<title>"); Text(svg, item.Words).Append("</title>"); }
        foreach (var shape in item.Shapes) Shape(svg, shape);
        svg.Append("</g>\n");
    }

    private static void Shape(StringBuilder svg, Shape shape)
    {
        switch (shape)
        {
            case OutlineShape o:
                svg.Append("<path class=\"").Append(o.Class).Append(o.IsLine ? " line\"" : "\"");
                if (o.Paint is not null) svg.Append(o.IsLine ? " style=\"stroke:" : " style=\"fill:").Append(o.Paint).Append('"');
                if (o.Lead is { } letter) svg.Append(" data-lead=\"").Append(letter).Append('"');
                svg.Append(" d=\"");
                foreach (var s in o.Outline.Strokes)
                {
                    switch (s.Step)
                    {
                        case Step.Move: Point(svg.Append('M'), s.To); break;
                        case Step.Line: Point(svg.Append('L'), s.To); break;
                        case Step.Curve: Point(svg.Append('C'), s.C1); Point(svg.Append(' '), s.C2); Point(svg.Append(' '), s.To); break;
                        default: svg.Append('Z'); break;
                    }
                }
                svg.Append("\"/>");
                break;
            case DiscShape d:
                svg.Append("<circle class=\"").Append(d.Class).Append('"');
                if (d.Paint is not null) svg.Append(" style=\"fill:").Append(d.Paint).Append('"');
                Number(svg.Append(" cx=\""), d.Centre.X); Number(svg.Append("\" cy=\""), d.Centre.Y); Number(svg.Append("\" r=\""), d.Radius);
                svg.Append("\"/>");
                break;
            case SignShape s:
                svg.Append("<path class=\"").Append(s.Class).Append(" line\" d=\"");
                for (var i = 0; i < s.Points.Length; i++) Point(svg.Append(i == 0 ? 'M' : 'L'), s.At + s.Points[i]);
                svg.Append("\"/>");
                break;
            case TextShape t:
                Label(svg, t);
                break;
        }
    }

    private static void Label(StringBuilder svg, TextShape t)
    {
        Pt up = new(t.Direction.Y, -t.Direction.X);
        // The baseline lies about a third of the type's height below its middle.
        var at = t.At + up * (t.Above - 0.35 * t.Size);
        svg.Append("<text class=\"").Append(t.Class).Append('"');
        Number(svg.Append(" x=\""), at.X); Number(svg.Append("\" y=\""), at.Y); Number(svg.Append("\" font-size=\""), t.Size);
        if (Math.Abs(t.Direction.Y) > 1e-4)
        {
            Number(svg.Append("\" transform=\"rotate("), Math.Atan2(t.Direction.Y, t.Direction.X) * 180 / Math.PI).Append(' ');
            Point(svg, at).Append(')');
        }
        Text(svg.Append("\">"), t.Text).Append("</text>");
    }

    private static StringBuilder Point(StringBuilder svg, Pt p) => Number(Number(svg, p.X).Append(' '), p.Y);

    /// <summary>Hundredths of a millimetre, always with a point.</summary>
    private static StringBuilder Number(StringBuilder svg, double value)
    {
        var rounded = Math.Round(value, 2);
        return svg.Append(rounded == 0 ? "0" : rounded.ToString("0.##", CultureInfo.InvariantCulture));
    }

    /// <summary>Text for element or attribute; what XML cannot hold is left out.</summary>
    private static StringBuilder Text(StringBuilder svg, string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            switch (c)
            {
                case '&': svg.Append("&amp;"); break;
                case '<': svg.Append("&lt;"); break;
                case '>': svg.Append("&gt;"); break;
                case '"': svg.Append("&quot;"); break;
                default:
                    if (char.IsHighSurrogate(c) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1])) svg.Append(c).Append(text[++i]);
                    else if (c >= ' ' && !char.IsSurrogate(c) && c is not '\uFFFE' and not '\uFFFF') svg.Append(c);
                    else if (c is '\t' or '\n' or '\r') svg.Append(' ');
                    break;
            }
        }
        return svg;
    }
}

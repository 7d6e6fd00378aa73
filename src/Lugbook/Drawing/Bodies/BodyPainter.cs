using System.Collections.Immutable;
using Lugbook.Drawing.Labels;
using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Markings.Colours;
using Lugbook.Trade.Parts;

namespace Lugbook.Drawing.Bodies;

/// <summary>Draws bodies as one knows them: bands, printed values, dots, the mark of the + lead.</summary>
internal static class BodyPainter
{
    /// <summary>Leads, then the body. A lead ends in the lug's middle; the eyelet is drawn over it.</summary>
    public static ImmutableArray<Shape> Shapes(PlacedBody body)
    {
        var shapes = ImmutableArray.CreateBuilder<Shape>();
        foreach (var lead in body.Leads)
        {
            if (lead.Paint is not null) shapes.Add(new OutlineShape(lead.Course, "lead-edge", null, true));
            shapes.Add(new OutlineShape(lead.Course, lead.Paint is null ? "lead" : "lead flying", lead.Paint, true, lead.Letter));
        }
        shapes.AddRange(body.Part.Kind == PartKind.Glass ? Glass(body) : Body(body));
        return shapes.ToImmutable();
    }

    /// <summary>Does the body itself tell the value in print? Then the label beside it need not.</summary>
    public static bool Prints(PlacedBody b) => b.Form.Look switch
    {
        Look.Tube or Look.Electrolytic or Look.PowerResistor or Look.Disc or Look.Mica or Look.Block =>
            b.Home != Home.Mount && !(b.Form.Look is Look.Tube or Look.Mica && Paint.Code(b.Part.Code) is { Length: >= 3 }) && Print(b).Any(),
        Look.Round => b.Part.Kind == PartKind.Valve,
        _ => false,
    };

    private static IEnumerable<Shape> Body(PlacedBody b) => b.Form.Look switch
    {
        Look.Resistor => Resistor(b),
        Look.PowerResistor => [Rounded(b, 2, "body cement"), Cuff(b, -1), Cuff(b, 1), .. Print(b)],
        Look.Tube => Tube(b),
        Look.Electrolytic => b.Home == Home.Mount ? [new DiscShape(b.Slab.Centre, 1.1, "body tin"), Text(b, "+", 1.8, 0, 0, "print")] : Electrolytic(b),
        Look.Mica => Mica(b),
        Look.Disc => [new OutlineShape(Outline.Oval(b.Slab.Centre, b.Slab.Axis, b.Slab.Length / 2, b.Slab.Width / 2), "body disc"), .. Print(b)],
        Look.DiscOnEdge => [new OutlineShape(Outline.Oval(b.Slab.Centre, b.Slab.Axis, b.Slab.Length / 2, b.Slab.Width / 2), "body disc")],
        Look.CeramicTube => CeramicTube(b),
        Look.Diode => Diode(b),
        Look.Coil => Coil(b),
        Look.Fuse => Fuse(b),
        Look.Lamp => Lamp(b),
        Look.Round => Round(b),
        Look.Plates => Plates(b),
        Look.Adjustable => [Rounded(b, 1, "body mica"), new DiscShape(b.Slab.Centre, Math.Min(b.Slab.Length, b.Slab.Width) * 0.28, "metal"), Line(b, "ink thin", -0.12, -0.16, 0.12, 0.16)],
        _ => b.Home == Home.Shared ? [Rounded(b, 0.6, "body block"), Text(b, b.Part.Name, Math.Min(1.8, b.Slab.Width * 0.8), 0, 0, "print")] : [Rounded(b, 1, "body block"), .. Print(b)],
    };

    private static IEnumerable<Shape> Resistor(PlacedBody b)
    {
        yield return Rounded(b, b.Slab.Width * 0.28, "body resistor");
        var bands = Paint.Code(b.Part.Code) ?? (b.Part.Value is { } ohms ? Paint.Bands(ohms, b.Part.Tolerance is { IsSymmetric: true } t ? Math.Round(t.Plus, 6) : null) : null);
        if (bands is null) { foreach (var s in Print(b)) yield return s; yield break; }
        var n = Math.Min(bands.Length, 6);
        var (l, w) = (b.Slab.Length, b.Slab.Width);
        var pitch = Math.Min(0.17, 0.7 / n);
        for (var i = 0; i < n; i++)
        {
            // Tolerance stands a little apart, so that one sees where to begin.
            var at = -0.5 + 0.13 + pitch * i + (i == 3 && n == 4 ? 0.1 : 0);
            if (bands[i] == "none") continue;
            yield return new OutlineShape(Outline.Area(new Slab(b.Slab.At(at * l, 0), b.Slab.Axis, l * pitch * 0.55, w).Corners), "band", bands[i]);
        }
    }

    private static IEnumerable<Shape> Tube(PlacedBody b)
    {
        var (l, w) = (b.Slab.Length, b.Slab.Width);
        var code = Paint.Code(b.Part.Code) is { Length: >= 3 } c ? c : null;
        yield return Rounded(b, w * 0.22, b.Part.Kind == PartKind.Film ? "body film" : code is null ? "body paper" : "body moulded");
        if (code is not null)
        {
            var n = Math.Min(code.Length, 7);
            for (var i = 0; i < n; i++)
                if (code[i] != "none")
                    yield return new OutlineShape(Outline.Area(new Slab(b.Slab.At((-0.42 + 0.095 * i) * l, 0), b.Slab.Axis, l * 0.055, w).Corners), "band", code[i]);
            yield break;
        }
        yield return new OutlineShape(Outline.Line(b.Slab.At(-l / 2 + l * 0.06, -w * 0.42), b.Slab.At(-l / 2 + l * 0.06, w * 0.42)), "ink thin faint", null, true);
        yield return new OutlineShape(Outline.Line(b.Slab.At(l / 2 - l * 0.06, -w * 0.42), b.Slab.At(l / 2 - l * 0.06, w * 0.42)), "ink thin faint", null, true);
        foreach (var s in Print(b)) yield return s;
    }

    private static IEnumerable<Shape> Electrolytic(PlacedBody b)
    {
        var (l, w) = (b.Slab.Length, b.Slab.Width);
        yield return Rounded(b, Math.Min(2, w * 0.2), "body tin");
        double plus = b.Part.PlusLead switch { 'a' => -1, 'b' => 1, _ => 0 };
        if (plus == 0) { foreach (var s in Print(b)) yield return s; yield break; }
        // A dark band at the - end, a + at the other: known without colour.
        yield return new OutlineShape(Outline.Area(new Slab(b.Slab.At(-plus * (l / 2 - l * 0.07), 0), b.Slab.Axis, l * 0.06, w).Corners), "mark");
        yield return Text(b, "+", Math.Min(4, w * 0.55), plus * (l / 2 - Math.Min(2.6, l * 0.1)), 0, "print strong");
        foreach (var s in Print(b, 0.72)) yield return s;
    }

    private static IEnumerable<Shape> Mica(PlacedBody b)
    {
        var (l, w) = (b.Slab.Length, b.Slab.Width);
        yield return Rounded(b, 1, "body mica");
        if (b.Home == Home.Mount) yield break;
        if (Paint.Code(b.Part.Code) is not { Length: >= 3 } code) { foreach (var s in Print(b)) yield return s; yield break; }
        // Reading order runs along the top and back along the bottom.
        var top = code.Length <= 4 ? code.Length : 3;
        var r = Math.Min(w * 0.14, l * 0.09);
        for (var i = 0; i < Math.Min(code.Length, 6); i++)
        {
            var (column, row) = i < top ? (i, code.Length > top ? 1 : 0) : (2 * top - 1 - i, -1);
            if (code[i] == "none") continue;
            yield return new DiscShape(b.Slab.At((column - (top - 1) / 2.0) * l * 0.27, row * w * 0.22), r, "dot", code[i]);
        }
    }

    private static IEnumerable<Shape> CeramicTube(PlacedBody b)
    {
        var (l, w) = (b.Slab.Length, b.Slab.Width);
        yield return Rounded(b, w * 0.4, "body ceramic");
        if (Paint.Code(b.Part.Code) is not { } code) yield break;
        for (var i = 0; i < Math.Min(code.Length, 6); i++)
            if (code[i] != "none") yield return new DiscShape(b.Slab.At((-0.36 + 0.15 * i) * l, 0), Math.Min(w * 0.26, l * 0.055), "dot", code[i]);
    }

    private static IEnumerable<Shape> Diode(PlacedBody b)
    {
        var (l, w) = (b.Slab.Length, b.Slab.Width);
        double cathode = b.Part.PlusLead switch { 'a' => -1, 'b' => 1, _ => 0 };
        yield return Rounded(b, w * 0.3, "body glass");
        if (cathode == 0) yield break;
        yield return new OutlineShape(Outline.Area(b.Slab.At(-cathode * l * 0.22, -w * 0.32), b.Slab.At(-cathode * l * 0.22, w * 0.32), b.Slab.At(cathode * l * 0.18, 0)), "mark");
        yield return new OutlineShape(Outline.Area(new Slab(b.Slab.At(cathode * l * 0.26, 0), b.Slab.Axis, l * 0.09, w).Corners), "mark");
    }

    private static IEnumerable<Shape> Coil(PlacedBody b)
    {
        var (l, w) = (b.Slab.Length, b.Slab.Width);
        if (b.Home == Home.Loose || b.Home == Home.Tray) yield return Rounded(b, w * 0.25, "body coil");
        var n = (int)Math.Clamp(l / Math.Max(1.2, w * 0.45), 3, 9);
        var strokes = ImmutableArray.CreateBuilder<Stroke>();
        strokes.Add(new(Step.Move, b.Slab.At(-l / 2, 0)));
        for (var i = 0; i < n; i++)
        {
            double x0 = -l / 2 + l * i / n, x1 = x0 + l / n;
            strokes.Add(new(Step.Curve, b.Slab.At(x1, 0), b.Slab.At(x0, w * 0.62), b.Slab.At(x1, w * 0.62)));
        }
        yield return new OutlineShape(new(strokes.ToImmutable()), "winding", null, true);
    }

    private static IEnumerable<Shape> Plates(PlacedBody b)
    {
        yield return Line(b, "ink", -0.5, -0.5, -0.5, 0.5);
        yield return Line(b, "ink", 0.5, -0.5, 0.5, 0.5);
        if (b.Part.Kind is PartKind.Trimmer or PartKind.VariableCapacitor) yield return Line(b, "ink thin", -1.3, -0.5, 1.3, 0.5);
    }

    private static IEnumerable<Shape> Fuse(PlacedBody b)
    {
        yield return Rounded(b, 0.8, "body glass");
        yield return Line(b, "ink thin", -0.5, 0, 0.5, 0);
        yield return Cuff(b, -1);
        yield return Cuff(b, 1);
    }

    private static IEnumerable<Shape> Lamp(PlacedBody b)
    {
        var r = Math.Min(b.Slab.Length, b.Slab.Width) / 2;
        yield return new OutlineShape(Outline.Oval(b.Slab.Centre, b.Slab.Axis, b.Slab.Length / 2, r), "body glass");
        var k = r * 0.66;
        yield return new OutlineShape(Outline.Line(b.Slab.At(-k, -k), b.Slab.At(k, k)), "ink thin", null, true);
        yield return new OutlineShape(Outline.Line(b.Slab.At(-k, k), b.Slab.At(k, -k)), "ink thin", null, true);
    }

    private static IEnumerable<Shape> Round(PlacedBody b)
    {
        var r = Math.Min(b.Slab.Length, b.Slab.Width) / 2;
        if (b.Part.Kind == PartKind.Valve)
        {
            if (b.Home == Home.Tray) yield return new DiscShape(b.Slab.Centre, r, "body glass");
            else yield return new OutlineShape(Outline.Rounded(new(b.Slab.Centre, b.Slab.Axis, b.Slab.Length, Math.Min(3.6, b.Slab.Width)), 1), "plate");
            if (b.Part.Marked is { Length: > 0 } type)
                yield return Text(b, type, Math.Clamp(b.Slab.Length / TextWidth.Of(type, 1), 1.5, 2.8), 0, 0, "valve");
            yield break;
        }
        if (b.Home == Home.Mount && b.Part.Kind == PartKind.Control)
        {
            // The track, and the slider on it.
            yield return new OutlineShape(Outline.Curve(b.Slab.At(-r, -r * 0.2), b.Slab.At(-r, r), b.Slab.At(r, r), b.Slab.At(r, -r * 0.2)), "winding", null, true);
            yield break;
        }
        yield return new DiscShape(b.Slab.Centre, r, "body tin");
        yield return new DiscShape(b.Slab.Centre, r * 0.4, "metal");
    }

    private static IEnumerable<Shape> Glass(PlacedBody b)
    {
        yield return Rounded(b, 2, "body glass");
        yield return Line(b, "ink", -0.08, -0.3, -0.08, 0.3);
        yield return Line(b, "ink", 0.08, -0.3, 0.08, 0.3);
    }

    /// <summary>The marking in print, in one line or two, as large as the body allows; nothing when it would be too small to read.</summary>
    private static IEnumerable<Shape> Print(PlacedBody b, double share = 0.86)
    {
        if (b.Home == Home.Mount && b.Form.Look != Look.PowerResistor) return [];
        var text = b.Part.Marked?.Trim();
        if (string.IsNullOrEmpty(text) || text.Length > 40) return [];
        var (l, w) = (b.Slab.Length * share, b.Slab.Width);
        double Size(string line, double height) => Math.Min(height, Math.Min(2.8, l / Math.Max(0.1, TextWidth.Of(line, 1))));
        var one = Size(text, w * 0.55);
        var cut = Middle(text);
        if (cut > 0)
        {
            string first = text[..cut].TrimEnd(), second = text[cut..].TrimStart();
            var two = Math.Min(Size(first, w * 0.36), Size(second, w * 0.36));
            if (two > one * 1.1 && two >= 1.3) return [Text(b, first, two, 0, two * 0.6, "print"), Text(b, second, two, 0, -two * 0.6, "print")];
        }
        return one >= 1.3 ? [Text(b, text, one, 0, 0, "print")] : [];
    }

    /// <summary>The blank nearest to the middle, or -1.</summary>
    private static int Middle(string text)
    {
        var best = -1;
        for (var i = 1; i < text.Length - 1; i++)
            if (text[i] == ' ' && (best < 0 || Math.Abs(i - text.Length / 2) < Math.Abs(best - text.Length / 2))) best = i;
        return best;
    }

    private static OutlineShape Rounded(PlacedBody b, double radius, string look) => new(Outline.Rounded(b.Slab, radius), look);

    private static OutlineShape Cuff(PlacedBody b, int end) =>
        new(Outline.Area(new Slab(b.Slab.At(end * b.Slab.Length * 0.44, 0), b.Slab.Axis, b.Slab.Length * 0.12, b.Slab.Width).Corners), "metal");

    private static OutlineShape Line(PlacedBody b, string look, double x0, double y0, double x1, double y1) =>
        new(Outline.Line(b.Slab.At(x0 * b.Slab.Length, y0 * b.Slab.Width), b.Slab.At(x1 * b.Slab.Length, y1 * b.Slab.Width)), look, null, true);

    /// <summary>Text on a body; <paramref name="above"/> counts upwards as one reads, whichever way the body lies.</summary>
    private static TextShape Text(PlacedBody b, string text, double size, double along, double above, string look) =>
        new(b.Slab.At(along, 0), text, size, b.Slab.Axis, look) { Above = above };
}

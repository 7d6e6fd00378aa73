using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Markings.Colours;

namespace Lugbook.Drawing;

/// <summary>Draws a wire in the colour of its insulation with an ink edge; a bond as a small mark of chassis metal at its lug.</summary>
internal static class WirePainter
{
    public static IEnumerable<Shape> Shapes(PlacedWire w, ChassisLayout layout)
    {
        if (w.Course is null) return w.Mark is null ? [] : w.Wire.Kind == WireKind.Bond ? Bond(w.Mark, layout) : Unfinished(w.Mark);
        var colours = Paint.In(w.Wire.Colour);
        var paint = colours.Length > 0 ? colours[0] : null;
        List<Shape> shapes = [];
        switch (w.Wire.Kind)
        {
            case WireKind.Bare:
                shapes.Add(new OutlineShape(w.Course, "wire-edge bare-edge", null, true));
                shapes.Add(new OutlineShape(w.Course, "wire bare", null, true));
                return shapes;
            case WireKind.Shielded:
                shapes.Add(new OutlineShape(w.Course, "wire-edge sheath-edge", null, true));
                shapes.Add(new OutlineShape(w.Course, "wire sheath", null, true));
                shapes.Add(new OutlineShape(w.Course, "wire braid", null, true));
                return shapes;
            case WireKind.LineCord:
                shapes.Add(new OutlineShape(w.Course, "wire-edge cord-edge", null, true));
                shapes.Add(new OutlineShape(w.Course, "wire cord", paint, true));
                return shapes;
        }
        shapes.Add(new OutlineShape(w.Course, "wire-edge", null, true));
        shapes.Add(new OutlineShape(w.Course, "wire", paint, true));
        if (w.Wire.Kind == WireKind.Twisted) shapes.Add(new OutlineShape(w.Course, "wire lay", null, true));
        else if (colours.Length > 1) shapes.Add(new OutlineShape(w.Course, "wire tracer", colours[1], true));
        return shapes;
    }

    /// <summary>Three slanting strokes under a short bar, on the side away from the mount's middle.</summary>
    private static IEnumerable<Shape> Bond(PlacedLug lug, ChassisLayout layout)
    {
        var d = BondDirection(lug, layout);
        var side = d.Turned;
        var bar = lug.At + d * (lug.Radius + 1.3);
        yield return new OutlineShape(Outline.Line(lug.At + d * lug.Radius, bar), "bond", null, true);
        yield return new OutlineShape(Outline.Line(bar - side * 1.5, bar + side * 1.5), "bond", null, true);
        foreach (var k in new[] { -1.4, -0.2, 1.0 })
            yield return new OutlineShape(Outline.Line(bar + side * k, bar + side * (k - 0.7) + d * 1.1), "bond", null, true);
    }

    public static Pt BondDirection(PlacedLug lug, ChassisLayout layout)
    {
        var mount = layout.Mounts.First(m => m.Mount.Lugs.Contains(lug));
        if (mount.AlongAxis is { } axis) return lug.IsFoot ? axis.Turned : axis.Turned * -1;
        var d = lug.At - mount.Centre;
        return d.Length < 0.5 ? new(0, -1) : d.Unit;
    }

    /// <summary>A wire of which one end is not known: a loose end.</summary>
    private static IEnumerable<Shape> Unfinished(PlacedLug lug)
    {
        yield return new OutlineShape(Outline.Line(lug.At, lug.At + new Pt(3, 4)), "wire loose-end", null, true);
    }
}

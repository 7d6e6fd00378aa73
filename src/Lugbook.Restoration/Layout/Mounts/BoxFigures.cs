using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Restoration.Layout.Mounts;

/// <summary>Mounts whose shape is a box, a tube or an outline round their lugs.</summary>
internal static class BoxFigures
{
    /// <summary>Anything else: an outline that stands off its lugs.</summary>
    public static MountFigure Plain(PlacedMount mount, Pt[] points) => Hull(mount, points, 4.2, "mount");

    public static MountFigure Sealed(PlacedMount mount)
    {
        // Its lugs stand along some of its sides: the box that holds them all.
        var box = Box.Around(Points(mount)).Grown(4.2);
        Slab r = new(box.Centre, new(1, 0), Math.Max(12, box.Width), Math.Max(12, box.Height));
        return Make(mount, r, [new OutlineShape(Outline.Rounded(r, 2), "metal")]) with { AlongAxis = null };
    }

    public static MountFigure IfCan(PlacedMount mount)
    {
        var r = Rect(mount, 4, 11);
        return Make(mount, r, [new OutlineShape(Outline.Rounded(r, 2), "metal"), new OutlineShape(Outline.Rounded(r.Grown(-1.2), 1.4), "fibre")]);
    }

    /// <summary>Fuse holder or power resistor: a tube along its lugs.</summary>
    public static MountFigure Tube(PlacedMount mount)
    {
        var (c, axis, _) = BestFit.Line(Points(mount));
        var r = Along(mount, c, axis, 2, mount.Kind == Trade.Chassis.MountKind.FuseHolder ? 8 : 11);
        return Make(mount, r, [new OutlineShape(Outline.Rounded(r, 2.5), "mount")]);
    }

    /// <summary>A selenium stack: square fins in a row on a bolt.</summary>
    public static MountFigure Fins(PlacedMount mount)
    {
        var (c, axis, _) = BestFit.Line(Points(mount));
        var r = Along(mount, c, axis, -1.5, 20);
        var n = (int)Math.Clamp(r.Length / 3, 2, 12);
        List<Shape> shapes = [new OutlineShape(Outline.Rounded(r with { Length = r.Length + 4, Width = 3 }, 1), "metal")];
        for (var i = 0; i < n; i++)
            shapes.Add(new OutlineShape(Outline.Rounded(new(r.At((i + 0.5) / n * r.Length - r.Length / 2, 0), axis, 1.1, r.Width), 0.3), "metal fin"));
        return Make(mount, r, [.. shapes]);
    }

    public static MountFigure LampHolder(PlacedMount mount)
    {
        var (c, reach) = BestFit.Enclosing(Points(mount));
        var r = Math.Max(6, reach + 2.5);
        return Round(mount, c, r, [new DiscShape(c, r, "metal"), new DiscShape(c, r * 0.6, "glass")]);
    }

    public static MountFigure EarthLug(PlacedMount mount)
    {
        List<Shape> shapes = [];
        foreach (var p in Points(mount))
        {
            shapes.Add(new OutlineShape(Outline.Smooth([.. BestFit.HullAround([p, p + new Pt(5, -5)], 2.6)], 1, true), "metal"));
            shapes.Add(new DiscShape(p + new Pt(5, -5), 1.4, "rivet"));
        }
        var box = Box.Around(Points(mount)).Grown(4);
        return new(mount, [.. shapes], box.Centre, box, (0, 0));
    }

    /// <summary>Plug blades, one at each lug, in a moulded body.</summary>
    public static MountFigure LineCord(PlacedMount mount)
    {
        var (c, axis, _) = BestFit.Line(Points(mount));
        var r = Along(mount, c, axis, 4, 9);
        List<Shape> shapes = [new OutlineShape(Outline.Rounded(r, 3.5), "rubber")];
        foreach (var p in Points(mount)) shapes.Add(new OutlineShape(Outline.Rounded(new(p, axis.Turned, 7, 2), 0.4), "brass"));
        return Make(mount, r, [.. shapes]);
    }

    public static MountFigure Jack(PlacedMount mount)
    {
        var (c, axis, _) = BestFit.Line(Points(mount));
        var r = Along(mount, c, axis, 4, 11);
        return Make(mount, r, [new OutlineShape(Outline.Rounded(r, 1.5), "mount"), new DiscShape(r.At(r.Length / 2 + 1, 0), 3.6, "metal"), new DiscShape(r.At(r.Length / 2 + 1, 0), 1.8, "hole")]);
    }

    public static MountFigure CoilForm(PlacedMount mount)
    {
        var (c, axis, off) = BestFit.Line(Points(mount));
        if (off > 5) return Hull(mount, Points(mount), 4, "mount");
        var r = Along(mount, c, axis, 3.5, 9);
        return Make(mount, r, [new OutlineShape(Outline.Rounded(r, 1.2), "fibre")]);
    }

    public static MountFigure Speaker(PlacedMount mount)
    {
        var (c, axis, _) = BestFit.Line(Points(mount));
        var r = Along(mount, c, axis, 5, 12);
        return Make(mount, r, [new OutlineShape(Outline.Rounded(r, 5.5), "mount"), new DiscShape(r.Centre, 3, "metal")]);
    }

    public static MountFigure Gang(PlacedMount mount)
    {
        var r = Rect(mount, 6, 22);
        List<Shape> shapes = [new OutlineShape(Outline.Rounded(r, 1), "metal faint")];
        for (var k = -4; k <= 4; k++)
            shapes.Add(new OutlineShape(Outline.Line(r.At(k * r.Length / 11, -r.Width * 0.36), r.At(k * r.Length / 11, r.Width * 0.36)), "ink thin", null, true));
        return Make(mount, r, [.. shapes]);
    }

    public static MountFigure Loop(PlacedMount mount)
    {
        var r = Rect(mount, 5, 10);
        return Make(mount, r, [new OutlineShape(Outline.Rounded(r, 1), "fibre"), new OutlineShape(Outline.Rounded(r.Grown(-2), 1), "ink thin", null, true)]);
    }

    public static MountFigure Iron(PlacedMount mount)
    {
        var r = Rect(mount, 5, 14);
        List<Shape> shapes = [new OutlineShape(Outline.Rounded(r, 1.2), "iron")];
        for (var k = -2; k <= 2; k++)
            shapes.Add(new OutlineShape(Outline.Line(r.At(-r.Length / 2 + 1.5, k * r.Width * 0.08), r.At(r.Length / 2 - 1.5, k * r.Width * 0.08)), "ink thin faint", null, true));
        return Make(mount, r, [.. shapes]);
    }

    /// <summary>A wafer when its lugs stand in a ring, a small box otherwise.</summary>
    public static MountFigure Switch(PlacedMount mount)
    {
        var points = Points(mount);
        if (points.Length >= 5 && BestFit.Circle(points) is { Radius: < 40 } ring && ring.Error < ring.Radius * 0.2)
            return Round(mount, ring.Centre, ring.Radius + 3, [new DiscShape(ring.Centre, ring.Radius + 3, "phenolic"), new DiscShape(ring.Centre, ring.Radius * 0.55, "metal"), new DiscShape(ring.Centre, 2.4, "hole")]);
        var r = Rect(mount, 3.2, 8);
        return Make(mount, r, [new OutlineShape(Outline.Rounded(r, 1.2), "mount")]);
    }

    /// <summary>Chassis metal: a screw with its lug.</summary>
    public static MountFigure ChassisMetal(PlacedMount mount)
    {
        List<Shape> shapes = [];
        foreach (var p in Points(mount)) shapes.Add(new DiscShape(p, 3, "metal"));
        var box = Box.Around(Points(mount)).Grown(3);
        return new(mount, [.. shapes], box.Centre, box, (0, 0));
    }

    private static Pt[] Points(PlacedMount mount) => [.. mount.Lugs.Select(l => l.At)];

    private static MountFigure Hull(PlacedMount mount, Pt[] points, double standOff, string look)
    {
        var hull = BestFit.HullAround(points, standOff);
        var box = Box.Around(hull);
        return new(mount, [new OutlineShape(Outline.Smooth(hull, 2, true), look)], Pt.Mean(points), box, (box.Width * 0.5, box.Height * 0.4));
    }

    private static Slab Rect(PlacedMount mount, double margin, double least)
    {
        var r = BestFit.Rectangle(Points(mount)).Grown(margin);
        // Boxes stand square on a chassis unless their lugs clearly say otherwise.
        var square = Box.Around(Points(mount)).Grown(margin);
        if (square.Width * square.Height < 1.35 * r.Length * r.Width)
            r = square.Width >= square.Height ? new(square.Centre, new(1, 0), square.Width, square.Height) : new(square.Centre, new(0, 1), square.Height, square.Width);
        return r with { Length = Math.Max(r.Length, least), Width = Math.Max(r.Width, least) };
    }

    private static Slab Along(PlacedMount mount, Pt centre, Pt axis, double margin, double width)
    {
        double first = mount.Lugs.Min(l => (l.At - centre).Dot(axis)), last = mount.Lugs.Max(l => (l.At - centre).Dot(axis));
        return new(centre + axis * ((first + last) / 2), axis, Math.Max(6, last - first + 2 * margin), width);
    }

    private static MountFigure Make(PlacedMount mount, Slab r, ImmutableArray<Shape> shapes) =>
        new(mount, shapes, r.Centre, Box.Around(r.Corners), Math.Abs(r.Axis.X) > 0.7 ? (r.Length * 0.8, r.Width * 0.5) : (r.Width * 0.8, r.Length * 0.5)) { AlongAxis = r.Axis };

    private static MountFigure Round(PlacedMount mount, Pt c, double r, ImmutableArray<Shape> shapes) =>
        new(mount, shapes, c, Box.Of(c, 2 * r, 2 * r), (r * 1.2, r * 0.8));
}

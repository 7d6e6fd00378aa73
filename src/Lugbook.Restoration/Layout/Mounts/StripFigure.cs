using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Layout.Mounts;

/// <summary>A tag strip or a strip of screw terminals: a board along its lugs; a foot reaches to the chassis.</summary>
internal static class StripFigure
{
    public static MountFigure Of(PlacedMount mount)
    {
        var points = mount.Lugs.Select(l => l.At).ToArray();
        var (middle, axis, off) = BestFit.Line(points);
        if (off > 4) return BoxFigures.Plain(mount, points);   // not a straight row: drawn as it is found
        double first = points.Min(p => (p - middle).Dot(axis)), last = points.Max(p => (p - middle).Dot(axis));
        var screw = mount.Kind == MountKind.ScrewStrip;
        var width = screw ? 10 : 4.2;
        var centre = middle + axis * ((first + last) / 2);
        var slab = new Slab(centre, axis, last - first + (screw ? 10 : 6.5), width);
        List<Shape> shapes = [];
        foreach (var foot in mount.Lugs.Where(l => l.IsFoot))
        {
            var out1 = foot.At + axis.Turned * 5.2;
            shapes.Add(new OutlineShape(Outline.Rounded(new(foot.At + axis.Turned * 2.6, axis.Turned, 9.6, 4.4), 2), "metal"));
            shapes.Add(new DiscShape(out1, 1.1, "rivet"));
        }
        shapes.Add(new OutlineShape(Outline.Rounded(slab, screw ? 1 : 0.8), "phenolic"));
        if (screw)
            foreach (var p in points)
            {
                shapes.Add(new DiscShape(p, 3.4, "metal"));
                shapes.Add(new OutlineShape(Outline.Line(p + axis.Turned * 2.4 + axis * 2.2, p - axis.Turned * 2.4 - axis * 2.2), "ink thin", null, true));
            }
        return new(mount, [.. shapes], centre, Box.Around(slab.Corners), (0, 0)) { AlongAxis = axis };
    }
}

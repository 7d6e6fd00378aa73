using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Restoration.Layout.Mounts;

/// <summary>A variable resistor: a round body behind three lugs, its shaft towards the nearest edge of the chassis.</summary>
internal static class ControlFigure
{
    public static MountFigure Of(PlacedMount mount, Box? edges)
    {
        var points = mount.Lugs.Select(l => l.At).ToArray();
        var (middle, axis, off) = BestFit.Line(points);
        var span = points.Max(p => (p - middle).Dot(axis)) - points.Min(p => (p - middle).Dot(axis));
        var radius = Math.Clamp(span * 0.6, 8, 13);
        var outwards = Outwards(middle, axis.Turned, edges);
        var centre = middle + outwards * (radius - 1.5);
        if (off > 1.5 && BestFit.Circle(points) is { Radius: > 4 and < 18 } arc)
        {
            // Lugs on an arc: the body is the arc's own circle.
            (centre, radius) = (arc.Centre, Math.Max(arc.Radius - 1, 6));
            outwards = (centre - middle).Unit;
        }
        List<Shape> shapes =
        [
            new OutlineShape(Outline.Rounded(new(centre + outwards * (radius + 1.5), outwards, 7, 6), 0.8), "metal"),
            new DiscShape(centre, radius, "metal"),
            new DiscShape(centre, radius * 0.72, "metal inner"),
        ];
        foreach (var p in points)
            shapes.Add(new OutlineShape(Outline.Line(p, p.Towards(centre, Math.Min(0.5, 4 / Math.Max(1, p.To(centre))))), "tag", null, true));
        return new(mount, [.. shapes], centre, Box.Of(centre, 2 * radius, 2 * radius), (radius * 1.3, radius * 0.9)) { AlongAxis = axis };
    }

    private static Pt Outwards(Pt from, Pt direction, Box? edges)
    {
        if (edges is not { } box) return direction.Y <= 0 ? direction : direction * -1;   // shafts usually leave by the front
        double Room(Pt d) => Math.Min(
            d.X > 1e-9 ? (box.Right - from.X) / d.X : d.X < -1e-9 ? (box.Left - from.X) / d.X : double.MaxValue,
            d.Y > 1e-9 ? (box.Bottom - from.Y) / d.Y : d.Y < -1e-9 ? (box.Top - from.Y) / d.Y : double.MaxValue);
        return Room(direction) < Room(direction * -1) ? direction : direction * -1;
    }
}

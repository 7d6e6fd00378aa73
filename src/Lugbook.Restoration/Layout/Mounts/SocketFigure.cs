using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Layout.Mounts;

/// <summary>A valve socket seen from below: saddle, body, and the key or the gap from which pins are counted.</summary>
internal static class SocketFigure
{
    public static MountFigure Of(PlacedMount mount, SocketPattern pattern)
    {
        var pins = mount.Lugs.Where(l => !l.IsCap && l.No is { } n && n >= 1 && n <= pattern.Pins).ToArray();
        var pairs = pins.Select(l => (pattern.Direction(l.No!.Value) * pattern.LugRadius, l.At)).ToArray();
        var (map, error) = BestFit.Similarity(pairs);
        Pt centre = map(default), key = (map(new(0, 1)) - centre).Unit;
        var radius = pattern.LugRadius * map(new(0, 1)).To(centre);
        if (pins.Length == 0)
        {
            centre = mount.Lugs.Length > 0 ? Pt.Mean([.. mount.Lugs.Select(l => l.At)]) : mount.Anchor;
            (radius, key) = (pattern.LugRadius, new(0, 1));
        }
        // Numbers that do not run round as they should: the circle of the lugs counts, and the key is left out.
        var keyKnown = pins.Length > 1 && error < 0.25 * pattern.LugRadius;
        if (!keyKnown && BestFit.Circle([.. mount.Lugs.Where(l => !l.IsCap).Select(l => l.At)]) is { } circle && circle.Radius < 40)
            (centre, radius) = (circle.Centre, circle.Radius);
        radius = Math.Clamp(radius, 3, 40);

        var body = radius + 2.6;
        var hole = radius * (pattern.HasGap ? 0.3 : 0.36);
        var side = key.Turned;
        List<Shape> shapes =
        [
            new OutlineShape(Outline.Smooth([.. BestFit.HullAround([centre + side * (body + 1.5), centre - side * (body + 1.5)], 2.6)], 2, true), "metal"),
            new DiscShape(centre - side * (body + 1.7), 1.1, "hole"), new DiscShape(centre + side * (body + 1.7), 1.1, "hole"),
            new DiscShape(centre, body, "phenolic"),
            new DiscShape(centre, radius * 0.72, "phenolic inner"),
            new DiscShape(centre, hole, "hole"),
        ];
        if (keyKnown || pins.Length <= 1)
        {
            if (pattern.HasGap)
                // The gap between the last pin and the first: a notch in the rim.
                shapes.Add(new OutlineShape(Outline.Area(centre + key * (body + 0.2) + side * 1.3, centre + key * (radius * 0.8), centre + key * (body + 0.2) - side * 1.3), "mark"));
            else
                shapes.Add(new OutlineShape(Outline.Area(centre + key * (hole - 0.3) + side * 0.9, centre + key * (hole + 1.6) + side * 0.9, centre + key * (hole + 1.6) - side * 0.9, centre + key * (hole - 0.3) - side * 0.9), "hole"));
            if (mount.Kind == MountKind.LoctalSocket) shapes.Add(new DiscShape(centre, hole * 0.55, "metal"));
        }
        foreach (var cap in mount.Lugs.Where(l => l.IsCap)) shapes.Add(new DiscShape(cap.At, 3.2, "metal"));
        var extent = Box.Of(centre, 2 * body, 2 * body);
        return new(mount, [.. shapes], centre, extent, (radius * 1.3, radius * 0.9));
    }
}

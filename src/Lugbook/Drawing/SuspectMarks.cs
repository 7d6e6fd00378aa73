using System.Globalization;
using Lugbook.Drawing.Labels;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Drawing;

/// <summary>Marks what may be at fault: a ring, thicker the likelier, with rank and weight in print beside it, clear of lugs.</summary>
internal static class SuspectMarks
{
    private const double Size = 2.6;

    /// <summary>Marks in chassis mm, likeliest first; what the drawing does not know is left out.</summary>
    public static IEnumerable<Shape> Of(ChassisLayout layout, IEnumerable<Suspect> suspects)
    {
        var taken = new List<Box>();
        var rank = 0;
        foreach (var suspect in suspects.Where(s => double.IsFinite(s.Weight)).OrderByDescending(s => s.Weight))
        {
            if (Place(layout, suspect.Name) is not { } slab) continue;
            rank++;
            var weight = Math.Clamp(suspect.Weight, 0, 1);
            yield return new OutlineShape(Outline.Rounded(slab.Grown(1.2), 1.4), weight > 0.5 ? "suspect first" : weight > 0.15 ? "suspect" : "suspect last", null, true);
            var text = string.Create(CultureInfo.InvariantCulture, $"{rank}: {(weight is > 0 and < 0.01 ? "< 1" : (weight * 100).ToString("0", CultureInfo.InvariantCulture))} %");
            var width = TextWidth.Of(text, Size) + 2;
            var at = Spot(layout, slab, width, taken);
            taken.Add(Box.Of(at, width, Size + 1));
            yield return new OutlineShape(Outline.Rounded(new(at, new(1, 0), width, Size + 1.4), 1), "suspect-flag");
            yield return new TextShape(at, text, Size, new(1, 0), "suspect-word");
        }
    }

    private static Slab? Place(ChassisLayout layout, string name)
    {
        bool Is(string other) => string.Equals(other, name, StringComparison.OrdinalIgnoreCase);
        if (layout.Bodies.FirstOrDefault(b => Is(b.Part.Name)) is { } body) return body.Slab;
        if (layout.Places.Find(name) is { } lug) return new(lug.At, new(1, 0), 2 * lug.Radius, 2 * lug.Radius);
        if (layout.Mounts.FirstOrDefault(m => Is(m.Mount.Name)) is { } mount) return new(mount.Extent.Centre, new(1, 0), mount.Extent.Width, mount.Extent.Height);
        return layout.Wires.FirstOrDefault(w => Is(w.Wire.Name))?.Course is { } course && course.Points(4) is { Count: > 1 } points ? new(points[points.Count / 2], new(1, 0), 3, 3) : null;
    }

    /// <summary>Beside the slab, where no lug and no other flag is; of equals the first.</summary>
    private static Pt Spot(ChassisLayout layout, Slab slab, double width, List<Box> taken)
    {
        var around = Box.Around(slab.Corners);
        Pt best = around.Centre;
        var least = double.MaxValue;
        foreach (var reach in new[] { 3.0, 6, 10, 15 })
            for (var k = 0; k < 8; k++)
            {
                Pt d = new(Math.Cos(k * Math.PI / 4), Math.Sin(k * Math.PI / 4));
                var at = around.Centre + new Pt(d.X * (around.Width / 2 + width / 2 + reach - 2), d.Y * (around.Height / 2 + reach));
                var box = Box.Of(at, width + 1, Size + 2.4);
                var cost = reach + 40 * layout.Places.Lugs.Count(l => box.DistanceTo(l.At) < l.Radius) + 30 * taken.Count(t => t.Meets(box));
                if (cost < least) (least, best) = (cost, at);
            }
        return best;
    }
}

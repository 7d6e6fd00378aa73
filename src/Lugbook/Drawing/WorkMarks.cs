using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Drawing;

/// <summary>Shows how far the work at a part is, by a sign and a texture as well as by colour.</summary>
internal static class WorkMarks
{
    public static IEnumerable<Shape> Of(PlacedBody body, WorkState work)
    {
        var s = body.Slab;
        var badge = s.At(s.Length / 2 - Math.Min(2, s.Length / 4), s.Width / 2);
        var r = Math.Clamp(Math.Min(s.Length, s.Width) * 0.42, 1, 1.9);   // small on small parts
        if (work == WorkState.ToDo)
            for (var x = -s.Length / 2 + 1.2; x < s.Length / 2 - 1; x += 2.8)
            {
                var lean = Math.Min(0.8, s.Length / 4);
                yield return new OutlineShape(Outline.Line(s.At(x, -s.Width / 2), s.At(x + lean, s.Width / 2)), "hatch", null, true);
            }
        yield return new OutlineShape(Outline.Rounded(s.Grown(0.5), 1), "work-line", null, true);
        yield return new DiscShape(badge, r, "badge");
        if (work == WorkState.Done)
            yield return new SignShape(badge, Sized([new(-1, 0.1), new(-0.3, 0.8), new(1, -0.8)]), "sign");
        else if (work == WorkState.Stays)
        {
            yield return new SignShape(badge, Sized([new(-0.9, -0.45), new(0.9, -0.45)]), "sign");
            yield return new SignShape(badge, Sized([new(-0.9, 0.45), new(0.9, 0.45)]), "sign");
        }
        else yield return new TextShape(badge, work == WorkState.Measure ? "?" : "!", 1.5 * r, new(1, 0), "sign-text");

        System.Collections.Immutable.ImmutableArray<Pt> Sized(Pt[] points) => [.. points.Select(p => p * (r / 1.9))];
    }
}

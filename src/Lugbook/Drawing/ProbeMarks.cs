using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Drawing;

/// <summary>A meter's two probes on their lugs: told apart by shape and word as well as by colour.</summary>
internal static class ProbeMarks
{
    private const double Length = 11, Half = 1.3, Head = 2.3;

    /// <summary>The red probe ends in a round head, the black one in a square head; each points at its lug from the side away from the other.</summary>
    public static IEnumerable<Shape> Of(Pt red, Pt black, double lugRadius)
    {
        var away = (red - black).Unit;
        // Where the lugs lie far apart the picture is of a larger piece, and smaller: the probes grow with it.
        var size = Math.Max(1, red.To(black) / 45);
        return [.. Needle(red, away, lugRadius, size, "red"), .. Needle(black, away * -1, lugRadius, size, "black")];
    }

    private static IEnumerable<Shape> Needle(Pt lug, Pt away, double lugRadius, double size, string colour)
    {
        var (end, across) = (lug + away * (lugRadius + Length * size), away.Turned);
        yield return new OutlineShape(Outline.Area(lug + away * lugRadius * 0.6, end + across * Half * size, end - across * Half * size), $"probe {colour}");
        var (head, half) = (end + away * Head * size, Head * size);
        if (colour == "red") yield return new DiscShape(head, half, $"probe {colour}");
        else yield return new OutlineShape(Outline.Area(head + (away + across) * half, head + (away - across) * half, head - (away + across) * half, head - (away - across) * half), $"probe {colour}");
        // Sideways a word needs more room than above or below.
        yield return new TextShape(head + away * (half + (3.2 + 3.6 * Math.Abs(away.X)) * size), colour == "red" ? "red +" : "black −", 4.2 * size, new(1, 0), $"probe-word {colour}");
    }
}

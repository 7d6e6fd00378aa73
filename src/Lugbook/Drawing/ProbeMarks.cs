using Lugbook.Drawing.Geometry;

namespace Lugbook.Drawing;

/// <summary>A meter's two probes on their lugs: told apart by shape and word as well as by colour.</summary>
internal static class ProbeMarks
{
    private const double Length = 11, Half = 1.3, Head = 2.3;

    /// <summary>The red probe ends in a round head, the black one in a square head; each points at its lug from the side away from the other.</summary>
    public static IEnumerable<Shape> Of(Pt red, Pt black, double lugRadius)
    {
        var away = (red - black).Unit;
        return [.. Needle(red, away, lugRadius, "red"), .. Needle(black, away * -1, lugRadius, "black")];
    }

    private static IEnumerable<Shape> Needle(Pt lug, Pt away, double lugRadius, string colour)
    {
        var (tip, end, across) = (lug + away * lugRadius * 0.6, lug + away * (lugRadius + Length), away.Turned);
        yield return new OutlineShape(Outline.Area(tip, end + across * Half, end - across * Half), $"probe {colour}");
        var head = end + away * Head;
        if (colour == "red") yield return new DiscShape(head, Head, $"probe {colour}");
        else yield return new OutlineShape(Outline.Area(head + (away + across) * Head, head + (away - across) * Head, head - (away + across) * Head, head - (away - across) * Head), $"probe {colour}");
        yield return new TextShape(head + away * (Head + 3.4) + (Math.Abs(away.X) > 0.7 ? new Pt(away.X > 0 ? 3 : -3, 0) : default), colour == "red" ? "red +" : "black −", 4.2, new(1, 0), $"probe-word {colour}");
    }
}

using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Restoration.Layout.Bodies;

/// <summary>How leads run from a body to their lugs.</summary>
internal static class LeadCourse
{
    /// <summary>Leads of a body: the first leaves at its tail, the second at its head, a third at its side.</summary>
    public static ImmutableArray<PlacedLead> Of(ImmutableArray<(char Letter, PlacedLug Lug)> leads, Slab body)
    {
        var made = ImmutableArray.CreateBuilder<PlacedLead>(leads.Length);
        // Hairpin: both lugs lie behind the tail; the second lead then runs back along the body's side.
        for (var i = 0; i < leads.Length; i++)
        {
            var lug = leads[i].Lug;
            var (from, outwards) = i switch
            {
                0 => (body.At(-body.Length / 2, 0), body.Axis * -1),
                1 => (body.At(body.Length / 2, 0), body.Axis),
                _ => Side(body, lug.At),
            };
            made.Add(new(leads[i].Letter, lug, Between(from, outwards, lug.At, body)));
        }
        return made.ToImmutable();
    }

    private static (Pt, Pt) Side(Slab body, Pt towards)
    {
        var side = (towards - body.Centre).Dot(body.Axis.Turned) >= 0 ? 1 : -1;
        return (body.At(0, side * body.Width / 2), body.Axis.Turned * side);
    }

    /// <summary>A lead from a body's end: straight when the lug lies ahead, bowed otherwise.</summary>
    public static Outline Between(Pt from, Pt outwards, Pt lug, Slab body)
    {
        var way = lug - from;
        double ahead = way.Dot(outwards), aside = way.Dot(outwards.Turned);
        if (ahead > 0 && Math.Abs(aside) < 0.3) return Outline.Line(from, lug);
        if (ahead > 0.2 * Math.Abs(aside))
        {
            var k = Math.Min(Math.Max(ahead * 0.6, 1), 8);
            return Outline.Curve(from, from + outwards * k, lug.Towards(from, 0.3), lug);
        }
        if (ahead > -body.Length * 0.75)
        {
            // The lug lies beside the body: out, round, and back.
            var out1 = from + outwards * 2.2;
            return Outline.Curve(from, out1 + outwards * 0.6, lug + outwards * Math.Min(2.5, 0.4 * Math.Abs(aside)) + outwards.Turned * (-Math.Sign(aside) * Math.Abs(aside) * 0.45), lug);
        }
        // The lug lies behind: out, along the body's side, and on.
        var side = aside >= 0 ? 1 : -1;
        var clear = body.Width / 2 + 1.4;
        Pt a = from + outwards * 2, b = a + outwards.Turned * (side * clear), c = b - outwards * (body.Length + 2.5);
        return Outline.Smooth([from, a, b, c, lug], 2, closed: false);
    }
}

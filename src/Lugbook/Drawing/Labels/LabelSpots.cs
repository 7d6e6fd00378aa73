using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Drawing.Labels;

/// <summary>Where a label may stand beside what it names.</summary>
internal static class LabelSpots
{
    /// <summary>Round a lug, best on the side that points away from its mount's middle.</summary>
    public static IEnumerable<(Pt, double)> RoundLug(Pt lug, double radius, Pt outwards, (double Width, double Height) label, bool bothSides)
    {
        foreach (var extra in new[] { 0.35, 1.3, 2.6 })
            for (var k = 0; k < 16; k++)
            {
                // 0, +1, -1, +2, … sixteenths of a turn from the best side
                var sixteenth = (k % 2 == 1 ? 1 : -1) * ((k + 1) / 2);
                var d = Turned(outwards, sixteenth * Math.PI / 8);
                var from = Math.Abs(sixteenth);
                if (bothSides && from > 4) from = 8 - from;
                yield return (lug + d * (radius + extra + Support(d, label)), 0.35 * from + extra);
            }
    }

    /// <summary>Round a body, best along its sides.</summary>
    public static IEnumerable<(Pt, double)> RoundBody(Slab body, (double Width, double Height) label)
    {
        foreach (var extra in new[] { 0.3, 1.6, 3.4, 6, 10 })
        {
            foreach (var side in new[] { 1, -1 })
                foreach (var along in new[] { 0, 0.3, -0.3 })
                {
                    var d = body.Axis.Turned * side;
                    yield return (body.At(along * body.Length, side * (body.Width / 2 + extra + Support(d, label))), extra * 0.9 + Math.Abs(along) + (d.Y > 0 ? 0.2 : 0));
                }
            foreach (var end in new[] { 1, -1 })
                yield return (body.At(end * (body.Length / 2 + extra + Support(body.Axis, label)), 0), 1.6 + extra * 0.9);
            for (var k = 0; k < 8; k++)
            {
                var d = Turned(body.Axis, Math.PI / 8 + k * Math.PI / 4);
                double u = Math.Abs(d.Dot(body.Axis)), v = Math.Abs(d.Dot(body.Axis.Turned));
                var reach = Math.Min(u > 1e-6 ? body.Length / 2 / u : 1e9, v > 1e-6 ? body.Width / 2 / v : 1e9);
                yield return (body.Centre + d * (reach + extra + Support(d, label)), 1 + extra);
            }
        }
    }

    /// <summary>Round a box: at its corners and sides; in its middle first when it has room there.</summary>
    public static IEnumerable<(Pt, double)> RoundBox(Box box, (double Width, double Height) label, bool middle)
    {
        if (middle) yield return (box.Centre, 0);
        foreach (var extra in new[] { 0.6, 2, 4, 7, 11 })
            for (var k = 0; k < 16; k++)
            {
                Pt d = new(Math.Cos(k * Math.PI / 8 - Math.PI / 2), Math.Sin(k * Math.PI / 8 - Math.PI / 2));
                var reach = Math.Min(Math.Abs(d.X) > 1e-6 ? box.Width / 2 / Math.Abs(d.X) : 1e9, Math.Abs(d.Y) > 1e-6 ? box.Height / 2 / Math.Abs(d.Y) : 1e9);
                yield return (box.Centre + d * (reach + extra + Support(d, label)), extra + (k % 4 == 0 ? 0 : 0.4));
            }
    }

    /// <summary>How far a label's box reaches in a direction from its middle.</summary>
    private static double Support(Pt d, (double Width, double Height) label) => Math.Abs(d.X) * label.Width / 2 + Math.Abs(d.Y) * label.Height / 2;

    private static Pt Turned(Pt d, double angle)
    {
        double c = Math.Cos(angle), s = Math.Sin(angle);
        return new(d.X * c - d.Y * s, d.X * s + d.Y * c);
    }
}

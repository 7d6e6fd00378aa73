using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Layout;

/// <summary>A wire with its course; a bond is a mark at its lug.</summary>
/// <param name="Wire">The wire.</param>
/// <param name="Course">From lug to lug; null for a bond, and for a wire of which a lug is not known.</param>
/// <param name="Mark">The lug at which a bond is marked.</param>
public sealed record PlacedWire(Wire Wire, Outline? Course, PlacedLug? Mark);

/// <summary>Dresses wires: along the sides of the chassis with rounded corners, clear of lugs, not on top of each other.</summary>
/// <remarks>
/// Deterministic. Each wire tries straight, bent once and bent twice in several lanes; the cheapest stays. Cost: length, bends, lugs that
/// it would cross, stretches that it would share with wires before it, crossings, and stretches beneath bodies. Short ones go first and straight.
/// </remarks>
internal sealed class WireRouter(IReadOnlyList<PlacedLug> lugs, IReadOnlyList<Slab> bodies)
{
    private readonly PointGrid<PlacedLug> _lugs = new(lugs, l => l.At);
    private readonly List<(Pt A, Pt B)> _runs = [];

    public ImmutableArray<PlacedWire> Route(IReadOnlyList<(Wire Wire, PlacedLug? From, PlacedLug? To, bool FromIsChassis)> wires)
    {
        var placed = new PlacedWire[wires.Count];
        foreach (var i in Enumerable.Range(0, wires.Count).OrderBy(i => wires[i] is { From: { } f, To: { } t } ? f.At.To(t.At) : 0).ThenBy(i => i))
        {
            var (wire, from, to, fromIsChassis) = wires[i];
            placed[i] = wire.Kind == WireKind.Bond ? new(wire, null, fromIsChassis ? to ?? from : from ?? to)
                : from is null || to is null ? new(wire, null, from ?? to)
                : new(wire, Best(wire, from, to), null);
        }
        return [.. placed];
    }

    private Outline Best(Wire wire, PlacedLug from, PlacedLug to)
    {
        Pt a = from.At, b = to.At;
        if (a.To(b) < 1e-6) return Outline.Smooth([a, a + new Pt(2.5, 2.5), a + new Pt(0, 5), b], 2, closed: false);
        var window = Box.Around([a, b]).Grown(12);
        List<(Pt A, Pt B)> runs = [.. _runs.Where(r => window.Meets(Box.Around([r.A, r.B]).Grown(0.1)))];
        List<Slab> near = [.. bodies.Where(s => window.Grown(s.Reach).Holds(s.Centre))];
        Pt[]? best = null;
        var least = double.MaxValue;
        foreach (var course in Courses(a, b, wire.Kind == WireKind.Bare))
        {
            var cost = Cost(course, from, to, runs, near, least);
            if (cost < least - 1e-9) (least, best) = (cost, course);
        }
        for (var i = 1; i < best!.Length; i++) _runs.Add((best[i - 1], best[i]));
        return Outline.Smooth(best, 3.5, closed: false);
    }

    private static IEnumerable<Pt[]> Courses(Pt a, Pt b, bool bare)
    {
        double dx = b.X - a.X, dy = b.Y - a.Y, span = a.To(b);
        var across = (b - a).Unit.Turned;
        if (span < 22 || bare)
            foreach (var bow in new[] { 0, 2.5, -2.5, 5, -5, 8, -8 })
                yield return bow == 0 ? [a, b] : [a, a.Towards(b, 0.3) + across * bow, a.Towards(b, 0.7) + across * bow, b];
        if (span < 8) yield break;
        yield return [a, new(b.X, a.Y), b];
        yield return [a, new(a.X, b.Y), b];
        foreach (var share in new[] { 0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, -0.15, 1.15 })
        {
            // Lanes lie on a 1.6 mm raster, so that neighbours run side by side.
            double x = Math.Round((a.X + dx * share) / 1.6) * 1.6, y = Math.Round((a.Y + dy * share) / 1.6) * 1.6;
            yield return [a, new(x, a.Y), new(x, b.Y), b];
            yield return [a, new(a.X, y), new(b.X, y), b];
        }
        foreach (var off in new[] { 5.0, -5.0, 9.0, -9.0 })
        {
            yield return [a, new(a.X + off, a.Y + off * 0.3), new(a.X + off, b.Y), b];
            yield return [a, new(a.X, a.Y + off), new(b.X, a.Y + off), b];
            yield return [a, new(a.X, b.Y + off), new(b.X, b.Y + off), b];
            yield return [a, new(b.X + off, a.Y), new(b.X + off, b.Y), b];
        }
    }

    private double Cost(Pt[] course, PlacedLug from, PlacedLug to, List<(Pt A, Pt B)> runs, List<Slab> near, double limit)
    {
        var cost = (course.Length - 2) * 1.2;
        for (var i = 1; i < course.Length; i++) cost += 0.15 * course[i - 1].To(course[i]);
        for (var i = 1; i < course.Length && cost < limit; i++)
        {
            Pt p = course[i - 1], q = course[i];
            var length = p.To(q);
            if (length < 1e-6) continue;
            foreach (var (lug, _) in _lugs.In(Box.Around([p, q]).Grown(3)))
            {
                if (ReferenceEquals(lug, from) || ReferenceEquals(lug, to)) continue;
                var clear = lug.At.ToSegment(p, q) - lug.Radius - 0.9;
                if (clear < 0) cost += 3 - 2 * clear;
            }
            foreach (var (r, s) in runs) cost += Company(p, q, length, r, s);
            var steps = (int)Math.Clamp(length / 4, 1, 60);
            foreach (var body in near)
                for (var k = 0; k < steps; k++)
                    if (body.DistanceTo(p.Towards(q, (k + 0.5) / steps)) < 0) cost += 0.08 * length / steps;
        }
        return cost;
    }

    /// <summary>What it costs to run with another stretch: on top of it much, across it a little.</summary>
    private static double Company(Pt p, Pt q, double length, Pt r, Pt s)
    {
        Pt u = (q - p) * (1 / length), v = s - r;
        var other = v.Length;
        if (other < 1e-6) return 0;
        var sine = (u.X * v.Y - u.Y * v.X) / other;
        if (Math.Abs(sine) < 0.15)
        {
            double off = Math.Abs((r - p).Dot(u.Turned)), t0 = (r - p).Dot(u), t1 = (s - p).Dot(u);
            var shared = Math.Min(length, Math.Max(t0, t1)) - Math.Max(0, Math.Min(t0, t1));
            return shared > 0 && off < 1.3 ? 0.5 + 0.35 * shared * (1.3 - off) : 0;
        }
        var w = r - p;
        double det = u.X * v.Y - u.Y * v.X, t = (w.X * v.Y - w.Y * v.X) / det, k = (w.X * u.Y - w.Y * u.X) / det;
        return t > 0.5 && t < length - 0.5 && k > 0.02 && k < 0.98 ? 0.5 : 0;
    }
}

using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Layout.Bodies;

/// <summary>Finds a place for the body of every loose part: on the straight line between its lugs when that is free, else shifted along it or set beside it with bowed leads.</summary>
/// <remarks>
/// Deterministic: candidates are tried in a fixed order and the least cost wins, the first of equals. Tight parts go first; then every part
/// is placed once more among all others. Cost counts millimetres: depth in other bodies, depth over lugs, leads that cross
/// lugs or bodies, and, lightly, the distance from the straight line. Overlap that is left is what the real chassis has in layers.
/// </remarks>
internal sealed class BodyPlacer(IReadOnlyList<PlacedLug> lugs, IReadOnlyList<(Slab Slab, double Weight)> fixtures, Box? chassis)
{
    private const double LeadLeast = 1.6;    // mm of bare lead between lug and body
    private const int Sweeps = 2;
    private readonly PointGrid<PlacedLug> _lugs = new(lugs, l => l.At);

    /// <summary>A part to be placed, with its lugs.</summary>
    internal sealed record Request(Part Part, ImmutableArray<(char Letter, PlacedLug Lug)> Leads);

    private sealed record Choice(PlacedBody Body, double Cost);

    public ImmutableArray<PlacedBody> Place(IReadOnlyList<Request> requests)
    {
        var placed = new PlacedBody?[requests.Count];
        var order = Enumerable.Range(0, requests.Count).OrderBy(i => Freedom(requests[i])).ThenBy(i => i).ToArray();
        for (var sweep = 0; sweep < Sweeps; sweep++)
            foreach (var i in order)
                placed[i] = Best(requests[i], placed, i);
        return [.. placed.OfType<PlacedBody>()];
    }

    private static double Freedom(Request r) => r.Leads.Length < 2 ? 1e6 : r.Leads[0].Lug.At.To(r.Leads[1].Lug.At) - BodyForm.Of(r.Part).Length;

    private PlacedBody Best(Request request, PlacedBody?[] placed, int self)
    {
        var form = BodyForm.Of(request.Part);
        Pt a = request.Leads[0].Lug.At, b = request.Leads.Length > 1 ? request.Leads[1].Lug.At : a;
        var middle = a.Towards(b, 0.5);
        var reach = a.To(b) / 2 + form.Length + form.Width + 18;
        var window = Box.Of(middle, 2 * reach, 2 * reach);
        List<PlacedBody> bodies = [];
        for (var j = 0; j < placed.Length; j++)
            if (j != self && placed[j] is { } other && other.Slab.Centre.To(middle) < reach + other.Slab.Reach) bodies.Add(other);
        List<(Slab Slab, double Weight)> solid = [.. fixtures.Where(f => f.Slab.Centre.To(middle) < reach + f.Slab.Reach)];
        List<PlacedLug> near = [.. _lugs.In(window).Select(l => l.Item)];
        Choice? best = null;
        foreach (var candidate in Candidates(request, form, a, b))
        {
            var floor = candidate.Cost;
            if (best is not null && floor >= best.Cost) continue;
            var cost = floor + Crowding(candidate.Body, bodies, solid, near, (best?.Cost ?? double.MaxValue) - floor);
            if (best is null || cost < best.Cost - 1e-9) best = new(candidate.Body, cost);
        }
        return best!.Body;
    }

    private static IEnumerable<Choice> Candidates(Request request, BodyForm form, Pt a, Pt b)
    {
        foreach (var c in With(request, form, a, b)) yield return c;
        if (form.OnEdge is { } edge)
            foreach (var c in With(request, edge, a, b)) yield return c with { Cost = c.Cost + 1.2 };
    }

    private static IEnumerable<Choice> With(Request request, BodyForm form, Pt a, Pt b)
    {
        var span = a.To(b);
        if (request.Leads.Length > 2) return AroundMean(request, form);
        return span < 2.5 ? Beside(request, form, a) : Between(request, form, a, b, span);
    }

    private static IEnumerable<Choice> Between(Request request, BodyForm form, Pt a, Pt b, double span)
    {
        Pt axis = (b - a).Unit, middle = a.Towards(b, 0.5);
        // True size first; shorter, down to what still looks like the part, when the lugs stand too close for it.
        var room = span - 2 * (LeadLeast + 1.4);
        var fits = form.Length <= room;
        var shrunk = fits ? form : Shorter(form, Math.Max(room, form.Length * form.Least));
        if (shrunk.Length <= room + 1e-9)
        {
            var slack = (span - shrunk.Length) / 2 - LeadLeast - 1;
            foreach (var offset in Offsets)
                foreach (var share in Shares)
                {
                    if (share != 0 && slack < 1) continue;
                    var at = middle + axis * (share * slack) + axis.Turned * offset;
                    yield return Make(request, shrunk, at, axis, Math.Abs(offset) * 0.45 + Math.Abs(share) * 0.4 + (form.Length - shrunk.Length) * 0.15);
                }
        }
        // Beside the line: the body longer than the gap between its lugs, its leads bent back to them.
        var aside = shrunk.Length <= room + 1e-9 ? null : new BodyForm?(shrunk);
        if (aside is { } bodyAside)
            foreach (var offset in Offsets)
            {
                var away = Math.Sign(offset) * (Math.Abs(offset) + bodyAside.Width / 2 + 1.6);
                if (offset == 0) continue;
                foreach (var share in Shares)
                    yield return Make(request, bodyAside, middle + axis * (share * bodyAside.Length * 0.45) + axis.Turned * away, axis, 1 + Math.Abs(offset) * 0.45 + Math.Abs(share) * 1.2);
            }
        // Standing off at right angles, both leads at the near side: hairpin.
        if (span < form.Length + 2)
            foreach (var side in new[] { 1.0, -1.0 })
                foreach (var away in new[] { 3.0, 6.0, 10.0 })
                {
                    var upright = axis.Turned * side;
                    yield return Make(request, shrunk, middle + upright * (away + shrunk.Length / 2), upright, 5 + away * 0.4);
                }
    }

    private static readonly double[] Offsets = [0, 2, -2, 4, -4, 6, -6, 8.5, -8.5, 11, -11, 14, -14, 18, -18];
    private static readonly double[] Shares = [0, 0.4, -0.4, 0.8, -0.8, 1, -1];

    private static BodyForm Shorter(BodyForm form, double length) =>
        form.Look is Look.Disc or Look.Round or Look.Lamp ? form with { Length = length, Width = Math.Min(form.Width, length) }
        : form with { Length = length, Width = form.Width * (0.5 + 0.5 * length / form.Length) };

    /// <summary>Both leads on one lug, on lugs in one place, or one lead only: the body stands beside, in one of twelve directions.</summary>
    private static IEnumerable<Choice> Beside(Request request, BodyForm form, Pt a)
    {
        for (var k = 0; k < 12; k++)
            foreach (var away in new[] { 4.0, 9.0, 15.0 })
            {
                Pt d = new(Math.Cos(k * Math.PI / 6), Math.Sin(k * Math.PI / 6));
                yield return Make(request, form, a + d * (away + form.Length / 2), d, away * 0.5);
            }
    }

    private static IEnumerable<Choice> AroundMean(Request request, BodyForm form)
    {
        var mean = Pt.Mean([.. request.Leads.Select(l => l.Lug.At)]);
        Pt axis = (request.Leads[1].Lug.At - request.Leads[0].Lug.At).Unit;
        foreach (var away in new[] { 0.0, 6, 12, 18, 26 })
            for (var k = 0; k < (away == 0 ? 1 : 8); k++)
                yield return Make(request, form, mean + new Pt(Math.Cos(k * Math.PI / 4), Math.Sin(k * Math.PI / 4)) * away, axis, away * 0.4);
    }

    private static Choice Make(Request request, BodyForm form, Pt at, Pt axis, double cost)
    {
        var slab = form.At(at, axis);
        return new(new(request.Part, Home.Loose, form, slab, LeadCourse.Of(request.Leads, slab)), cost);
    }

    private double Crowding(PlacedBody body, List<PlacedBody> bodies, List<(Slab Slab, double Weight)> solid, List<PlacedLug> near, double limit)
    {
        var slab = body.Slab;
        var grown = slab.Grown(0.5);
        double cost = 0;
        foreach (var other in bodies)
        {
            var depth = grown.DepthIn(other.Slab);
            if (depth > 0) cost += 4 + 3 * depth;
            if (cost > limit) return cost;
        }
        foreach (var (fixture, weight) in solid)
        {
            var depth = slab.DepthIn(fixture);
            if (depth > 0) cost += weight * (1 + depth);
        }
        foreach (var lug in near)
        {
            var clear = slab.DistanceTo(lug.At) - lug.Radius - 0.5;
            if (clear < 0) cost += 3 - 2.5 * clear;
        }
        if (cost > limit) return cost;
        if (chassis is { } box)
            foreach (var corner in slab.Corners) cost += 1.2 * box.DistanceTo(corner);
        foreach (var lead in body.Leads)
        {
            var points = lead.Points;
            for (var i = 1; i < points.Count; i++)
            {
                Pt p = points[i - 1], q = points[i], m = p.Towards(q, 0.5);
                foreach (var lug in near)
                {
                    if (ReferenceEquals(lug, lead.Lug)) continue;
                    if (Math.Abs(lug.At.X - m.X) + Math.Abs(lug.At.Y - m.Y) > 30) continue;
                    var clear = lug.At.ToSegment(p, q) - lug.Radius - 0.5;
                    if (clear < 0) cost += 0.8 - clear;
                }
                foreach (var other in bodies)
                    if (other.Slab.DistanceTo(m) < 0) cost += 0.9;
            }
            if (cost > limit) return cost;
        }
        // Other parts' leads pass over this body.
        foreach (var other in bodies)
            foreach (var lead in other.Leads)
            {
                var points = lead.Points;
                for (var i = 1; i < points.Count; i++)
                    if (slab.DistanceTo(points[i - 1].Towards(points[i], 0.5)) < 0) cost += 0.9;
            }
        return cost;
    }
}

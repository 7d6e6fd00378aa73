using System.Collections.Immutable;

namespace Lugbook.Restoration.Layout.Geometry;

/// <summary>One step of an outline.</summary>
public enum Step
{
    /// <summary>Begin here.</summary>
    Move,
    /// <summary>Straight to a point.</summary>
    Line,
    /// <summary>A cubic curve to a point.</summary>
    Curve,
    /// <summary>Straight back to where it began.</summary>
    Close,
}

/// <summary>One step with its points; <see cref="C1"/> and <see cref="C2"/> count for a curve only.</summary>
public readonly record struct Stroke(Step Step, Pt To, Pt C1 = default, Pt C2 = default);

/// <summary>A line or an area of straight strokes and cubic curves, mm.</summary>
/// <remarks>No arcs: cubic curves survive mirroring without a thought.</remarks>
public sealed record Outline(ImmutableArray<Stroke> Strokes)
{
    private const double Round = 0.5522847498;   // of a radius: a quarter circle as a cubic curve

    /// <summary>The same outline seen through an isometry.</summary>
    public Outline Map(Func<Pt, Pt> to) => new([.. Strokes.Select(s => new Stroke(s.Step, to(s.To), to(s.C1), to(s.C2)))]);

    /// <summary>An open line through points.</summary>
    public static Outline Line(params IReadOnlyList<Pt> points) =>
        new([.. points.Select((p, i) => new Stroke(i == 0 ? Step.Move : Step.Line, p))]);

    /// <summary>A closed area.</summary>
    public static Outline Area(params IReadOnlyList<Pt> points) =>
        new([.. points.Select((p, i) => new Stroke(i == 0 ? Step.Move : Step.Line, p)), new(Step.Close, points[0])]);

    /// <summary>One cubic curve.</summary>
    public static Outline Curve(Pt from, Pt c1, Pt c2, Pt to) => new([new(Step.Move, from), new(Step.Curve, to, c1, c2)]);

    /// <summary>A circle.</summary>
    public static Outline Circle(Pt c, double r) => Oval(c, new(1, 0), r, r);

    /// <summary>An ellipse by its half axes.</summary>
    public static Outline Oval(Pt c, Pt axis, double along, double across)
    {
        Pt P(double u, double v) => c + axis * (along * u) + axis.Turned * (across * v);
        return new([new(Step.Move, P(1, 0)),
            new(Step.Curve, P(0, 1), P(1, Round), P(Round, 1)), new(Step.Curve, P(-1, 0), P(-Round, 1), P(-1, Round)),
            new(Step.Curve, P(0, -1), P(-1, -Round), P(-Round, -1)), new(Step.Curve, P(1, 0), P(Round, -1), P(1, -Round)),
            new(Step.Close, P(1, 0))]);
    }

    /// <summary>A rectangle at any angle with rounded corners.</summary>
    public static Outline Rounded(Slab s, double radius) => Smooth(s.Corners, radius, closed: true);

    /// <summary>A line or area through points, its corners rounded as far as the sides allow.</summary>
    public static Outline Smooth(IReadOnlyList<Pt> points, double radius, bool closed)
    {
        var n = points.Count;
        if (n < 3) return closed && n > 0 ? Area(points) : Line(points);
        var strokes = ImmutableArray.CreateBuilder<Stroke>(2 * n + 2);
        if (!closed) strokes.Add(new(Step.Move, points[0]));
        for (var i = closed ? 0 : 1; i < (closed ? n : n - 1); i++)
        {
            Pt p = points[i], before = points[(i + n - 1) % n], after = points[(i + 1) % n];
            var r = Math.Min(radius, Math.Min(p.To(before), p.To(after)) / 2);
            Pt a = p + (before - p).Unit * r, b = p + (after - p).Unit * r;
            strokes.Add(new(strokes.Count == 0 ? Step.Move : Step.Line, a));
            strokes.Add(new(Step.Curve, b, a.Towards(p, Round), b.Towards(p, Round)));
        }
        strokes.Add(closed ? new(Step.Close, strokes[0].To) : new(Step.Line, points[n - 1]));
        return new(strokes.ToImmutable());
    }

    /// <summary>Points along the line, close enough together for measuring.</summary>
    public List<Pt> Points(int perCurve = 8)
    {
        var points = new List<Pt>(Strokes.Length + perCurve);
        Pt at = default;
        foreach (var s in Strokes)
        {
            if (s.Step == Step.Curve)
                for (var i = 1; i <= perCurve; i++)
                {
                    double t = (double)i / perCurve, u = 1 - t;
                    points.Add(at * (u * u * u) + s.C1 * (3 * u * u * t) + s.C2 * (3 * u * t * t) + s.To * (t * t * t));
                }
            else points.Add(s.To);
            at = s.To;
        }
        return points;
    }
}

namespace Lugbook.Restoration.Layout.Geometry;

/// <summary>Least-squares fits of the shapes that mounts have to the places where their lugs were found.</summary>
internal static class BestFit
{
    /// <summary>A circle through points; null when they lie on a line or are fewer than three.</summary>
    /// <remarks>Algebraic fit (Kåsa): linear least squares in centre and r² − centre². Error: root mean square, mm.</remarks>
    public static (Pt Centre, double Radius, double Error)? Circle(IReadOnlyCollection<Pt> points)
    {
        if (points.Count < 3) return null;
        var m = Pt.Mean(points);
        double uu = 0, vv = 0, uv = 0, uz = 0, vz = 0;
        foreach (var p in points)
        {
            double u = p.X - m.X, v = p.Y - m.Y, z = u * u + v * v;
            uu += u * u; vv += v * v; uv += u * v; uz += u * z; vz += v * z;
        }
        var det = uu * vv - uv * uv;
        if (!(det > 1e-6 * (uu + vv) * (uu + vv))) return null;
        double a = (uz * vv - vz * uv) / (2 * det), b = (vz * uu - uz * uv) / (2 * det);
        var r = Math.Sqrt(a * a + b * b + (uu + vv) / points.Count);
        Pt c = new(m.X + a, m.Y + b);
        var error = Math.Sqrt(points.Sum(p => Math.Pow(p.To(c) - r, 2)) / points.Count);
        return (c, r, error);
    }

    /// <summary>A line through points: a point on it, its direction and the largest distance from it, mm.</summary>
    /// <remarks>Principal axis. Of coincident points the direction is x.</remarks>
    public static (Pt Centre, Pt Axis, double Off) Line(IReadOnlyCollection<Pt> points)
    {
        var m = Pt.Mean(points);
        double xx = 0, yy = 0, xy = 0;
        foreach (var p in points) { xx += (p.X - m.X) * (p.X - m.X); yy += (p.Y - m.Y) * (p.Y - m.Y); xy += (p.X - m.X) * (p.Y - m.Y); }
        var angle = Math.Atan2(2 * xy, xx - yy) / 2;
        Pt axis = new(Math.Cos(angle), Math.Sin(angle));
        return (m, axis, points.Count == 0 ? 0 : points.Max(p => Math.Abs((p - m).Dot(axis.Turned))));
    }

    /// <summary>Shift, turn and scale that bring template points closest to found ones.</summary>
    /// <remarks>
    /// Complex least squares: found ≈ turn · (template − its mean) + mean found. One point, or coincident ones: shift alone.
    /// Error: root mean square, mm.
    /// </remarks>
    public static (Func<Pt, Pt> Map, double Error) Similarity(IReadOnlyList<(Pt Template, Pt Found)> pairs)
    {
        if (pairs.Count == 0) return (p => p, 0);
        Pt t = Pt.Mean([.. pairs.Select(p => p.Template)]), f = Pt.Mean([.. pairs.Select(p => p.Found)]);
        double re = 0, im = 0, norm = 0;
        foreach (var (a, b) in pairs)
        {
            Pt u = a - t, v = b - f;
            re += u.X * v.X + u.Y * v.Y; im += u.X * v.Y - u.Y * v.X; norm += u.X * u.X + u.Y * u.Y;
        }
        double c = 1, s = 0;
        if (norm > 1e-9 && re * re + im * im > 1e-9) (c, s) = (re / norm, im / norm);
        Pt Map(Pt p) { var d = p - t; return new(f.X + c * d.X - s * d.Y, f.Y + s * d.X + c * d.Y); }
        return (Map, Math.Sqrt(pairs.Sum(p => Math.Pow(Map(p.Template).To(p.Found), 2)) / pairs.Count));
    }

    /// <summary>A small circle that holds all points: the centre of their box, then walked towards the farthest point.</summary>
    public static (Pt Centre, double Radius) Enclosing(IReadOnlyCollection<Pt> points)
    {
        if (points.Count == 0) return (default, 0);
        var c = Box.Around(points).Centre;
        for (var i = 1; i <= 60; i++) c = c.Towards(points.MaxBy(p => p.To(c)), 1.0 / (i + 1));
        return (c, points.Max(p => p.To(c)));
    }

    /// <summary>Convex hull, counter-clockwise in a plane with y up; fewer than three points come back as they are.</summary>
    public static List<Pt> Hull(IEnumerable<Pt> points)
    {
        var sorted = points.Distinct().OrderBy(p => p.X).ThenBy(p => p.Y).ToList();
        if (sorted.Count < 3) return sorted;
        List<Pt> Half(IEnumerable<Pt> run)
        {
            var half = new List<Pt>();
            foreach (var p in run)
            {
                while (half.Count > 1 && Cross(half[^2], half[^1], p) <= 0) half.RemoveAt(half.Count - 1);
                half.Add(p);
            }
            half.RemoveAt(half.Count - 1);
            return half;
        }
        List<Pt> hull = [.. Half(sorted), .. Half(Enumerable.Reverse(sorted))];
        return hull;
    }

    /// <summary>The hull of points, each grown to a disc: an outline that stands off its lugs by a distance.</summary>
    public static List<Pt> HullAround(IEnumerable<Pt> points, double distance) =>
        Hull(points.SelectMany(p => Enumerable.Range(0, 12).Select(k => p + new Pt(Math.Cos(k * Math.PI / 6), Math.Sin(k * Math.PI / 6)) * distance)));

    /// <summary>The rectangle of least area round points, among those along a side of their hull.</summary>
    public static Slab Rectangle(IReadOnlyCollection<Pt> points)
    {
        var hull = Hull(points);
        if (hull.Count < 3)
        {
            var (centre, axis, _) = Line(points);
            return new(centre, axis, points.Count == 0 ? 0 : points.Max(p => (p - centre).Dot(axis)) - points.Min(p => (p - centre).Dot(axis)), 0);
        }
        Slab best = default;
        var least = double.MaxValue;
        for (var i = 0; i < hull.Count; i++)
        {
            Pt u = (hull[(i + 1) % hull.Count] - hull[i]).Unit, v = u.Turned;
            double u0 = hull.Min(p => p.Dot(u)), u1 = hull.Max(p => p.Dot(u)), v0 = hull.Min(p => p.Dot(v)), v1 = hull.Max(p => p.Dot(v));
            if ((u1 - u0) * (v1 - v0) >= least - 1e-9) continue;
            least = (u1 - u0) * (v1 - v0);
            best = new(u * ((u0 + u1) / 2) + v * ((v0 + v1) / 2), u, u1 - u0, v1 - v0);
        }
        return best.Width > best.Length ? best with { Axis = best.Axis.Turned, Length = best.Width, Width = best.Length } : best;
    }

    private static double Cross(Pt o, Pt a, Pt b) => (a.X - o.X) * (b.Y - o.Y) - (a.Y - o.Y) * (b.X - o.X);
}

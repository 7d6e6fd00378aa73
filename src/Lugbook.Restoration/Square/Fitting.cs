namespace Lugbook.Restoration.Square;

/// <summary>The map from chassis mm to pixels that fits picks best.</summary>
internal static class Fitting
{
    /// <summary>Affine through three, perspective by least squares through more; null when the equations have no single answer.</summary>
    public static Homography? Fit(IReadOnlyList<Pick> picks)
    {
        // Centred and scaled to a mean distance of √2, so that the equations are well conditioned.
        var plane = Normal([.. picks.Select(p => (p.X, p.Y))]);
        var photo = Normal([.. picks.Select(p => (p.PixelX, p.PixelY))]);
        (double X, double Y)[] from = [.. picks.Select(p => plane.Map(p.X, p.Y))], to = [.. picks.Select(p => photo.Map(p.PixelX, p.PixelY))];
        var unknowns = picks.Count == 3 ? 6 : 8;
        if (Linear(from, to, unknowns) is not { } h) return null;
        if (picks.Count > 4) h = Refine(h, from, to);
        return Scaled(photo.Inverse().After(new Homography(h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], 1)).After(plane));
    }

    /// <summary>a·x + b·y + c − x'·(g·x + h·y) = x' and the same for y', by least squares.</summary>
    private static double[]? Linear((double X, double Y)[] from, (double X, double Y)[] to, int unknowns)
    {
        var (normal, right) = (new double[unknowns, unknowns], new double[unknowns]);
        for (var i = 0; i < from.Length; i++)
        {
            var ((x, y), (u, v)) = (from[i], to[i]);
            double[] forX = [x, y, 1, 0, 0, 0, -u * x, -u * y], forY = [0, 0, 0, x, y, 1, -v * x, -v * y];
            Add(normal, right, forX, u);
            Add(normal, right, forY, v);
        }
        return Solve(normal, right) is { } found ? [.. found, .. new double[8 - unknowns]] : null;
    }

    /// <summary>From the linear answer to the least sum of squared distances, by damped Gauss-Newton steps (Levenberg, Marquardt).</summary>
    private static double[] Refine(double[] h, (double X, double Y)[] from, (double X, double Y)[] to)
    {
        var (damping, sum) = (1e-3, Sum(h, from, to));
        for (var step = 0; step < 60 && damping < 1e9; step++)
        {
            var (normal, right) = (new double[8, 8], new double[8]);
            for (var i = 0; i < from.Length; i++)
            {
                var ((x, y), (u, v)) = (from[i], to[i]);
                var w = h[6] * x + h[7] * y + 1;
                double px = (h[0] * x + h[1] * y + h[2]) / w, py = (h[3] * x + h[4] * y + h[5]) / w;
                double[] forX = [x / w, y / w, 1 / w, 0, 0, 0, -px * x / w, -px * y / w], forY = [0, 0, 0, x / w, y / w, 1 / w, -py * x / w, -py * y / w];
                Add(normal, right, forX, u - px);
                Add(normal, right, forY, v - py);
            }
            for (var i = 0; i < 8; i++) normal[i, i] *= 1 + damping;
            if (Solve(normal, right) is not { } change) break;
            double[] next = [.. h.Zip(change, (a, b) => a + b)];
            var better = Sum(next, from, to);
            if (better < sum)
            {
                var done = sum - better < 1e-14 * sum;
                (h, sum, damping) = (next, better, damping / 5);
                if (done) break;
            }
            else damping *= 10;
        }
        return h;
    }

    private static double Sum(double[] h, (double X, double Y)[] from, (double X, double Y)[] to)
    {
        double sum = 0;
        for (var i = 0; i < from.Length; i++)
        {
            var (x, y) = from[i];
            var w = h[6] * x + h[7] * y + 1;
            double dx = (h[0] * x + h[1] * y + h[2]) / w - to[i].X, dy = (h[3] * x + h[4] * y + h[5]) / w - to[i].Y;
            sum += dx * dx + dy * dy;
        }
        return double.IsNaN(sum) ? double.PositiveInfinity : sum;
    }

    private static void Add(double[,] normal, double[] right, double[] row, double value)
    {
        for (var i = 0; i < right.Length; i++)
        {
            right[i] += row[i] * value;
            for (var j = 0; j < right.Length; j++) normal[i, j] += row[i] * row[j];
        }
    }

    /// <summary>Elimination with the largest pivot of the column; null when one vanishes.</summary>
    private static double[]? Solve(double[,] a, double[] b)
    {
        var n = b.Length;
        for (var k = 0; k < n; k++)
        {
            var pivot = k;
            for (var i = k + 1; i < n; i++) if (Math.Abs(a[i, k]) > Math.Abs(a[pivot, k])) pivot = i;
            if (!(Math.Abs(a[pivot, k]) > 1e-12)) return null;
            if (pivot != k)
            {
                for (var j = 0; j < n; j++) (a[k, j], a[pivot, j]) = (a[pivot, j], a[k, j]);
                (b[k], b[pivot]) = (b[pivot], b[k]);
            }
            for (var i = k + 1; i < n; i++)
            {
                var factor = a[i, k] / a[k, k];
                for (var j = k; j < n; j++) a[i, j] -= factor * a[k, j];
                b[i] -= factor * b[k];
            }
        }
        for (var k = n - 1; k >= 0; k--)
        {
            for (var j = k + 1; j < n; j++) b[k] -= a[k, j] * b[j];
            b[k] /= a[k, k];
        }
        return b;
    }

    private static Homography Normal((double X, double Y)[] points)
    {
        double x = points.Average(p => p.X), y = points.Average(p => p.Y);
        var scale = Math.Sqrt(2) / points.Average(p => Math.Sqrt((p.X - x) * (p.X - x) + (p.Y - y) * (p.Y - y)));
        return new(scale, 0, -scale * x, 0, scale, -scale * y, 0, 0, 1);
    }

    // The scale of a homography is free: 1 at the point (0, 0) would do, but that may lie behind the camera.
    private static Homography Scaled(Homography h)
    {
        var largest = new[] { h.A, h.B, h.C, h.D, h.E, h.F, h.G, h.H, h.I }.Max(Math.Abs);
        return new(h.A / largest, h.B / largest, h.C / largest, h.D / largest, h.E / largest, h.F / largest, h.G / largest, h.H / largest, h.I / largest);
    }
}

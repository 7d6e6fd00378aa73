namespace Lugbook.Circuit.Valves.Fitting;

/// <summary>Small dense non-linear least squares.</summary>
/// <remarks>Levenberg (1944), Marquardt (1963), with Marquardt's scaling; derivatives by central differences; deterministic.</remarks>
internal static class LeastSquares
{
    /// <summary>A minimum.</summary>
    /// <param name="At">Parameters.</param>
    /// <param name="Cost">Half the sum of squares.</param>
    /// <param name="Jacobian">Residuals by parameters there.</param>
    internal sealed record Minimum(double[] At, double Cost, double[,] Jacobian);

    /// <summary>Goes downhill from a start.</summary>
    /// <param name="residuals">Writes the residuals at a point; numbers that are not finite count as very bad.</param>
    /// <param name="count">How many residuals.</param>
    /// <param name="start">Where to begin.</param>
    /// <param name="steps">At most so many.</param>
    public static Minimum From(Action<double[], double[]> residuals, int count, double[] start, int steps = 60)
    {
        var n = start.Length;
        var at = (double[])start.Clone();
        var trial = new double[n];
        var r = new double[count];
        var rTrial = new double[count];
        var jacobian = new double[count, n];
        var normal = new double[n, n];
        var slope = new double[n];
        residuals(at, r);
        var cost = Cost(r);
        var damping = 1e-2;
        for (var step = 0; step < steps; step++)
        {
            Differences(residuals, at, jacobian, count);
            for (var a = 0; a < n; a++)
            {
                slope[a] = 0;
                for (var k = 0; k < count; k++) slope[a] += jacobian[k, a] * r[k];
                for (var b = 0; b <= a; b++)
                {
                    var sum = 0.0;
                    for (var k = 0; k < count; k++) sum += jacobian[k, a] * jacobian[k, b];
                    normal[a, b] = normal[b, a] = sum;
                }
            }
            var improved = false;
            var before = cost;
            for (var attempt = 0; attempt < 12 && !improved; attempt++)
            {
                var damped = (double[,])normal.Clone();
                for (var a = 0; a < n; a++) damped[a, a] += damping * Math.Max(normal[a, a], 1e-12);
                if (Cholesky.Solve(damped, slope) is not { } move)
                {
                    damping *= 10;
                    continue;
                }
                for (var a = 0; a < n; a++) trial[a] = at[a] - Math.Clamp(move[a], -1, 1);
                residuals(trial, rTrial);
                var next = Cost(rTrial);
                if (next < cost)
                {
                    (at, trial) = (trial, at);
                    (r, rTrial) = (rTrial, r);
                    cost = next;
                    damping = Math.Max(damping / 5, 1e-9);
                    improved = true;
                }
                else damping *= 4;
            }
            if (!improved || before - cost < 1e-9 * (before + 1e-9)) break;
        }
        Differences(residuals, at, jacobian, count);
        return new(at, cost, jacobian);
    }

    private static double Cost(double[] r)
    {
        var sum = 0.0;
        foreach (var x in r) sum += x * x;
        return double.IsFinite(sum) ? 0.5 * sum : 1e300;
    }

    private static void Differences(Action<double[], double[]> residuals, double[] at, double[,] jacobian, int count)
    {
        const double step = 1e-5;
        var up = new double[count];
        var down = new double[count];
        var point = (double[])at.Clone();
        for (var a = 0; a < at.Length; a++)
        {
            point[a] = at[a] + step;
            residuals(point, up);
            point[a] = at[a] - step;
            residuals(point, down);
            point[a] = at[a];
            for (var k = 0; k < count; k++) jacobian[k, a] = (up[k] - down[k]) / (2 * step);
        }
    }
}

/// <summary>Symmetric positive definite systems of a few unknowns.</summary>
internal static class Cholesky
{
    /// <summary>x with A·x = b; null when A is not positive definite.</summary>
    public static double[]? Solve(double[,] a, double[] b)
    {
        if (Factor(a) is not { } l) return null;
        return Back(l, b);
    }

    /// <summary>The inverse; null when A is not positive definite.</summary>
    public static double[,]? Inverse(double[,] a)
    {
        if (Factor(a) is not { } l) return null;
        var n = a.GetLength(0);
        var inverse = new double[n, n];
        for (var c = 0; c < n; c++)
        {
            var unit = new double[n];
            unit[c] = 1;
            var column = Back(l, unit);
            for (var r = 0; r < n; r++) inverse[r, c] = column[r];
        }
        return inverse;
    }

    private static double[,]? Factor(double[,] a)
    {
        var n = a.GetLength(0);
        var l = new double[n, n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = a[i, j];
                for (var k = 0; k < j; k++) sum -= l[i, k] * l[j, k];
                if (i != j) l[i, j] = sum / l[j, j];
                else if (!(sum > 0)) return null;
                else l[i, i] = Math.Sqrt(sum);
            }
        }
        return l;
    }

    private static double[] Back(double[,] l, double[] b)
    {
        var n = b.Length;
        var x = (double[])b.Clone();
        for (var i = 0; i < n; i++)
        {
            for (var k = 0; k < i; k++) x[i] -= l[i, k] * x[k];
            x[i] /= l[i, i];
        }
        for (var i = n - 1; i >= 0; i--)
        {
            for (var k = i + 1; k < n; k++) x[i] -= l[k, i] * x[k];
            x[i] /= l[i, i];
        }
        return x;
    }
}

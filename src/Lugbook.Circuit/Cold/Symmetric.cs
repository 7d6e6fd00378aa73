namespace Lugbook.Circuit.Cold;

/// <summary>Eigenvalues of a symmetric matrix.</summary>
internal static class Symmetric
{
    /// <summary>Cyclic Jacobi rotations (Golub and Van Loan, Matrix Computations, §8.5). The columns of Vectors belong to Values. Overwrites the matrix.</summary>
    public static (double[] Values, double[,] Vectors) Eigen(double[,] a)
    {
        var n = a.GetLength(0);
        var v = new double[n, n];
        for (var i = 0; i < n; i++) v[i, i] = 1;
        for (var sweep = 0; sweep < 60; sweep++)
        {
            var turned = false;
            for (var p = 0; p < n; p++)
            {
                for (var q = p + 1; q < n; q++)
                {
                    var off = a[p, q];
                    if (Math.Abs(off) <= 1e-17 * Math.Sqrt(Math.Abs(a[p, p] * a[q, q])) || off == 0) continue;
                    turned = true;
                    Rotate(a, v, p, q, off);
                }
            }
            if (!turned) break;
        }
        return ([.. Enumerable.Range(0, n).Select(i => a[i, i])], v);
    }

    private static void Rotate(double[,] a, double[,] v, int p, int q, double off)
    {
        var n = a.GetLength(0);
        var theta = (a[q, q] - a[p, p]) / (2 * off);
        var t = (theta < 0 ? -1 : 1) / (Math.Abs(theta) + Math.Sqrt(theta * theta + 1));
        var c = 1 / Math.Sqrt(t * t + 1);
        var s = t * c;
        a[p, p] -= t * off;
        a[q, q] += t * off;
        a[p, q] = a[q, p] = 0;
        for (var k = 0; k < n; k++)
        {
            if (k != p && k != q)
            {
                var (x, y) = (a[k, p], a[k, q]);
                a[k, p] = a[p, k] = c * x - s * y;
                a[k, q] = a[q, k] = s * x + c * y;
            }
            var (m, w) = (v[k, p], v[k, q]);
            v[k, p] = c * m - s * w;
            v[k, q] = s * m + c * w;
        }
    }
}

namespace Lugbook.Circuit.Time;

/// <summary>Small full matrices: coupled windings, and the few states of a supply.</summary>
internal static class Dense
{
    /// <summary>Solves A·X = B by elimination with row exchanges; A is square, B has any number of columns.</summary>
    /// <returns>X, or null where A is singular.</returns>
    /// <remarks>Golub and Van Loan, Matrix Computations, §3.4.</remarks>
    public static double[,]? Solve(double[,] a, double[,] b)
    {
        var n = a.GetLength(0);
        var columns = b.GetLength(1);
        a = (double[,])a.Clone();
        b = (double[,])b.Clone();
        for (var k = 0; k < n; k++)
        {
            var pivot = k;
            for (var r = k + 1; r < n; r++) if (Math.Abs(a[r, k]) > Math.Abs(a[pivot, k])) pivot = r;
            if (!(Math.Abs(a[pivot, k]) > 0)) return null;
            if (pivot != k)
            {
                for (var c = 0; c < n; c++) (a[k, c], a[pivot, c]) = (a[pivot, c], a[k, c]);
                for (var c = 0; c < columns; c++) (b[k, c], b[pivot, c]) = (b[pivot, c], b[k, c]);
            }
            for (var r = k + 1; r < n; r++)
            {
                var f = a[r, k] / a[k, k];
                if (f == 0) continue;
                for (var c = k; c < n; c++) a[r, c] -= f * a[k, c];
                for (var c = 0; c < columns; c++) b[r, c] -= f * b[k, c];
            }
        }
        for (var k = n - 1; k >= 0; k--)
        {
            for (var c = 0; c < columns; c++)
            {
                var sum = b[k, c];
                for (var j = k + 1; j < n; j++) sum -= a[k, j] * b[j, c];
                b[k, c] = sum / a[k, k];
            }
        }
        return b;
    }
}

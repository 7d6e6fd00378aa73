using System.Numerics;
using Lugbook.Circuit.Linear;

namespace Lugbook.Circuit.Alternating;

/// <summary>A complex matrix over a <see cref="Pattern"/>, solved without row exchanges, checked, and solved with them where that was not good enough.</summary>
/// <remarks>
/// A resonance can make a diagonal entry vanish, so diagonal pivots are not safe as they are for resistances. Every answer is refined once and its residual
/// compared with the matrix; above 1e-12 the dense matrix is solved with partial pivoting (Golub and Van Loan, Matrix Computations, §3.4 and 3.5.3).
/// </remarks>
internal sealed class ComplexFactor(Pattern pattern)
{
    private readonly Complex[] _matrix = new Complex[pattern.Count];
    private readonly List<(int Row, int Column, int Slot)> _entries = [];
    private readonly bool[] _present = new bool[pattern.Count];
    private Complex[]? _factors;

    /// <summary>Adds to an entry; a row or column below 0 is ground.</summary>
    public void Add(int row, int column, Complex siemens)
    {
        if (row < 0 || column < 0) return;
        var slot = pattern.Slot(row, column);
        if (!_present[slot]) _entries.Add((row, column, slot));
        _present[slot] = true;
        _matrix[slot] += siemens;
        _factors = null;
    }

    /// <summary>Adds an admittance between two rows.</summary>
    public void Admittance(int a, int b, Complex siemens)
    {
        Add(a, a, siemens);
        Add(b, b, siemens);
        Add(a, b, -siemens);
        Add(b, a, -siemens);
    }

    /// <summary>Solves A·x = b.</summary>
    public Complex[] Solve(Complex[] b)
    {
        _factors ??= Decompose();
        var x = Substitute(b);
        var correction = Substitute(Residual(x, b));
        for (var i = 0; i < x.Length; i++) x[i] += correction[i];
        return Poor(x, b) ? Dense(b) : x;
    }

    private Complex[] Decompose()
    {
        var values = (Complex[])_matrix.Clone();
        for (var k = 0; k < pattern.Size; k++)
        {
            var pivot = values[pattern.Diagonal[k]];
            var at = pattern.UpdateStart[k];
            foreach (var lower in pattern.LowerSlots[k])
            {
                var l = values[lower] /= pivot;
                foreach (var upper in pattern.UpperSlots[k]) values[pattern.Updates[at++]] -= l * values[upper];
            }
        }
        return values;
    }

    private Complex[] Substitute(Complex[] b)
    {
        var (values, x) = (_factors!, (Complex[])b.Clone());
        for (var k = 0; k < pattern.Size; k++)
        {
            var (near, lower, above) = (pattern.Neighbours[k], pattern.LowerSlots[k], x[pattern.Order[k]]);
            for (var i = 0; i < near.Length; i++) x[near[i]] -= values[lower[i]] * above;
        }
        for (var k = pattern.Size - 1; k >= 0; k--)
        {
            var (near, upper, sum) = (pattern.Neighbours[k], pattern.UpperSlots[k], x[pattern.Order[k]]);
            for (var j = 0; j < near.Length; j++) sum -= values[upper[j]] * x[near[j]];
            x[pattern.Order[k]] = sum / values[pattern.Diagonal[k]];
        }
        return x;
    }

    private Complex[] Residual(Complex[] x, Complex[] b)
    {
        var r = (Complex[])b.Clone();
        foreach (var (row, column, slot) in _entries) r[row] -= _matrix[slot] * x[column];
        return r;
    }

    private bool Poor(Complex[] x, Complex[] b)
    {
        var residual = Residual(x, b);
        var scale = b.Select(Complex.Abs).ToArray();
        foreach (var (row, column, slot) in _entries) scale[row] += Complex.Abs(_matrix[slot] * x[column]);
        for (var i = 0; i < x.Length; i++) if (!(Complex.Abs(residual[i]) <= 1e-12 * scale[i])) return true;   // NaN too
        return false;
    }

    private Complex[] Dense(Complex[] b)
    {
        var n = pattern.Size;
        var a = new Complex[n, n];
        foreach (var (row, column, slot) in _entries) a[row, column] = _matrix[slot];
        var x = (Complex[])b.Clone();
        for (var k = 0; k < n; k++)
        {
            var best = k;
            for (var i = k + 1; i < n; i++) if (Complex.Abs(a[i, k]) > Complex.Abs(a[best, k])) best = i;
            if (best != k)
            {
                for (var j = k; j < n; j++) (a[k, j], a[best, j]) = (a[best, j], a[k, j]);
                (x[k], x[best]) = (x[best], x[k]);
            }
            for (var i = k + 1; i < n; i++)
            {
                if (a[i, k] == Complex.Zero) continue;
                var l = a[i, k] / a[k, k];
                for (var j = k + 1; j < n; j++) a[i, j] -= l * a[k, j];
                x[i] -= l * x[k];
            }
        }
        for (var k = n - 1; k >= 0; k--)
        {
            for (var j = k + 1; j < n; j++) x[k] -= a[k, j] * x[j];
            x[k] /= a[k, k];
        }
        return x;
    }
}

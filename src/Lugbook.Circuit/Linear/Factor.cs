using System.Runtime.CompilerServices;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Linear;

/// <summary>LU factors of a matrix of fixed pattern, in one or several lanes. Allocates only when made.</summary>
/// <remarks>Right-looking elimination over the pattern's list of updates: Golub and Van Loan, Matrix Computations, §3.2, without row exchanges.</remarks>
internal sealed class Factor<T>(Pattern pattern) where T : unmanaged, ILane<T>
{
    private readonly T[] _values = new T[pattern.Count];
    private readonly T[] _inverse = new T[pattern.Size];

    /// <summary>The matrix to be factored, by slot; factoring overwrites it.</summary>
    public Span<T> Values => _values;

    /// <summary>The pattern this was made for.</summary>
    public Pattern Pattern => pattern;

    /// <summary>Replaces the matrix by its factors. A zero pivot gives infinities, which the caller's residual check sees.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Decompose()
    {
        var values = _values.AsSpan();
        var one = T.Of(1);
        for (var k = 0; k < pattern.Size; k++)
        {
            var inverse = one / values[pattern.Diagonal[k]];
            _inverse[k] = inverse;
            var lower = pattern.LowerSlots[k];
            var upper = pattern.UpperSlots[k];
            var updates = pattern.Updates.AsSpan(pattern.UpdateStart[k], lower.Length * upper.Length);
            var at = 0;
            for (var i = 0; i < lower.Length; i++)
            {
                var l = values[lower[i]] * inverse;
                values[lower[i]] = l;
                var minus = -l;
                for (var j = 0; j < upper.Length; j++)
                {
                    var slot = updates[at++];
                    values[slot] = T.MultiplyAdd(minus, values[upper[j]], values[slot]);
                }
            }
        }
    }

    /// <summary>Solves A·x = b in place. Length: the pattern's size.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Solve(Span<T> b)
    {
        var values = _values.AsSpan();
        for (var k = 0; k < pattern.Size; k++)
        {
            var x = -b[pattern.Order[k]];
            var rows = pattern.Neighbours[k];
            var lower = pattern.LowerSlots[k];
            for (var i = 0; i < rows.Length; i++) b[rows[i]] = T.MultiplyAdd(values[lower[i]], x, b[rows[i]]);
        }
        for (var k = pattern.Size - 1; k >= 0; k--)
        {
            var row = pattern.Order[k];
            var sum = b[row];
            var columns = pattern.Neighbours[k];
            var upper = pattern.UpperSlots[k];
            for (var j = 0; j < columns.Length; j++) sum = T.MultiplyAdd(-values[upper[j]], b[columns[j]], sum);
            b[row] = sum * _inverse[k];
        }
    }

    /// <summary>Solves Aᵀ·x = b in place: the adjoint.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void SolveTransposed(Span<T> b)
    {
        var values = _values.AsSpan();
        for (var k = 0; k < pattern.Size; k++)
        {
            var row = pattern.Order[k];
            var x = b[row] * _inverse[k];
            b[row] = x;
            var columns = pattern.Neighbours[k];
            var upper = pattern.UpperSlots[k];
            for (var j = 0; j < columns.Length; j++) b[columns[j]] = T.MultiplyAdd(-values[upper[j]], x, b[columns[j]]);
        }
        for (var k = pattern.Size - 1; k >= 0; k--)
        {
            var row = pattern.Order[k];
            var sum = b[row];
            var rows = pattern.Neighbours[k];
            var lower = pattern.LowerSlots[k];
            for (var i = 0; i < rows.Length; i++) sum = T.MultiplyAdd(-values[lower[i]], b[rows[i]], sum);
            b[row] = sum;
        }
    }
}

using System.Runtime.CompilerServices;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Linear;

/// <summary>LU factors of a matrix of fixed pattern, in one or several lanes. Allocates only when made.</summary>
/// <remarks>Right-looking elimination over the pattern's list of updates: Golub and Van Loan, Matrix Computations, §3.2, without row exchanges.</remarks>
internal sealed class Factor<T>(Pattern pattern) where T : unmanaged, ILane<T>
{
    private readonly T[] _values = new T[pattern.Count];
    private readonly T[] _inverse = new T[pattern.Size];
    private readonly T[] _kept = new T[pattern.LateSlots.Length];

    /// <summary>The matrix to be factored, by slot; factoring overwrites it.</summary>
    public Span<T> Values => _values;

    /// <summary>The pattern this was made for.</summary>
    public Pattern Pattern => pattern;

    /// <summary>Replaces the matrix by its factors. A zero pivot gives infinities, which the caller's residual check sees.</summary>
    public void Decompose() => Decompose(0, pattern.Size);

    /// <summary>Eliminates the early rows and keeps what that leaves among the late ones.</summary>
    public void DecomposeEarly()
    {
        Decompose(0, pattern.Early);
        for (var k = 0; k < _kept.Length; k++) _kept[k] = _values[pattern.LateSlots[k]];
    }

    /// <summary>What was kept, in the order of <see cref="Pattern.LateSlots"/>, of which <see cref="Pattern.Late"/> is the beginning.</summary>
    public ReadOnlySpan<T> Kept => _kept;

    /// <summary>Puts back what was kept among the late rows; the factors of the early ones stand.</summary>
    public void Restore()
    {
        for (var k = 0; k < _kept.Length; k++) _values[pattern.LateSlots[k]] = _kept[k];
    }

    /// <summary>Eliminates the late rows.</summary>
    public void DecomposeLate() => Decompose(pattern.Early, pattern.Size);

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Decompose(int from, int to)
    {
        var values = _values.AsSpan();
        var one = T.Of(1);
        for (var k = from; k < to; k++)
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
    public void Solve(Span<T> b)
    {
        Forward(b, 0, pattern.Size);
        Back(b, 0, pattern.Size);
    }

    /// <summary>The late rows alone: b holds what <see cref="ForwardEarly"/> left of them.</summary>
    public void SolveLate(Span<T> b)
    {
        Forward(b, pattern.Early, pattern.Size);
        Back(b, pattern.Early, pattern.Size);
    }

    /// <summary>Takes the early rows out of the right side.</summary>
    public void ForwardEarly(Span<T> b) => Forward(b, 0, pattern.Early);

    /// <summary>The early rows, the late ones being solved.</summary>
    public void BackEarly(Span<T> b) => Back(b, 0, pattern.Early);

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Forward(Span<T> b, int from, int to)
    {
        var values = _values.AsSpan();
        for (var k = from; k < to; k++)
        {
            var x = -b[pattern.Order[k]];
            var rows = pattern.Neighbours[k];
            var lower = pattern.LowerSlots[k];
            for (var i = 0; i < rows.Length; i++) b[rows[i]] = T.MultiplyAdd(values[lower[i]], x, b[rows[i]]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Back(Span<T> b, int from, int to)
    {
        var values = _values.AsSpan();
        for (var k = to - 1; k >= from; k--)
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

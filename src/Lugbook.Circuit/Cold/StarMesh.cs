using Lugbook.Circuit.Linear;

namespace Lugbook.Circuit.Cold;

/// <summary>A network of resistances reduced node by node towards one common node.</summary>
/// <remarks>
/// Star-mesh transformation (Rosen, J. IEE 62, 1924) in the order of <see cref="Pattern"/>. A pivot is the sum of what is left at the node, never a
/// difference (Grassmann, Taksar and Heyman, Operations Research 33, 1985), so a milliohm beside a gigaohm costs no digits. The resistances to the common
/// node come from the entries of the inverse that lie on the pattern (Takahashi, Fagan and Chin, PICA 1973), again without a subtraction.
/// </remarks>
internal sealed class StarMesh
{
    private readonly Pattern _pattern;
    private readonly double[] _between, _toCommon, _sum;

    /// <summary>Reduces.</summary>
    /// <param name="size">Nodes that are not the common one; each is tied to it by some path.</param>
    /// <param name="conductances">S, 0 or more; a node of −1 is the common one.</param>
    public StarMesh(int size, IReadOnlyCollection<(int A, int B, double Siemens)> conductances)
    {
        _pattern = Pattern.Of(size, conductances.Where(c => c.A >= 0 && c.B >= 0).Select(c => (c.A, c.B)));
        _between = new double[_pattern.Count];
        _toCommon = new double[size];
        _sum = new double[size];
        foreach (var (a, b, siemens) in conductances)
        {
            if (a == b) continue;
            if (a < 0) _toCommon[b] += siemens;
            else if (b < 0) _toCommon[a] += siemens;
            else
            {
                _between[_pattern.Slot(a, b)] += siemens;
                _between[_pattern.Slot(b, a)] += siemens;
            }
        }
        Reduce();
    }

    private void Reduce()
    {
        for (var k = 0; k < _pattern.Size; k++)
        {
            var row = _pattern.Order[k];
            var near = _pattern.Neighbours[k];
            var mine = _pattern.UpperSlots[k];
            var theirs = _pattern.LowerSlots[k];
            var sum = _toCommon[row];
            foreach (var slot in mine) sum += _between[slot];
            _sum[row] = sum;
            var at = _pattern.UpdateStart[k];
            for (var i = 0; i < near.Length; i++)
            {
                var share = _between[mine[i]] / sum;
                _toCommon[near[i]] += share * _toCommon[row];
                for (var j = 0; j < near.Length; j++, at++)
                    if (i != j) _between[_pattern.Updates[at]] += share * _between[mine[j]];
                _between[theirs[i]] = share;
            }
        }
    }

    /// <summary>Voltages for currents into the nodes, A, in place.</summary>
    public void Solve(Span<double> b)
    {
        for (var k = 0; k < _pattern.Size; k++)
        {
            var current = b[_pattern.Order[k]];
            if (current == 0) continue;
            var near = _pattern.Neighbours[k];
            var shares = _pattern.LowerSlots[k];
            for (var i = 0; i < near.Length; i++) b[near[i]] += _between[shares[i]] * current;
        }
        for (var k = _pattern.Size - 1; k >= 0; k--)
        {
            var row = _pattern.Order[k];
            var volts = b[row] / _sum[row];
            var near = _pattern.Neighbours[k];
            var shares = _pattern.LowerSlots[k];
            for (var i = 0; i < near.Length; i++) volts += _between[shares[i]] * b[near[i]];
            b[row] = volts;
        }
    }

    /// <summary>Resistance from every node to the common one, Ω.</summary>
    public double[] OhmsToCommon()
    {
        var inverse = new double[_pattern.Count];
        for (var k = _pattern.Size - 1; k >= 0; k--)
        {
            var near = _pattern.Neighbours[k];
            var mine = _pattern.UpperSlots[k];
            var shares = _pattern.LowerSlots[k];
            var at = _pattern.UpdateStart[k];
            var own = 1 / _sum[_pattern.Order[k]];
            for (var j = 0; j < near.Length; j++)
            {
                double sum = 0;
                // Updates runs over pairs of neighbours, row by row: the inverse is symmetric, so row j serves as column j.
                for (var m = 0; m < near.Length; m++) sum += _between[shares[m]] * inverse[_pattern.Updates[at + j * near.Length + m]];
                inverse[mine[j]] = sum;
                inverse[shares[j]] = sum;
                own += _between[shares[j]] * sum;
            }
            inverse[_pattern.Diagonal[k]] = own;
        }
        var ohms = new double[_pattern.Size];
        for (var k = 0; k < ohms.Length; k++) ohms[_pattern.Order[k]] = inverse[_pattern.Diagonal[k]];
        return ohms;
    }
}

using System.Numerics;

namespace Lugbook.Circuit.Local;

/// <summary>Admittances between nodes, reduced node by node.</summary>
/// <remarks>
/// Star-mesh transformation as in <see cref="Cold.StarMesh"/>, with complex numbers: the pivot is the sum of what is left at the node, so that with resistances alone nothing is ever subtracted. The next node to go
/// is one with fewest neighbours. Rows are kept dense: a chassis has some hundred nodes.
/// </remarks>
internal sealed class Mesh
{
    private readonly int _size;
    private readonly Complex[] _between;

    public Mesh(int size) => (_size, _between) = (size, new Complex[size * size]);

    private Mesh(int size, Complex[] between) => (_size, _between) = (size, between);

    public int Size => _size;
    public Complex this[int a, int b] => _between[a * _size + b];

    /// <summary>Adds an admittance; between a node and itself it is nothing.</summary>
    public void Add(int a, int b, Complex siemens)
    {
        if (a == b) return;
        _between[a * _size + b] += siemens;
        _between[b * _size + a] += siemens;
    }

    /// <summary>The same with further nodes.</summary>
    public Mesh With(int further)
    {
        var wider = new Mesh(_size + further);
        for (var a = 0; a < _size; a++) Array.Copy(_between, a * _size, wider._between, a * wider._size, _size);
        return wider;
    }

    /// <summary>Two nodes become one: the second gives all it has to the first.</summary>
    public void Join(int keep, int give)
    {
        if (keep == give) return;
        for (var n = 0; n < _size; n++)
        {
            var y = _between[give * _size + n];
            _between[give * _size + n] = _between[n * _size + give] = Complex.Zero;
            if (n != keep) Add(keep, n, y);
        }
    }

    /// <summary>Takes out every node but these; the rest is between them alone, in their order.</summary>
    public Mesh To(ReadOnlySpan<int> keep)
    {
        var work = (Complex[])_between.Clone();
        var stays = new bool[_size];
        foreach (var k in keep) stays[k] = true;
        var near = new List<int>[_size];
        for (var a = 0; a < _size; a++)
        {
            near[a] = [];
            for (var b = 0; b < _size; b++) if (work[a * _size + b] != Complex.Zero) near[a].Add(b);
        }
        var open = Enumerable.Range(0, _size).Where(n => !stays[n]).ToList();
        while (open.Count > 0)
        {
            var at = 0;
            for (var i = 1; i < open.Count; i++) if (near[open[i]].Count < near[open[at]].Count) at = i;
            TakeOut(work, near, open[at]);
            open.RemoveAt(at);
        }
        var kept = new Complex[keep.Length * keep.Length];
        for (var i = 0; i < keep.Length; i++)
            for (var j = 0; j < keep.Length; j++) if (i != j) kept[i * keep.Length + j] = work[keep[i] * _size + keep[j]];
        return new(keep.Length, kept);
    }

    private void TakeOut(Complex[] work, List<int>[] near, int node)
    {
        var sum = Complex.Zero;
        foreach (var n in near[node]) sum += work[node * _size + n];
        foreach (var n in near[node]) near[n].Remove(node);
        if (sum == Complex.Zero) return;
        for (var i = 0; i < near[node].Count; i++)
        {
            var a = near[node][i];
            var share = work[node * _size + a] / sum;
            for (var j = i + 1; j < near[node].Count; j++)
            {
                var b = near[node][j];
                // Windings make admittances of either sign, which may cancel between neighbours.
                if (work[a * _size + b] == Complex.Zero && !near[a].Contains(b))
                {
                    near[a].Add(b);
                    near[b].Add(a);
                }
                var more = share * work[node * _size + b];
                work[a * _size + b] += more;
                work[b * _size + a] += more;
            }
        }
    }

    /// <summary>Impedance between every two nodes, all others left open; infinite where nothing connects them.</summary>
    public Complex[,] Impedances()
    {
        var all = new Complex[_size, _size];
        for (var a = 0; a < _size; a++) for (var b = 0; b < _size; b++) all[a, b] = a == b ? Complex.Zero : new(double.PositiveInfinity, 0);
        var seen = new bool[_size];
        for (var first = 0; first < _size; first++)
        {
            if (seen[first]) continue;
            var island = Island(first, seen);
            if (island.Count > 1) Fill(all, island);
        }
        return all;
    }

    private List<int> Island(int first, bool[] seen)
    {
        var island = new List<int> { first };
        seen[first] = true;
        for (var i = 0; i < island.Count; i++)
            for (var n = 0; n < _size; n++)
            {
                if (seen[n] || _between[island[i] * _size + n] == Complex.Zero) continue;
                seen[n] = true;
                island.Add(n);
            }
        return island;
    }

    // The island counted from its first node: Z = Y⁻¹, and between two nodes Zaa + Zbb − 2·Zab.
    private void Fill(Complex[,] all, List<int> island)
    {
        var n = island.Count - 1;
        var y = new Complex[n, n];
        for (var i = 0; i < n; i++)
        {
            var row = island[i + 1] * _size;
            for (var m = 0; m <= n; m++) y[i, i] += _between[row + island[m]];
            for (var j = 0; j < n; j++) if (i != j) y[i, j] = -_between[row + island[j + 1]];
        }
        var z = Alternating.AtFrequency.Inverse(y);
        for (var i = 0; i < n; i++)
        {
            all[island[0], island[i + 1]] = all[island[i + 1], island[0]] = z[i, i];
            for (var j = 0; j < i; j++) all[island[i + 1], island[j + 1]] = all[island[j + 1], island[i + 1]] = z[i, i] + z[j, j] - z[i, j] - z[j, i];
        }
    }
}

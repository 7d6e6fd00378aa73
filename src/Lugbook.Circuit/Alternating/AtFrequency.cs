using System.Numerics;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Alternating;

/// <summary>Elements at one frequency, as admittances between joined nodes.</summary>
internal sealed class AtFrequency
{
    private readonly int[] _joined;
    private readonly List<(int A, int B, Complex Siemens)> _pairs = [];
    private readonly List<(int Row, int Column, Complex Siemens)> _cross = [];
    private readonly double _omega;

    public AtFrequency(int nodes, double hertz)
    {
        _joined = [.. Enumerable.Range(0, nodes)];
        _omega = 2 * Math.PI * hertz;
    }

    /// <summary>An element without direct-current source or valve; others are the caller's business.</summary>
    /// <exception cref="ArgumentException">The element has no admittance of its own.</exception>
    public void Add(Element element)
    {
        switch (element)
        {
            case Resistor e: Ohms(e.A, e.B, e.Ohms); break;
            case Control e:
                Ohms(e.A, e.Slider, e.Ohms * e.Position);
                Ohms(e.Slider, e.B, e.Ohms * (1 - e.Position));
                break;
            case Capacitor e:
                Ohms(e.A, e.B, e.LeakOhms == 0 ? e.SeriesOhms : e.SeriesOhms + 1 / new Complex(1 / e.LeakOhms, _omega * e.Farads));
                break;
            case Inductor e: Ohms(e.A, e.B, new Complex(e.Ohms, _omega * e.Henries)); break;
            case Transformer e: Coupled(e); break;
            case Switch e: if (e.Closed) Join(e.A, e.B); break;
            case Fuse e: Ohms(e.A, e.B, e.Ohms); break;
            case Filament e: Ohms(e.A, e.B, e.RatedVolts / e.RatedAmperes); break;
            case Thermistor e: Ohms(e.A, e.B, e.ColdOhms); break;
            case Mains e: Ohms(e.A, e.B, e.Ohms); break;
            case Battery e: Ohms(e.Plus, e.Minus, e.Ohms); break;
            case CurrentDrain: break;
            default: throw new ArgumentException($"Element '{element.Name}' has no admittance of its own.", nameof(element));
        }
    }

    /// <summary>An impedance; below 1 mΩ it joins, infinity leaves apart.</summary>
    public void Ohms(int a, int b, Complex ohms)
    {
        if (Complex.Abs(ohms) < AssemblyBuilder.LeastOhms) Join(a, b);
        else if (Complex.IsFinite(ohms)) _pairs.Add((a, b, 1 / ohms));
    }

    /// <summary>An entry of the nodal matrix for itself: current out of row for 1 V at column.</summary>
    public void Transfer(int row, int column, double siemens) => _cross.Add((row, column, siemens));

    /// <summary>Marks two nodes as parts of one element without adding to it.</summary>
    public void Way(int a, int b) => _pairs.Add((a, b, Complex.Zero));

    // V = (R + jωL)·I with L_ij = k·√(L_i·L_j); the inverse is stamped between the windings' ends.
    private void Coupled(Transformer e)
    {
        var n = e.Windings.Length;
        var z = new Complex[n, n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                var henries = Math.Sqrt(e.Windings[i].Henries * e.Windings[j].Henries) * (i == j ? 1 : e.Coupling);
                z[i, j] = new(i == j ? e.Windings[i].Ohms : 0, _omega * henries);
            }
        }
        var y = Inverse(z);
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                var (w, v) = (e.Windings[i], e.Windings[j]);
                _cross.Add((w.A, v.A, y[i, j]));
                _cross.Add((w.A, v.B, -y[i, j]));
                _cross.Add((w.B, v.A, -y[i, j]));
                _cross.Add((w.B, v.B, y[i, j]));
            }
            Way(e.Windings[i].A, e.Windings[i].B);
        }
    }

    // Gauss-Jordan on the diagonal: each block is R + jωL with R above 0 and L positive definite, so no pivot vanishes.
    internal static Complex[,] Inverse(Complex[,] a)
    {
        var n = a.GetLength(0);
        for (var k = 0; k < n; k++)
        {
            var pivot = 1 / a[k, k];
            a[k, k] = 1;
            for (var j = 0; j < n; j++) a[k, j] *= pivot;
            for (var i = 0; i < n; i++)
            {
                if (i == k) continue;
                var factor = a[i, k];
                a[i, k] = 0;
                for (var j = 0; j < n; j++) a[i, j] -= factor * a[k, j];
            }
        }
        return a;
    }

    public void Join(int a, int b) => _joined[Root(b)] = Root(a);

    private int Root(int node)
    {
        while (_joined[node] != node) node = _joined[node] = _joined[_joined[node]];
        return node;
    }

    /// <summary>Voltages for 1 A into a node and out of the grounded ones.</summary>
    /// <param name="into">Where the ampere goes in.</param>
    /// <param name="grounded">Nodes at 0 V; one or more.</param>
    /// <returns>Volts a node, or null when nothing leads from there to a grounded node. 0 where no signal comes.</returns>
    public Complex[]? VoltsFor(int into, IReadOnlyCollection<int> grounded)
    {
        var n = _joined.Length;
        var near = new List<int>[n];
        for (var i = 0; i < n; i++) near[i] = [];
        foreach (var (a, b) in _pairs.Select(p => (Root(p.A), Root(p.B))).Concat(_cross.Where(c => c.Row == c.Column).Select(c => (Root(c.Row), Root(c.Column)))))
        {
            near[a].Add(b);
            near[b].Add(a);
        }
        var (seen, known) = (new bool[n], new bool[n]);
        foreach (var g in grounded) known[Root(g)] = true;
        for (var i = 0; i < n; i++) if (known[Root(i)]) Walk(Root(i));
        if (!seen[Root(into)]) return null;
        // A part that nothing ties: one node of it is taken as 0 V; no current leaves there.
        for (var i = 0; i < n; i++)
        {
            if (seen[Root(i)]) continue;
            known[Root(i)] = true;
            Walk(Root(i));
        }
        var row = new int[n];
        var rows = 0;
        for (var i = 0; i < n; i++) row[i] = Root(i) != i || known[i] ? -1 : rows++;
        var pairs = _pairs.Select(p => (A: row[Root(p.A)], B: row[Root(p.B)], p.Siemens)).ToList();
        var cross = _cross.Select(c => (A: row[Root(c.Row)], B: row[Root(c.Column)], c.Siemens)).ToList();
        var factor = new ComplexFactor(Linear.Pattern.Of(rows, pairs.Concat(cross).Where(p => p.A >= 0 && p.B >= 0).Select(p => (p.A, p.B))));
        foreach (var (a, b, siemens) in pairs) if (a != b) factor.Admittance(a, b, siemens);
        foreach (var (a, b, siemens) in cross) factor.Add(a, b, siemens);
        var current = new Complex[rows];
        if (row[Root(into)] >= 0) current[row[Root(into)]] = 1;
        var volts = factor.Solve(current);
        return [.. Enumerable.Range(0, n).Select(i => row[Root(i)] < 0 ? Complex.Zero : volts[row[Root(i)]])];

        void Walk(int from)
        {
            var waiting = new Stack<int>([from]);
            seen[from] = true;
            while (waiting.TryPop(out var at))
            {
                foreach (var next in near[at])
                {
                    if (seen[next]) continue;
                    seen[next] = true;
                    waiting.Push(next);
                }
            }
        }
    }
}

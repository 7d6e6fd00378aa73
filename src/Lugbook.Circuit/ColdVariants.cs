using System.Numerics;
using Lugbook.Circuit.Alternating;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Local;

namespace Lugbook.Circuit;

/// <summary>A cold, unplugged network of which the impedance between any two nodes is known, and at next to no cost what a few changed elements make of it.</summary>
/// <remarks>
/// Cold as in <see cref="Ports"/>. The nodal matrix is inverted once; a variant with k changed admittances costs a k × k system (Sherman, Morrison and Woodbury; Golub and Van Loan, Matrix Computations, §2.1.4).
/// Every node is tied by 100 GΩ, so that no part floats: resistances above some 100 MΩ come out too low, and 500 MΩ stays where less than 10 kΩ is taken out. What joins two nodes is taken as 10 mΩ.
/// </remarks>
public sealed class ColdVariants
{
    /// <summary>What ties every node, S.</summary>
    public const double TieSiemens = 1e-11;
    private const double JoinSiemens = 100;
    // Taking out a strong admittance that alone ties a part leaves nothing but rounding there: 500 MΩ of it stays.
    private const double StrongSiemens = 1e-4, LeftSiemens = 2e-9;

    private readonly Complex[,] _impedance;

    private ColdVariants(Complex[,] impedance, double hertz) => (_impedance, Hertz) = (impedance, hertz);

    /// <summary>Frequency, Hz; 0 for direct current.</summary>
    public double Hertz { get; }

    /// <summary>Inverts a network.</summary>
    /// <param name="network">The network; what is open when cold is passed over.</param>
    /// <param name="further">Nodes behind its last that changes may use.</param>
    /// <param name="hertz">Frequency, Hz; 0 for direct current.</param>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is negative or no number.</exception>
    public static ColdVariants Of(Network network, int further, double hertz)
    {
        if (!(hertz >= 0 && double.IsFinite(hertz))) throw new ArgumentOutOfRangeException(nameof(hertz), hertz, "The frequency is 0 Hz or more.");
        var n = network.NodeCount + further;
        var y = new Complex[n, n];
        for (var k = 0; k < n; k++) y[k, k] = TieSiemens;
        foreach (var (a, b, siemens) in AdmittancesOf(network.Elements, hertz))
        {
            y[a, a] += siemens;
            y[b, b] += siemens;
            y[a, b] -= siemens;
            y[b, a] -= siemens;
        }
        return new(AtFrequency.Inverse(y), hertz);
    }

    /// <summary>The network with elements taken out and others put in.</summary>
    /// <param name="gone">As they stand in the network.</param>
    /// <param name="come">On nodes of the network, or on further ones.</param>
    public Variant With(IEnumerable<Element> gone, IEnumerable<Element> come)
    {
        var changes = new Dictionary<(int, int), Complex>();
        void Put((int A, int B, Complex Siemens) y, double sign)
        {
            var key = y.A < y.B ? (y.A, y.B) : (y.B, y.A);
            changes[key] = changes.GetValueOrDefault(key) + sign * y.Siemens;
        }
        foreach (var y in AdmittancesOf(come, Hertz)) Put(y, 1);
        foreach (var y in AdmittancesOf(gone, Hertz)) Put(y, -1 + (y.Siemens.Magnitude > StrongSiemens ? LeftSiemens / y.Siemens.Magnitude : 0));
        return new(this, [.. changes.Where(c => c.Value != Complex.Zero).Select(c => (c.Key.Item1, c.Key.Item2, c.Value))]);
    }

    /// <summary>Admittances between different nodes that elements make at a frequency, S.</summary>
    internal static List<(int A, int B, Complex Siemens)> AdmittancesOf(IEnumerable<Element> elements, double hertz)
    {
        var all = new List<(int, int, Complex)>();
        ColdAdmittance.Of(elements, hertz, (a, b) => { if (a != b) all.Add((a, b, JoinSiemens)); }, (a, b, y) => { if (a != b) all.Add((a, b, y)); });
        return all;
    }

    /// <summary>Volts between c and d for an ampere through a and b, before any change, Ω.</summary>
    private Complex Transfer(int a, int b, int c, int d) => _impedance[a, c] - _impedance[b, c] - _impedance[a, d] + _impedance[b, d];

    /// <summary>One variant.</summary>
    public sealed class Variant
    {
        private readonly ColdVariants _of;
        private readonly (int A, int B, Complex Siemens)[] _changes;
        private readonly Complex[,] _inner;

        internal Variant(ColdVariants of, (int A, int B, Complex Siemens)[] changes)
        {
            (_of, _changes) = (of, changes);
            var k = changes.Length;
            // (1 + D·UᵀZU)⁻¹·D
            var m = new Complex[k, k];
            for (var i = 0; i < k; i++)
                for (var j = 0; j < k; j++)
                    m[i, j] = (i == j ? 1 : 0) + changes[i].Siemens * of.Transfer(changes[i].A, changes[i].B, changes[j].A, changes[j].B);
            _inner = Solved(m, changes);
        }

        /// <summary>Impedance between two nodes, Ω.</summary>
        public Complex Between(int a, int b) => Transfer(a, b, a, b);

        /// <summary>Volts between c and d for an ampere through a and b, Ω.</summary>
        public Complex Transfer(int a, int b, int c, int d)
        {
            var z = _of.Transfer(a, b, c, d);
            var k = _changes.Length;
            if (k == 0) return z;
            Span<Complex> right = k <= 16 ? stackalloc Complex[k] : new Complex[k];
            for (var j = 0; j < k; j++) right[j] = _of.Transfer(c, d, _changes[j].A, _changes[j].B);
            for (var i = 0; i < k; i++)
            {
                var left = _of.Transfer(a, b, _changes[i].A, _changes[i].B);
                var sum = Complex.Zero;
                for (var j = 0; j < k; j++) sum += _inner[i, j] * right[j];
                z -= left * sum;
            }
            return z;
        }

        /// <summary>Change of the impedance between two nodes when admittances change by little, Ω: −Σ δy·T² (Tellegen's theorem; Director and Rohrer 1969).</summary>
        public Complex FirstOrder(int a, int b, IReadOnlyList<(int A, int B, Complex Siemens)> changes)
        {
            var sum = Complex.Zero;
            foreach (var (c, d, siemens) in changes)
            {
                var t = Transfer(a, b, c, d);
                sum -= t * t * siemens;
            }
            return sum;
        }

        // Gauss with row exchanges: a short beside an open lead makes the diagonal small.
        private static Complex[,] Solved(Complex[,] m, (int A, int B, Complex Siemens)[] changes)
        {
            var k = changes.Length;
            var x = new Complex[k, k];
            for (var i = 0; i < k; i++) x[i, i] = changes[i].Siemens;
            for (var c = 0; c < k; c++)
            {
                var p = c;
                for (var r = c + 1; r < k; r++) if (m[r, c].Magnitude > m[p, c].Magnitude) p = r;
                if (p != c)
                    for (var j = 0; j < k; j++) (m[c, j], m[p, j], x[c, j], x[p, j]) = (m[p, j], m[c, j], x[p, j], x[c, j]);
                var pivot = 1 / m[c, c];
                for (var j = 0; j < k; j++) (m[c, j], x[c, j]) = (m[c, j] * pivot, x[c, j] * pivot);
                for (var r = 0; r < k; r++)
                {
                    if (r == c) continue;
                    var factor = m[r, c];
                    if (factor == Complex.Zero) continue;
                    for (var j = 0; j < k; j++) (m[r, j], x[r, j]) = (m[r, j] - factor * m[c, j], x[r, j] - factor * x[c, j]);
                }
            }
            return x;
        }
    }

    /// <summary>What an element's change does to its admittances: for <see cref="Variant.FirstOrder"/>.</summary>
    public IReadOnlyList<(int A, int B, Complex Siemens)> Difference(Element from, Element to) =>
        [.. AdmittancesOf([to], Hertz), .. AdmittancesOf([from], Hertz).Select(y => (y.A, y.B, -y.Siemens))];
}

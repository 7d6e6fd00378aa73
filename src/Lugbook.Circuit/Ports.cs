using System.Collections.Immutable;
using System.Numerics;
using Lugbook.Circuit.Cold;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Local;

namespace Lugbook.Circuit;

/// <summary>A cold, unplugged network seen from a few of its nodes: the rest is reduced once, then many changes among these nodes are tried at next to no cost.</summary>
/// <remarks>
/// Cold as in <see cref="Ohms"/> and <see cref="Impedance"/>; a rectifier counts as its slope at 0 V, so whoever wants it otherwise puts a resistor in its place (<see cref="RectifierOhms"/>). The reduction is exact
/// (star-mesh, Rosen 1924): docs/circuit.md. Some 50 pF between the windings of a transformer are added at a frequency above 0.
/// </remarks>
public sealed class Ports
{
    private readonly Dictionary<int, int> _rowOf;
    private readonly Mesh _mesh;
    private readonly double _hertz;

    private Ports(Dictionary<int, int> rowOf, Mesh mesh, double hertz) => (_rowOf, _mesh, _hertz) = (rowOf, mesh, hertz);

    /// <summary>Reduces a network.</summary>
    /// <param name="nodes">How many nodes it has; node numbers run from 0.</param>
    /// <param name="elements">Its elements, without those that the changes concern.</param>
    /// <param name="ports">The nodes to keep: all that changes and readings are made at.</param>
    /// <param name="hertz">Frequency, Hz; 0 for direct current.</param>
    /// <exception cref="ArgumentOutOfRangeException">A port is not a node of the network, or the frequency is negative.</exception>
    public static Ports Of(int nodes, IEnumerable<Element> elements, IEnumerable<int> ports, double hertz)
    {
        if (!(hertz >= 0 && double.IsFinite(hertz))) throw new ArgumentOutOfRangeException(nameof(hertz), hertz, "The frequency is 0 Hz or more.");
        int[] kept = [.. ports.Distinct()];
        foreach (var port in kept)
            if (port < 0 || port >= nodes) throw new ArgumentOutOfRangeException(nameof(ports), port, $"Nodes run from 0 to {nodes - 1}.");
        var joined = new Joined(nodes);
        var pairs = new List<(int A, int B, Complex Siemens)>();
        ColdAdmittance.Of(elements, hertz, joined.Join, (a, b, y) => pairs.Add((a, b, y)));
        // Only nodes that something is on count.
        var row = new Dictionary<int, int>();
        int Row(int node) => row.TryGetValue(joined.Root(node), out var r) ? r : row[joined.Root(node)] = row.Count;
        var rows = kept.ToDictionary(p => p, Row);
        var placed = pairs.ConvertAll(p => (A: Row(p.A), B: Row(p.B), p.Siemens));
        var mesh = new Mesh(row.Count);
        foreach (var (a, b, siemens) in placed) mesh.Add(a, b, siemens);
        int[] keep = [.. rows.Values.Distinct()];
        var at = keep.Select((r, i) => (r, i)).ToDictionary(x => x.r, x => x.i);
        return new(rows.ToDictionary(r => r.Key, r => at[r.Value]), mesh.To(keep), hertz);
    }

    /// <summary>Impedance between every two of some nodes, with further elements among the ports.</summary>
    /// <param name="further">Elements whose nodes are ports or new ones: any number that is no node of the network.</param>
    /// <param name="probes">Ports or new nodes.</param>
    /// <returns>Complex impedance, Ω, by place in <paramref name="probes"/>; infinite where nothing connects them.</returns>
    public Complex[,] Between(IEnumerable<Element> further, IReadOnlyList<int> probes)
    {
        var elements = further as IReadOnlyList<Element> ?? [.. further];
        var rowOf = new Dictionary<int, int>(_rowOf);
        foreach (var node in elements.SelectMany(e => Terminals.Of(e)).Concat(probes))
            if (!rowOf.ContainsKey(node)) rowOf[node] = _mesh.Size + rowOf.Count - _rowOf.Count;
        var mesh = _mesh.With(rowOf.Count - _rowOf.Count);
        var joined = new Joined(mesh.Size);
        ColdAdmittance.Of(elements, _hertz, (a, b) => joined.Join(rowOf[a], rowOf[b]), (a, b, y) => mesh.Add(rowOf[a], rowOf[b], y));
        for (var r = 0; r < mesh.Size; r++) mesh.Join(joined.Root(r), r);
        int[] rows = [.. probes.Select(p => joined.Root(rowOf[p]))];
        int[] keep = [.. rows.Distinct()];
        var ohms = mesh.To(keep).Impedances();
        var at = keep.Select((r, i) => (r, i)).ToDictionary(x => x.r, x => x.i);
        var between = new Complex[probes.Count, probes.Count];
        for (var a = 0; a < rows.Length; a++) for (var b = 0; b < rows.Length; b++) between[a, b] = ohms[at[rows[a]], at[rows[b]]];
        return between;
    }

    /// <summary>Admittances between nodes that cold elements make at a frequency, S; what joins two nodes is left out.</summary>
    public static ImmutableArray<(int A, int B, Complex Siemens)> AdmittancesOf(IEnumerable<Element> elements, double hertz)
    {
        var all = ImmutableArray.CreateBuilder<(int, int, Complex)>();
        ColdAdmittance.Of(elements, hertz, (_, _) => { }, (a, b, y) => { if (a != b) all.Add((a, b, y)); });
        return all.ToImmutable();
    }

    /// <summary>Resistance of a dry rectifier with so many volts across it, forward, Ω.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The voltage is not above 0.</exception>
    public static double RectifierOhms(DiodeLaw law, double volts)
    {
        if (!(volts > 0 && double.IsFinite(volts))) throw new ArgumentOutOfRangeException(nameof(volts), volts, "The voltage is above 0 V.");
        return Rectifiers.Ohms(law, volts);
    }

    /// <summary>Nodes that are one: disjoint sets with path halving.</summary>
    private sealed class Joined(int nodes)
    {
        private readonly int[] _of = [.. Enumerable.Range(0, nodes)];

        public int Root(int node)
        {
            while (_of[node] != node) node = _of[node] = _of[_of[node]];
            return node;
        }

        public void Join(int a, int b) => _of[Root(b)] = Root(a);
    }
}

using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Cold;

/// <summary>The resistances and capacitors of a cold network, counted from one common node; 0 Ω joins nodes.</summary>
internal sealed class ColdNetwork
{
    // Leakage given to a capacitor that holds a part which no resistance ties: long beside all that is looked for.
    private const double HoldingSeconds = 1e6;

    private readonly int[] _joinedOf;
    private readonly int _nodes, _common;
    private readonly List<(int A, int B, double Siemens)> _conductances;
    private readonly List<Charge> _capacitors;

    /// <summary>Takes the network apart.</summary>
    /// <param name="nodeNames">Names, for their number.</param>
    /// <param name="common">The node from which to count.</param>
    /// <param name="elements">From <see cref="ColdView"/>, with resistors in place of rectifiers.</param>
    public ColdNetwork(IReadOnlyList<string> nodeNames, int common, IReadOnlyList<Element> elements)
    {
        var builder = new AssemblyBuilder(new Network(nodeNames, common, []));
        foreach (var element in elements) Direct.Add(builder, element);
        builder.Build();
        _joinedOf = builder.JoinedOf;
        _nodes = builder.NodeNames.Length;
        _common = _joinedOf[common];
        _conductances = [.. builder.Conductances.Select(c => (c.Item2, c.Item3, c.Item4)).Where(c => c.Item3 > 0)];
        _capacitors = [.. elements.OfType<Capacitor>().Select(c => new Charge(_joinedOf[c.A], _joinedOf[c.B], c.Farads, c.SeriesOhms)).Where(c => c.A != c.B)];
    }

    /// <summary>The node a network node has become by joining.</summary>
    public int Joined(int node) => _joinedOf[node];

    /// <summary>The resistances alone.</summary>
    public Reduced Resting() => Reduce(_conductances);

    /// <summary>The resistances, with parts that only capacitors tie held by a leakage of 10⁶ s, so that charging through them can be told.</summary>
    public Reduced Charging()
    {
        var tied = Reach(_conductances);
        return Reduce([.. _conductances, .. _capacitors.Where(c => !tied[c.A] || !tied[c.B]).Select(c => (c.A, c.B, c.Farads / HoldingSeconds))]);
    }

    /// <summary>Capacitors between rows of a reduced network that they reach.</summary>
    public Charge[] CapacitorsIn(Reduced reduced) =>
        [.. _capacitors.Where(c => reduced.Tied[c.A] && reduced.Tied[c.B]).Select(c => c with { A = reduced.RowOf[c.A], B = reduced.RowOf[c.B] })];

    private Reduced Reduce(List<(int A, int B, double Siemens)> conductances)
    {
        var tied = Reach(conductances);
        var rowOf = new int[_nodes];
        var rows = 0;
        for (var n = 0; n < _nodes; n++) rowOf[n] = n == _common || !tied[n] ? -1 : rows++;
        return new(new(rows, [.. conductances.Where(c => tied[c.A]).Select(c => (rowOf[c.A], rowOf[c.B], c.Siemens))]), rowOf, tied, rows);
    }

    private bool[] Reach(List<(int A, int B, double Siemens)> links)
    {
        var near = links.Concat(links.Select(l => (A: l.B, B: l.A, l.Siemens))).ToLookup(l => l.A, l => l.B);
        var seen = new bool[_nodes];
        seen[_common] = true;
        var waiting = new Stack<int>([_common]);
        while (waiting.TryPop(out var at))
        {
            foreach (var next in near[at])
            {
                if (seen[next]) continue;
                seen[next] = true;
                waiting.Push(next);
            }
        }
        return seen;
    }
}

/// <summary>A capacitor between two joined nodes or rows.</summary>
internal readonly record struct Charge(int A, int B, double Farads, double SeriesOhms);

/// <summary>A reduced network. RowOf is −1 for the common node and for what is not tied to it; Tied tells the two apart.</summary>
internal sealed record Reduced(StarMesh Mesh, int[] RowOf, bool[] Tied, int Rows);

using System.Globalization;

namespace Lugbook.Circuit.Solving;

/// <summary>Collects what an analysis makes of the elements, joins nodes, and finds what floats.</summary>
internal sealed class AssemblyBuilder
{
    private readonly int[] _joined;
    private readonly string[] _names;
    private readonly List<(int Node, double Volts, string? By)> _given = [];
    private readonly List<(string Element, int A, int B, double Siemens)> _conductances = [];
    private readonly List<(string Element, int A, int B, double Amperes)> _drains = [];
    private readonly List<(string, int[], double[])> _diodes = [], _triodes = [], _pentodes = [], _converters = [];

    public AssemblyBuilder(Network network)
    {
        _joined = [.. Enumerable.Range(0, network.NodeCount)];
        _names = [.. network.NodeNames];
        _given.Add((network.Reference, 0, null));
    }

    public string[] NodeNames { get; private set; } = [];
    public int[] UnknownOf { get; private set; } = [];
    public int[] NodeOfUnknown { get; private set; } = [];
    public double[] GivenVolts { get; private set; } = [];
    public HashSet<int> Floating { get; } = [];
    /// <summary>Joined nodes that no resistance ties to a given voltage, though a device may.</summary>
    public HashSet<int> Untied { get; } = [];
    /// <summary>Network node to joined node.</summary>
    public int[] JoinedOf { get; private set; } = [];
    public IEnumerable<(string, int, int, double)> Conductances => _conductances.Select(c => (c.Element, JoinedOf[c.A], JoinedOf[c.B], c.Siemens)).Where(c => c.Item2 != c.Item3);
    public IEnumerable<(string, int, int, double)> Drains => _drains.Select(c => (c.Element, JoinedOf[c.A], JoinedOf[c.B], c.Amperes));
    public IEnumerable<(string, int[], double[])> Diodes => Mapped(_diodes);
    public IEnumerable<(string, int[], double[])> Triodes => Mapped(_triodes);
    public IEnumerable<(string, int[], double[])> Pentodes => Mapped(_pentodes);
    public IEnumerable<(string, int[], double[])> Converters => Mapped(_converters);

    /// <summary>A conductance, S; 0 leaves the two nodes apart but keeps the place for a variant.</summary>
    public void Conductance(string element, int a, int b, double siemens) => _conductances.Add((element, a, b, siemens));
    /// <summary>Less is a joint: across it the rounding of the volts alone would make nanoamperes.</summary>
    public const double LeastOhms = 1e-3;

    /// <summary>A resistance, Ω; below 1 mΩ it joins the nodes, infinity leaves them apart.</summary>
    public void Resistance(string element, int a, int b, double ohms)
    {
        if (ohms < LeastOhms) Join(a, b);
        else Conductance(element, a, b, 1 / ohms);
    }
    public void Drain(string element, int a, int b, double amperes) => _drains.Add((element, a, b, amperes));
    public void Given(string element, int node, double volts) => _given.Add((node, volts, element));
    public void Diode(string element, int[] nodes, double[] parameters) => _diodes.Add((element, nodes, parameters));
    public void Triode(string element, int[] nodes, double[] parameters) => _triodes.Add((element, nodes, parameters));
    public void Pentode(string element, int[] nodes, double[] parameters) => _pentodes.Add((element, nodes, parameters));
    public void Converter(string element, int[] nodes, double[] parameters) => _converters.Add((element, nodes, parameters));
    public void Join(int a, int b) => _joined[Root(b)] = Root(a);

    /// <summary>Finishes: joins, names, pins one node of every part that nothing ties to a given voltage.</summary>
    /// <exception cref="UnsolvableException">Two different voltages are given for one node.</exception>
    public Assembly Build()
    {
        var number = new Dictionary<int, int>();
        JoinedOf = new int[_joined.Length];
        for (var i = 0; i < _joined.Length; i++)
        {
            var root = Root(i);
            if (!number.TryGetValue(root, out var n)) number.Add(root, n = number.Count);
            JoinedOf[i] = n;
        }
        NodeNames = new string[number.Count];
        for (var i = _joined.Length - 1; i >= 0; i--) NodeNames[JoinedOf[i]] = _names[i];
        GivenVolts = new double[number.Count];
        var isGiven = new bool[number.Count];
        foreach (var (node, volts, by) in _given)
        {
            var n = JoinedOf[node];
            if (isGiven[n] && GivenVolts[n] != volts)
                throw new UnsolvableException(string.Create(CultureInfo.InvariantCulture, $"Node {NodeNames[n]} is given two different voltages: {GivenVolts[n]} V and {volts} V{(by is null ? "" : $" by '{by}'")}. Take one away, or what joins them."), NodeNames[n], by, double.NaN);
            isGiven[n] = true;
            GivenVolts[n] = volts;
        }
        PinFloating(isGiven);
        UnknownOf = new int[number.Count];
        var unknowns = new List<int>();
        for (var n = 0; n < number.Count; n++)
        {
            UnknownOf[n] = isGiven[n] ? -1 : unknowns.Count;
            if (!isGiven[n]) unknowns.Add(n);
        }
        NodeOfUnknown = [.. unknowns];
        return new Assembly(this);
    }

    private void PinFloating(bool[] isGiven)
    {
        var ohmic = Conductances.Where(c => c.Item4 >= Assembly.LeastTie).Select(c => (c.Item2, c.Item3)).ToArray();
        var weak = Conductances.Where(c => c.Item4 is > 0 and < Assembly.LeastTie).Select(c => (c.Item2, c.Item3));
        var devices = Diodes.Concat(Triodes).Concat(Pentodes).Concat(Converters).SelectMany(d => d.Item2.Skip(1).Select(n => (d.Item2[0], n)));
        var all = Near([.. ohmic, .. weak, .. devices], isGiven.Length);
        var seen = new bool[isGiven.Length];
        for (var n = 0; n < seen.Length; n++) if (isGiven[n]) Walk(all, seen, n);
        for (var n = 0; n < seen.Length; n++)
        {
            if (seen[n]) continue;
            isGiven[n] = true;
            Floating.Add(n);
            RefuseOneWay(Walk(all, seen, n));
        }
        var (tied, near) = (new bool[isGiven.Length], Near(ohmic, isGiven.Length));
        for (var n = 0; n < tied.Length; n++) if (isGiven[n]) Walk(near, tied, n);
        for (var n = 0; n < tied.Length; n++) if (!tied[n]) Untied.Add(n);
    }

    // What is pushed into a part that nothing ties to the rest has no way back; a pinned node would swallow it unseen.
    private void RefuseOneWay(List<int> part)
    {
        foreach (var (element, a, b, amperes) in Drains)
        {
            if (amperes == 0 || part.Contains(a) == part.Contains(b)) continue;
            var node = NodeNames[part.Contains(a) ? a : b];
            throw new UnsolvableException(
                string.Create(CultureInfo.InvariantCulture, $"'{element}' drives {Math.Abs(amperes):g3} A through node {node}, from where no current can return. Join that part of the circuit to the rest, or take '{element}' out."),
                node, element, Math.Abs(amperes));
        }
    }

    private static List<int>[] Near((int, int)[] links, int nodes)
    {
        var near = new List<int>[nodes];
        for (var n = 0; n < nodes; n++) near[n] = [];
        foreach (var (a, b) in links)
        {
            near[a].Add(b);
            near[b].Add(a);
        }
        return near;
    }

    private static List<int> Walk(List<int>[] near, bool[] seen, int from)
    {
        var waiting = new Stack<int>([from]);
        var found = new List<int> { from };
        seen[from] = true;
        while (waiting.TryPop(out var at))
        {
            foreach (var next in near[at])
            {
                if (seen[next]) continue;
                seen[next] = true;
                found.Add(next);
                waiting.Push(next);
            }
        }
        return found;
    }

    private IEnumerable<(string, int[], double[])> Mapped(List<(string Element, int[] Nodes, double[] Parameters)> devices) =>
        devices.Select(d => (d.Element, d.Nodes.Select(n => JoinedOf[n]).ToArray(), d.Parameters));

    private int Root(int node)
    {
        while (_joined[node] != node) node = _joined[node] = _joined[_joined[node]];
        return node;
    }
}

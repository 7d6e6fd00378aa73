namespace Lugbook.Circuit.Solving;

/// <summary>Collects what an analysis makes of the elements, joins nodes, and finds what floats.</summary>
internal sealed class AssemblyBuilder
{
    private readonly int[] _joined;
    private readonly string[] _names;
    private readonly Dictionary<int, double> _given = [];
    private readonly List<(string Element, int A, int B, double Siemens)> _conductances = [];
    private readonly List<(string Element, int A, int B, double Amperes)> _drains = [];
    private readonly List<(string, int[], double[])> _diodes = [], _triodes = [], _pentodes = [], _converters = [];

    public AssemblyBuilder(Network network)
    {
        _joined = [.. Enumerable.Range(0, network.NodeCount)];
        _names = [.. network.NodeNames];
        _given[network.Reference] = 0;
    }

    public string[] NodeNames { get; private set; } = [];
    public int[] UnknownOf { get; private set; } = [];
    public int[] NodeOfUnknown { get; private set; } = [];
    public double[] GivenVolts { get; private set; } = [];
    public HashSet<int> Floating { get; } = [];
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
    /// <summary>A resistance, Ω; 0 joins the nodes, infinity leaves them apart.</summary>
    public void Resistance(string element, int a, int b, double ohms)
    {
        if (ohms == 0) Join(a, b);
        else Conductance(element, a, b, 1 / ohms);
    }
    public void Drain(string element, int a, int b, double amperes) => _drains.Add((element, a, b, amperes));
    public void Given(int node, double volts) => _given[node] = volts;
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
        foreach (var (node, volts) in _given)
        {
            var n = JoinedOf[node];
            if (isGiven[n] && GivenVolts[n] != volts)
                throw new UnsolvableException($"Node {NodeNames[n]} is given two different voltages: {GivenVolts[n]} V and {volts} V.", NodeNames[n], null, double.NaN);
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
        var near = new List<int>[isGiven.Length];
        for (var n = 0; n < near.Length; n++) near[n] = [];
        foreach (var (_, a, b, siemens) in Conductances.Where(c => c.Item4 > 0))
        {
            near[a].Add(b);
            near[b].Add(a);
        }
        foreach (var (_, nodes, _) in Diodes.Concat(Triodes).Concat(Pentodes).Concat(Converters))
        {
            foreach (var n in nodes)
            {
                near[nodes[0]].Add(n);
                near[n].Add(nodes[0]);
            }
        }
        var seen = new bool[isGiven.Length];
        for (var n = 0; n < seen.Length; n++) if (isGiven[n]) Walk(n);
        for (var n = 0; n < seen.Length; n++)
        {
            if (seen[n]) continue;
            isGiven[n] = true;
            Floating.Add(n);
            Walk(n);
        }

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

    private IEnumerable<(string, int[], double[])> Mapped(List<(string Element, int[] Nodes, double[] Parameters)> devices) =>
        devices.Select(d => (d.Element, d.Nodes.Select(n => JoinedOf[n]).ToArray(), d.Parameters));

    private int Root(int node)
    {
        while (_joined[node] != node) node = _joined[node] = _joined[_joined[node]];
        return node;
    }
}

using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Linear;

namespace Lugbook.Circuit.Solving;

/// <summary>A network reduced to what a DC solution needs: conductances, currents, devices, and nodes of given voltage. Made once per question.</summary>
/// <remarks>
/// "Given" nodes (the reference, declared voltages, one node of each part that floats) are not unknowns. Nodes joined without resistance are one.
/// A batch shares all this and differs only in the numbers of <see cref="Numbers{T}"/>.
/// </remarks>
internal sealed class Assembly
{
    /// <summary>
    /// From a node that no resistance of 1 TΩ or less ties to a given voltage: 10 TΩ to 0 V. A grid or cathode that has lost its path for direct current has no other rest; below 10 kV that is below 1 nA.
    /// </summary>
    public const double InsulationSiemens = 1e-13;
    /// <summary>What conducts less ties nothing.</summary>
    public const double LeastTie = 1e-12;

    internal Assembly(AssemblyBuilder from)
    {
        NodeNames = from.NodeNames;
        UnknownOf = from.UnknownOf;
        NodeOfUnknown = from.NodeOfUnknown;
        GivenVolts = from.GivenVolts;
        Floating = from.Floating;
        Conductances = [.. from.Conductances];
        Drains = [.. from.Drains];
        Diodes = new([.. from.Diodes]);
        Triodes = new([.. from.Triodes]);
        Pentodes = new([.. from.Pentodes]);
        Converters = new([.. from.Converters]);
        var late = new bool[NodeOfUnknown.Length];
        foreach (var nodes in DeviceNodes())
            foreach (var n in nodes) if (UnknownOf[n] >= 0) late[UnknownOf[n]] = true;
        Pattern = Pattern.Of(NodeOfUnknown.Length, Couplings(), late);
        LateNodes = [.. Pattern.Order.Skip(Pattern.Early).Select(u => NodeOfUnknown[u])];
        Insulation = [.. NodeOfUnknown.Select(n => from.Untied.Contains(n) ? InsulationSiemens : 0)];
        ConductanceSlots = new int[4 * Conductances.Length];
        for (var k = 0; k < Conductances.Length; k++)
            Slots(ConductanceSlots.AsSpan(4 * k, 4), [Conductances[k].A, Conductances[k].B]);
        Diodes.Bind(this);
        Triodes.Bind(this);
        Pentodes.Bind(this);
        Converters.Bind(this);
    }

    /// <summary>Names of the joined nodes, for messages.</summary>
    public string[] NodeNames { get; }
    /// <summary>Unknown's number of a joined node; −1 when its voltage is given.</summary>
    public int[] UnknownOf { get; }
    /// <summary>Joined node of an unknown.</summary>
    public int[] NodeOfUnknown { get; }
    /// <summary>Voltage of each joined node that is given, V; 0 elsewhere.</summary>
    public double[] GivenVolts { get; }
    /// <summary>Joined nodes pinned to 0 V only because nothing ties their part of the network to the reference.</summary>
    public HashSet<int> Floating { get; }
    public (string Element, int A, int B, double Siemens)[] Conductances { get; }
    public (string Element, int A, int B, double Amperes)[] Drains { get; }
    public Bank<DiodeDevice> Diodes { get; }
    public Bank<TriodeDevice> Triodes { get; }
    public Bank<PentodeDevice> Pentodes { get; }
    public Bank<ConverterDevice> Converters { get; }
    /// <summary>Early rows: nodes with nothing but resistances. Late rows: nodes of devices, and the rails between them.</summary>
    public Pattern Pattern { get; }
    /// <summary>Joined nodes of the late rows.</summary>
    public int[] LateNodes { get; }
    /// <summary>Conductance from each unknown's node to 0 V, S; 0 where resistances tie the node.</summary>
    public double[] Insulation { get; }
    /// <summary>Four matrix slots a conductance: aa, ab, ba, bb; −1 where a node is given.</summary>
    public int[] ConductanceSlots { get; }

    /// <summary>Fills in the matrix slots of all pairs of these nodes.</summary>
    public void Slots(Span<int> slots, ReadOnlySpan<int> nodes)
    {
        for (var r = 0; r < nodes.Length; r++)
        {
            for (var c = 0; c < nodes.Length; c++)
            {
                var (row, column) = (UnknownOf[nodes[r]], UnknownOf[nodes[c]]);
                slots[r * nodes.Length + c] = row < 0 || column < 0 ? -1 : Pattern.Slot(row, column);
            }
        }
    }

    private IEnumerable<int[]> DeviceNodes() =>
        Diodes.Devices.Select(d => d.Nodes).Concat(Triodes.Devices.Select(d => d.Nodes)).Concat(Pentodes.Devices.Select(d => d.Nodes)).Concat(Converters.Devices.Select(d => d.Nodes));

    private IEnumerable<(int, int)> Couplings()
    {
        foreach (var nodes in Conductances.Select(c => new[] { c.A, c.B }).Concat(DeviceNodes()))
        {
            foreach (var a in nodes)
            {
                foreach (var b in nodes)
                {
                    var (row, column) = (UnknownOf[a], UnknownOf[b]);
                    if (row >= 0 && column >= 0 && row != column) yield return (row, column);
                }
            }
        }
    }
}

/// <summary>All devices of one sort in a network.</summary>
internal sealed class Bank<TDevice>((string Element, int[] Nodes, double[] Parameters)[] devices) where TDevice : IDevice
{
    public (string Element, int[] Nodes, double[] Parameters)[] Devices { get; } = devices;
    /// <summary>Terminals² matrix slots a device.</summary>
    public int[] Slots { get; } = new int[devices.Length * TDevice.Terminals * TDevice.Terminals];

    public void Bind(Assembly assembly)
    {
        var n = TDevice.Terminals * TDevice.Terminals;
        for (var k = 0; k < Devices.Length; k++) assembly.Slots(Slots.AsSpan(k * n, n), Devices[k].Nodes);
    }
}

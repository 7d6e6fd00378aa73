using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Netlist;

/// <summary>The book's declared voltages, by node.</summary>
internal sealed class DeclaredNodes
{
    private const double Share = 0.1;
    private readonly SortedDictionary<int, (double Volts, string Lug)> _volts = [];
    private readonly HashSet<int> _taken = [];

    public DeclaredNodes(NetBuilder net)
    {
        foreach (var d in net.Map.Book.Declared)
        {
            if (net.Node(d.Name) is not { } node) net.Unknown(d.Name, $"The voltage declared at {d.Name} is on no known lug, so it is not used.");
            else if (node == net.Map.Common.Node?.Index)
            {
                if (d.Volts != 0) net.Unknown(d.Name, string.Create(CultureInfo.InvariantCulture, $"{d.Name} is on common, which is 0 V by definition: the {d.Volts:0.#} V declared there are not used."));
            }
            else if (!_volts.TryAdd(node, (d.Volts, d.Name))) net.Unknown(d.Name, $"{d.Name} is on the same node as {_volts[node].Lug}, whose declared voltage is used.");
        }
    }

    public bool IsDeclared(int node) => _volts.ContainsKey(node);

    /// <summary>Takes a voltage for a purpose of its own: the node is then not held at it.</summary>
    public double? Take(int node)
    {
        if (!_volts.TryGetValue(node, out var d)) return null;
        _taken.Add(node);
        return d.Volts;
    }

    /// <summary>Holds what is left at its volts; a boosted supply is lifted from where its current comes from.</summary>
    public void Add(NetBuilder net)
    {
        foreach (var (node, (volts, lug)) in _volts.Where(v => !_taken.Contains(v.Key)))
        {
            if (Damper(net, node) is { } damper)
            {
                var boost = net.Add(new Battery($"{lug} boost", node, damper.Anode, 0, 1), lug, "boosted by the damper");
                net.Balances.Add(new(boost, BalanceKind.Boost, [node], volts));
                net.Spreads.Add(new(boost, Parameter.Volts, volts, volts, volts, SpreadCause.Declared));
                continue;
            }
            var name = net.Add(new Declared($"{lug} declared", node, volts), lug, "declared");
            net.Spreads.Add(new(name, Parameter.Volts, volts, Math.Min(volts * (1 - Share), volts * (1 + Share)), Math.Max(volts * (1 - Share), volts * (1 + Share)), SpreadCause.Declared));
        }
    }

    /// <summary>The damper whose cathode reaches the node through windings alone; it feeds what the node delivers.</summary>
    private static Diode? Damper(NetBuilder net, int node)
    {
        var dampers = net.Valves.Select(v => net.Elements.OfType<Diode>().FirstOrDefault(d => d.Name == v.Element && IsDamper(net, v.Valve))).OfType<Diode>().ToArray();
        if (dampers.Length == 0) return null;
        var seen = new HashSet<int> { node };
        var queue = new Queue<int>([node]);
        while (queue.TryDequeue(out var at))
        {
            if (dampers.FirstOrDefault(d => d.Cathode == at) is { } found) return found;
            foreach (var l in net.Elements.OfType<Inductor>())
            {
                if (l.A == at && seen.Add(l.B)) queue.Enqueue(l.B);
                if (l.B == at && seen.Add(l.A)) queue.Enqueue(l.A);
            }
        }
        return null;
    }

    private static bool IsDamper(NetBuilder net, string valve) => ValvePins.Of(net.Map.Book, net.Handbook).Any(v => v.Part.Name == valve && v.Type?.Class == "damper");
}

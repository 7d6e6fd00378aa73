using Lugbook.Circuit;
using Lugbook.Circuit.Valves;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Netlist;

/// <summary>Turns a book into a network: the one place where the trade's words become elements.</summary>
public static class NetlistStage
{
    /// <summary>Pure: the same map and valve data, the same network. Never throws on what a book may hold; what is not known is named.</summary>
    public static NetlistResult Run(MapResult map, ValveHandbook handbook, ValveLibrary library)
    {
        var net = new NetBuilder(map, handbook);
        string? reason = null;
        if (map.Common.Node is null) reason = $"Nothing can be solved before it is known which node is common. {map.Common.Evidence}";
        else
        {
            var declared = new DeclaredNodes(net);
            var (volts, hertz) = LineElement.Add(net);
            foreach (var part in map.Book.Parts) PartElements.Add(net, part);
            WindingElements.Add(net, volts, hertz);
            foreach (var valve in ValvePins.Of(map.Book, handbook)) ValveElements.Add(net, valve, library, declared);
            declared.Add(net);
        }
        return new()
        {
            Map = map,
            Network = reason is null ? new Network(net.Nodes, map.Common.Node!.Index, net.Elements) : null,
            Reason = reason,
            Origins = [.. net.Origins],
            Spreads = [.. net.Spreads],
            Unknowns = [.. net.Unknowns],
            Valves = [.. net.Valves],
            Heaters = net.Heaters.ToImmutable(),
            WarmOnly = [.. net.WarmOnly],
            Balances = [.. net.Balances],
        };
    }
}

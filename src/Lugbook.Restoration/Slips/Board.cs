using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Sheet;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Slips;

/// <summary>The chassis at one moment of the work: what is exchanged has its new value and tolerance, all else is old and uncertain.</summary>
internal sealed class Board
{
    private readonly Dictionary<string, Range> _ranges;
    private readonly Dictionary<string, Range> _old;

    private Board(NetlistResult netlist, Network cold, Dictionary<string, Range> ranges, Dictionary<string, Range> old) => (Netlist, Cold, _ranges, _old) = (netlist, cold, ranges, old);

    /// <summary>Ends the name of an old part that stayed beside its successor.</summary>
    public const string OldMark = " (old one)";

    /// <summary>Name of the element that is a dangerous short: anything from none to its resistance.</summary>
    public const string ShortName = "short";

    /// <summary>The netlist with the values of that moment.</summary>
    public NetlistResult Netlist { get; }
    /// <summary>The same, unplugged and switched off.</summary>
    public Network Cold { get; }

    /// <summary>How far an element may be off.</summary>
    public Range Of(string element) =>
        element.EndsWith(OldMark, StringComparison.Ordinal) ? OldOf(element[..^OldMark.Length])
        : element == ShortName ? new(0, 1, 1, 1, double.PositiveInfinity, double.PositiveInfinity)
        : _ranges.GetValueOrDefault(element, new(1, 1, 1, 1, double.PositiveInfinity, double.PositiveInfinity));

    /// <summary>How far it may be off while the old part is in.</summary>
    public Range OldOf(string element) => _old.GetValueOrDefault(element, new(1, 1, 1, 1, double.PositiveInfinity, double.PositiveInfinity));

    /// <summary>The chassis as found.</summary>
    public static Board Found(NetlistResult netlist)
    {
        var parts = netlist.Map.Book.Parts;
        var partOf = netlist.Origins.GroupBy(o => o.Element, StringComparer.Ordinal).ToDictionary(g => g.Key, g => parts.Named(g.First().Position), StringComparer.Ordinal);
        var spreads = netlist.Spreads.ToLookup(s => s.Element, StringComparer.Ordinal);
        var ranges = netlist.Network!.Elements.ToDictionary(e => e.Name, e => Range.Old(e, partOf.GetValueOrDefault(e.Name), netlist, spreads), StringComparer.Ordinal);
        return new(netlist, ColdSet.Of(netlist), ranges, ranges);
    }

    /// <summary>The same once these are exchanged.</summary>
    public Board After(IEnumerable<Exchange> exchanged)
    {
        var instead = new Dictionary<string, Element>(StringComparer.Ordinal);
        var ranges = new Dictionary<string, Range>(_ranges, StringComparer.Ordinal);
        var byName = Netlist.Network!.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        foreach (var exchange in exchanged)
        {
            if (Netlist.Map.Book.Parts.Named(exchange.Position) is not { } part || part.Kind != PartKind.Resistor && !part.Kind.IsCapacitor()) continue;
            foreach (var name in Netlist.ElementsOf(exchange.Position))
            {
                if (!byName.TryGetValue(name, out var element) || Leads.ValueOf(element) is not { } old) continue;
                instead[name] = Leads.Valued(element, exchange.Value ?? old)!;
                ranges[name] = Range.New(part, exchange, exchange.Value ?? old);
            }
        }
        var netlist = Netlist with { Network = new(Netlist.Network.NodeNames, Netlist.Network.Reference, Netlist.Network.Elements.Select(e => instead.GetValueOrDefault(e.Name) ?? e)) };
        return new(netlist, ColdSet.Of(netlist), ranges, _old);
    }
}

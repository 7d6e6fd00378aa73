using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Slips;

/// <summary>Every slip that exchanging a part can make. It knows of no order of work and of no decision.</summary>
internal sealed class SlipFinder
{
    /// <summary>Name of the element that is a bridge.</summary>
    public const string Bridge = "slip: bridge";
    // So many other parts at hand are tried as mistaken for one, nearest value first.
    private const int MostMistaken = 6;

    private readonly NetlistResult _netlist;
    private readonly MapResult _map;
    private readonly Reach _reach;
    private readonly Dictionary<string, Element> _elements;
    private readonly ILookup<string, string> _elementsOf;
    private readonly ILookup<string, Wire> _wires;
    private readonly int _new;

    public SlipFinder(NetlistResult netlist, Reach? reach = null)
    {
        _netlist = netlist;
        _map = netlist.Map;
        _reach = reach ?? new(_map.Book);
        _elements = netlist.Network!.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        _elementsOf = netlist.Origins.ToLookup(o => o.Position, o => o.Element, StringComparer.OrdinalIgnoreCase);
        _wires = _map.Book.Wires.Where(w => w.Kind != WireKind.Bond).SelectMany(w => new[] { (Lug: w.From, Wire: w), (Lug: w.To, Wire: w) }).ToLookup(w => w.Lug.Trim(), w => w.Wire, StringComparer.OrdinalIgnoreCase);
        _new = netlist.Network.NodeCount;
    }

    /// <summary>Slips of one part: leads in order, then lugs, then the part as a whole.</summary>
    public IEnumerable<Slip> Of(Part part, IEnumerable<PartAtHand> atHand)
    {
        var leads = part.Leads.Where(l => _map.NodeOf(l.Lug) is not null).ToArray();
        if (part.Kind == PartKind.Valve || leads.Length == 0) return [];
        return
        [
            .. leads.SelectMany(l => OfLead(part, l)),
            .. leads.Select(l => l.Lug).Distinct(StringComparer.OrdinalIgnoreCase).SelectMany(l => _reach.Of(l).Where(n => Apart(l, n)).Select(n => Bridged(part, l, n))).DistinctBy(s => s.Id),
            .. Whole(part, leads, [.. atHand]),
        ];
    }

    private IEnumerable<Slip> OfLead(Part part, Lead lead)
    {
        var at = Node(lead.Lug);
        var name = $"lead {lead.Letter} of {part.Name}";
        yield return new()
        {
            Id = $"{part.Name}.{lead.Letter} off", Kind = SlipKind.Missed, Position = part.Name, Lugs = [lead.Lug],
            Sentence = $"{name} not soldered at {lead.Lug}",
            LookAt = $"{name} at {lead.Lug}: solder wets lead and lug all round, and nothing moves when it is pulled with a pick",
            Change = Moved(part, lead, at, _new) is { } loose ? new() { Instead = loose, NewNodes = [$"{part.Name}.{lead.Letter} loose"] } : null,
        };
        foreach (var near in _reach.Of(lead.Lug).Where(n => Apart(lead.Lug, n)))
        {
            yield return new()
            {
                Id = $"{part.Name}.{lead.Letter}>{near}", Kind = SlipKind.NeighbouringLug, Position = part.Name, Lugs = [lead.Lug, near],
                Sentence = $"{name} on {near} instead of {lead.Lug}",
                LookAt = $"follow {name} with the eye: it ends on {lead.Lug} and not on {near}",
                Change = Moved(part, lead, at, Node(near)) is { } moved ? new() { Instead = moved } : null,
            };
        }
        foreach (var wire in _wires[lead.Lug].DistinctBy(w => w.Id))
        {
            if (Off(part, wire, lead.Lug) is { } off) yield return off;
            foreach (var near in _reach.Of(lead.Lug).Where(n => Apart(lead.Lug, n)))
            {
                yield return new()
                {
                    Id = $"{part.Name}.{lead.Letter}+{wire.Name}>{near}", Kind = SlipKind.WireDisplaced, Position = part.Name, Lugs = [lead.Lug, near],
                    Sentence = $"{name} and wire {wire.Name} on {near} instead of {lead.Lug}",
                    LookAt = $"wire {wire.Name} and {name} are on {lead.Lug}, neither of them on {near}",
                    Change = Displaced(part, lead, wire, at, Node(near)),
                };
            }
        }
    }

    /// <summary>A wire that came off; null where other wires still join what it joined.</summary>
    private Slip? Off(Part part, Wire wire, string lug)
    {
        var split = WireSplit.Of(_netlist, wire, lug, _new);
        return split is { Splits: false } ? null : new()
        {
            Id = $"{wire.Name} off {lug}", Kind = SlipKind.WireOff, Position = part.Name, Lugs = [lug],
            Sentence = $"wire {wire.Name} off {lug}",
            LookAt = $"wire {wire.Name} is still on {lug} and does not move when it is pulled",
            Change = split is null ? null : new() { Instead = split.Moved, NewNodes = [$"{wire.Name} loose"], Lugs = On(split.Lugs, _new) },
        };
    }

    private SlipChange? Displaced(Part part, Lead lead, Wire wire, int at, int to)
    {
        if (WireSplit.Of(_netlist, wire, lead.Lug, to) is not { } split) return null;
        if (!split.Splits) return Moved(part, lead, at, to) is { } one ? new() { Instead = one, Further = [Join(at, to)] } : null;
        if (!split.HasLug) return Moved(part, lead, at, to, split.Moved) is { } both ? new() { Instead = both, Lugs = On(split.Lugs, to) } : null;
        // The lug's side is the one that goes over; the lead stays with the wire, whose node the neighbour joins.
        split = WireSplit.Of(_netlist, wire, lead.Lug, _new)!;
        return Moved(part, lead, _new, at, split.Moved) is { } back
            ? new() { Instead = [.. back.Where(e => e != _elements[e.Name])], Further = [Join(at, to)], NewNodes = [$"{lead.Lug} alone"], Lugs = On(split.Lugs, _new) } : null;
    }

    private Slip Bridged(Part part, string lug, string near)
    {
        var (first, second) = NaturalOrder.Names.Compare(lug, near) <= 0 ? (lug, near) : (near, lug);
        return new()
        {
            Id = $"{first}={second}", Kind = SlipKind.Bridge, Position = part.Name, Lugs = [first, second],
            Sentence = $"{first} and {second} bridged by solder or a clipping",
            LookAt = $"between {first} and {second} there is light: no solder, no whisker, no clipping",
            Change = new() { Further = [Join(Node(first), Node(second))] },
        };
    }

    private IEnumerable<Slip> Whole(Part part, Lead[] leads, PartAtHand[] atHand)
    {
        var mine = Elements(part);
        if (mine.Length == 0) yield break;
        if (mine.Select(e => Leads.Turned(e, part)).OfType<Element>().ToImmutableArray() is { Length: > 0 } turned)
        {
            yield return Of(SlipKind.Reversed, $"{part.Name} turned", part.Kind == PartKind.Control ? $"the two ends of {part.Name} exchanged" : $"{part.Name} the wrong way round",
                part.PlusLug is { } plus ? $"the {(part.Kind.IsRectifier() ? "cathode" : "plus")} of {part.Name} is on {plus}" : $"{part.Name}: each lead where the book has it", turned);
        }
        if (leads.Length > 1 && Emptied(part, leads) is { } empty) yield return Of(SlipKind.Empty, $"{part.Name} empty", $"no part at {part.Name}", $"a new part sits at {part.Name}", empty) with { Change = new() { Instead = empty, NewNodes = [.. leads.Select(l => $"{part.Name}.{l.Letter} loose")] } };
        if (mine is not [var only] || part.Kind is not PartKind.Resistor && !part.Kind.IsCapacitor() || Leads.ValueOf(only) is not { } value) yield break;
        foreach (var (id, times, words) in new[] { ("x10", 10.0, "ten times"), ("/10", 0.1, "a tenth of") })
            yield return Of(SlipKind.WrongValue, $"{part.Name} {id}", $"{Say(only, value * times)} at {part.Name}, {words} its value", Read(part, only, value), [Leads.Valued(only, value * times)!]);
        foreach (var other in Mistaken(part, value, atHand))
            yield return Of(SlipKind.WrongValue, $"{part.Name} as {other.Position}", $"{Say(only, other.Value)} meant for {other.Position} at {part.Name}", Read(part, only, value), [Leads.Valued(only, other.Value)!]);

        Slip Of(SlipKind kind, string id, string sentence, string look, ImmutableArray<Element> instead) =>
            new() { Id = id, Kind = kind, Position = part.Name, Lugs = [.. leads.Select(l => l.Lug)], Sentence = sentence, LookAt = look, Change = new() { Instead = instead } };
    }

    private static string Read(Part part, Element element, double value) => $"the value printed on {part.Name}: {Say(element, value)}";

    /// <summary>Parts at hand of the same sort and another value, nearest first.</summary>
    private IEnumerable<PartAtHand> Mistaken(Part part, double value, PartAtHand[] atHand)
    {
        static int Sort(PartKind kind) => kind == PartKind.Electrolytic ? 2 : kind.IsCapacitor() ? 1 : kind == PartKind.Resistor ? 0 : -1;
        double Off(double other) => Math.Abs(Math.Log(other / value));
        return atHand.Where(o => o.Value > 0 && !string.Equals(o.Position, part.Name, StringComparison.OrdinalIgnoreCase) && _map.Book.Parts.Named(o.Position) is { } p && Sort(p.Kind) == Sort(part.Kind))
            .Where(o => Off(o.Value) > 1e-3 && Math.Abs(Off(o.Value) - Math.Log(10)) > 1e-3)
            .GroupBy(o => o.Value).Select(g => g.OrderBy(o => o.Position, NaturalOrder.Names).First())
            .OrderBy(o => Off(o.Value)).ThenBy(o => o.Value).Take(MostMistaken);
    }

    private Element[] Elements(Part part) => [.. _elementsOf[part.Name].Distinct().Select(n => _elements.GetValueOrDefault(n)).OfType<Element>()];

    /// <summary>The part's elements with a lead elsewhere, on top of what has moved already; null when the network has no terminal for it.</summary>
    private ImmutableArray<Element>? Moved(Part part, Lead lead, int at, int to, ImmutableArray<Element>? before = null)
    {
        var moved = (before ?? []).ToDictionary(e => e.Name, StringComparer.Ordinal);
        var found = false;
        var far = part.Leads.Where(l => l.Letter != lead.Letter).Select(l => (int?)_map.NodeOf(l.Lug)?.Index).FirstOrDefault();
        foreach (var element in Elements(part))
        {
            if (Leads.Move(moved.GetValueOrDefault(element.Name) ?? element, lead.Letter, at, far, to) is not { } placed) continue;
            moved[element.Name] = placed;
            found = true;
        }
        return found ? [.. moved.Values.OrderBy(e => e.Name, StringComparer.Ordinal)] : null;
    }

    private ImmutableArray<Element>? Emptied(Part part, Lead[] leads)
    {
        ImmutableArray<Element>? moved = [];
        for (var i = 0; i < leads.Length && moved is not null; i++) moved = Part(leads[i], _new + i, moved);
        return moved;

        ImmutableArray<Element>? Part(Lead lead, int to, ImmutableArray<Element>? before)
        {
            // A winding that has one end loose is told by that end.
            var done = (before ?? []).ToDictionary(e => e.Name, StringComparer.Ordinal);
            var far = lead.Letter == leads[0].Letter ? leads.Length > 1 ? (int?)Node(leads[1].Lug) : null : _new;
            var found = false;
            foreach (var element in Elements(part))
                if (Leads.Move(done.GetValueOrDefault(element.Name) ?? element, lead.Letter, Node(lead.Lug), far, to) is { } placed) (done[element.Name], found) = (placed, true);
            return found ? [.. done.Values.OrderBy(e => e.Name, StringComparer.Ordinal)] : null;
        }
    }

    private static Resistor Join(int a, int b) => new(Bridge, a, b, 0);
    private static string Say(Element element, double value) => element is Resistor ? Judge.Say.Ohms(value) : Judge.Say.Farads(value);
    private int Node(string lug) => _map.NodeOf(lug)!.Index;
    private bool Apart(string a, string b) => _map.NodeOf(a) is { } x && _map.NodeOf(b) is { } y && x.Index != y.Index;
    private static ImmutableDictionary<string, int> On(ImmutableArray<string> lugs, int node) => SlipChange.None.Lugs.AddRange(lugs.Select(l => KeyValuePair.Create(l, node)));
}

using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Slips;

/// <summary>A node that falls in two when a wire's end leaves a lug.</summary>
/// <param name="Splits">False: other wires still join the wire to the lug, so nothing falls apart.</param>
/// <param name="HasLug">Does the part that goes over to a new node hold the lug that the wire left? Else it holds the wire's far end.</param>
/// <param name="Moved">The elements that go over, on the new node.</param>
/// <param name="Lugs">The lugs that go over.</param>
internal sealed record WireSplit(bool Splits, bool HasLug, ImmutableArray<Element> Moved, ImmutableArray<string> Lugs)
{
    /// <summary>What falls off when a wire's end leaves a lug; null where the book does not tell.</summary>
    /// <param name="netlist">The netlist.</param>
    /// <param name="wire">The wire.</param>
    /// <param name="lug">The end that leaves.</param>
    /// <param name="node">Where to put what goes over.</param>
    public static WireSplit? Of(NetlistResult netlist, Wire wire, string lug, int node)
    {
        var map = netlist.Map;
        var far = Same(wire.From, lug) ? wire.To : wire.From;
        var side = Side(map.Book, wire, far);
        if (side.Contains(lug)) return new(false, false, [], []);
        var here = map.NodeOf(lug)!;
        var whole = here.Lugs.ToHashSet(StringComparer.OrdinalIgnoreCase);
        // Common stays where it is; else the smaller half goes over.
        var common = here.Index == netlist.Network?.Reference ? map.Book.Lugs.FirstOrDefault(l => whole.Contains(l.Name) && map.Book.Mounts.Named(l.Mount)?.Kind is MountKind.Chassis or MountKind.Can)?.Name ?? here.Lugs[0] : null;
        var hasLug = common is not null ? side.Contains(common) : side.Count > whole.Count - side.Count;
        HashSet<string> over = hasLug ? [.. whole.Except(side, StringComparer.OrdinalIgnoreCase)] : [.. side];
        over = new(over, StringComparer.OrdinalIgnoreCase);
        return Elements(netlist, here, over, node) is { } moved ? new(true, hasLug, moved, [.. over.Order(NaturalOrder.Names)]) : null;
    }

    /// <summary>All that hangs on a wire's far end once it has left.</summary>
    private static HashSet<string> Side(Book book, Wire without, string from)
    {
        var metal = book.Lugs.Where(l => book.Mounts.Named(l.Mount)?.Kind == MountKind.Chassis).Select(l => l.Name).ToArray();
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase) { from };
        var queue = new Queue<string>([from]);
        while (queue.TryDequeue(out var at))
        {
            foreach (var wire in book.Wires)
            {
                if (wire.Id == without.Id) continue;
                if (Same(wire.From, at) && seen.Add(wire.To)) queue.Enqueue(wire.To);
                if (Same(wire.To, at) && seen.Add(wire.From)) queue.Enqueue(wire.From);
            }
            if (metal.Contains(at, StringComparer.OrdinalIgnoreCase)) foreach (var other in metal) if (seen.Add(other)) queue.Enqueue(other);
        }
        return seen;
    }

    private static ImmutableArray<Element>? Elements(NetlistResult netlist, Node here, HashSet<string> over, int node)
    {
        var byName = netlist.Network!.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        var moved = new Dictionary<string, Element>(StringComparer.Ordinal);
        foreach (var lead in here.Leads.Where(l => over.Contains(l.Lug)))
        {
            var ends = lead.Part.Leads.Where(l => l.Letter != lead.Letter).Select(l => netlist.Map.NodeOf(l.Lug)?.Index).ToArray();
            foreach (var name in netlist.ElementsOf(lead.Part.Name).Distinct())
                if (byName.TryGetValue(name, out var element) && Leads.Move(moved.GetValueOrDefault(name) ?? element, lead.Letter, here.Index, ends.FirstOrDefault(), node) is { } placed) moved[name] = placed;
        }
        foreach (var valve in here.Pins.GroupBy(p => p.Valve.Id))
        {
            foreach (var heater in new[] { true, false })
            {
                var pins = valve.Where(p => (p.Has(ElectrodeKind.Heater) || p.Has(ElectrodeKind.HeaterTap)) == heater).ToArray();
                var going = pins.Count(p => over.Contains(p.Lug));
                if (going == 0) continue;
                var mine = netlist.ElementsOf(valve.First().Valve.Name).Distinct().Select(n => byName.GetValueOrDefault(n)).OfType<Element>().Where(e => e is Filament == heater || e is Filament && pins.Any(p => p.Has(ElectrodeKind.Filament))).ToArray();
                if (mine.Length == 0) continue;
                // Which of several pins on one node an electrode of the network comes from is not kept.
                if (going < pins.Length) return null;
                foreach (var element in mine) if (OfValve(element, here.Index, node) is { } placed) moved[element.Name] = placed;
            }
        }
        foreach (var source in netlist.Network.Elements)
        {
            if (source is Mains m && over.Any(l => netlist.Map.Book.Mounts.Named(netlist.Map.Book.Lugs.Named(l)?.Mount)?.Kind == MountKind.LineCord))
                moved[m.Name] = m with { A = m.A == here.Index ? node : m.A, B = m.B == here.Index ? node : m.B };
            if (source is Declared d && d.Node == here.Index && over.Any(l => d.Name.StartsWith($"{l} ", StringComparison.OrdinalIgnoreCase))) moved[d.Name] = d with { Node = node };
        }
        return [.. moved.Values.OrderBy(e => e.Name, StringComparer.Ordinal)];
    }

    private static Element? OfValve(Element element, int at, int to)
    {
        int Go(int n) => n == at ? to : n;
        return element switch
        {
            Triode e => e with { Plate = Go(e.Plate), Grid = Go(e.Grid), Cathode = Go(e.Cathode) },
            Pentode e => e with { Plate = Go(e.Plate), Screen = Go(e.Screen), Grid = Go(e.Grid), Cathode = Go(e.Cathode) },
            Converter e => e with { Plate = Go(e.Plate), Screen = Go(e.Screen), Signal = Go(e.Signal), Oscillator = Go(e.Oscillator), Cathode = Go(e.Cathode) },
            Diode e => e with { Anode = Go(e.Anode), Cathode = Go(e.Cathode) },
            GasRegulator e => e with { Anode = Go(e.Anode), Cathode = Go(e.Cathode) },
            Filament e => e with { A = Go(e.A), B = Go(e.B) },
            Resistor e => e with { A = Go(e.A), B = Go(e.B) },
            CurrentDrain e => e with { A = Go(e.A), B = Go(e.B) },
            _ => null,
        };
    }

    private static bool Same(string a, string b) => string.Equals(a.Trim(), b.Trim(), StringComparison.OrdinalIgnoreCase);
}

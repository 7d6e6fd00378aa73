using Lugbook.Circuit;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Tests.Unseen;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Tests.Slips;

/// <summary>
/// The law of slips: the network of a slip reads, between any two lugs, what the network of a book reads in which somebody made that mistake by hand. The second way goes through map and netlist anew and knows nothing of slips.
/// </summary>
public class SlipLawTests
{
    private static Book Of(string name) => name is "radio" or "amp" or "tv" ? DemoBooks.Named(name) : UnseenBooks.Named(name);

    // Every so many slips, so that each kind and each book has its share within seconds.
    [Theory]
    [InlineData("radio", 3)]
    [InlineData("amp", 5)]
    [InlineData("tv", 111)]
    [InlineData("superhet", 7)]
    [InlineData("hifi", 11)]
    public void A_slips_network_reads_as_the_book_reads_in_which_the_mistake_was_made(string name, int every)
    {
        var book = Of(name);
        var netlist = Solved.Netlist(book);
        var touched = book.Parts.Where(p => p.Kind.IsCapacitor() || p.Kind is PartKind.Resistor or PartKind.Control).Select(p => p.Name);
        var slips = SlipsStage.Of(netlist, touched);
        Assert.True(slips.Length > 100);
        var kinds = new HashSet<SlipKind>();
        var (compared, differs) = (0, 0);
        foreach (var slip in slips.Where((s, i) => i % every == 0 && s.Change is not null))
        {
            if (MadeByHand(book, slip) is not { } wrong) continue;
            var byHand = Solved.Netlist(wrong);
            if (byHand.Network is null || byHand.Map.Common.Node is null) continue;
            var network = slip.Change!.Of(netlist.Network!);
            kinds.Add(slip.Kind);
            var (ours, theirs) = (ColdSet.Of(netlist with { Network = network }), ColdSet.Of(byHand));
            string[] lugs = [.. slip.Lugs, .. Others(book, slip)];
            for (var i = 0; i < lugs.Length; i++)
                for (var j = 0; j < i; j++)
                {
                    int At(string lug) => slip.Change.Lugs.TryGetValue(lug, out var moved) ? moved : netlist.Map.NodeOf(lug)!.Index;
                    var (a, b) = (Between(ours, At(lugs[i]), At(lugs[j])), Between(theirs, byHand.Map.NodeOf(lugs[i])!.Index, byHand.Map.NodeOf(lugs[j])!.Index));
                    Assert.True(Same(a.Ohms, b.Ohms, 1e-6), $"{name}, {slip.Id}, ohms {lugs[i]} to {lugs[j]}: {a.Ohms} by the slip, {b.Ohms} by the book.");
                    Assert.True(Same(a.Farads, b.Farads, 1e-4), $"{name}, {slip.Id}, farads {lugs[i]} to {lugs[j]}: {a.Farads} by the slip, {b.Farads} by the book.");
                    compared++;
                    var healthy = ColdSet.Of(netlist);
                    if (!Same(a.Ohms, Between(healthy, netlist.Map.NodeOf(lugs[i])!.Index, netlist.Map.NodeOf(lugs[j])!.Index).Ohms, 1e-3)) differs++;
                }
        }
        Assert.True(compared > 100 && differs > 20, $"{compared} compared, {differs} differ from the healthy set");
        Assert.Superset(new HashSet<SlipKind> { SlipKind.NeighbouringLug, SlipKind.Missed, SlipKind.Bridge, SlipKind.WrongValue }, kinds);
    }

    private static (double Ohms, double Farads) Between(Network cold, int a, int b) => Ohms.Between(cold, a, b).Ohms is var ohms and > 0 ? (ohms, Impedance.Between(cold, a, b, 1000).ParallelFarads) : (0, 0);
    private static bool Same(double a, double b, double share) => a == b || Math.Abs(a - b) <= share * Math.Max(Math.Abs(a), Math.Abs(b)) + 1e-15 || double.IsNaN(a) && double.IsNaN(b) || a > 1e13 && b > 1e13;

    private static IEnumerable<string> Others(Book book, Slip slip)
    {
        var part = book.Parts.Named(slip.Position)!;
        var own = part.Leads.Select(l => l.Lug).Where(l => !slip.Lugs.Contains(l, StringComparer.OrdinalIgnoreCase));
        var far = book.Wires.Where(w => slip.Lugs.Contains(w.From, StringComparer.OrdinalIgnoreCase)).Select(w => w.To).Concat(book.Wires.Where(w => slip.Lugs.Contains(w.To, StringComparer.OrdinalIgnoreCase)).Select(w => w.From));
        return own.Concat(far).Where(l => book.Lugs.Named(l) is not null && !slip.Lugs.Contains(l, StringComparer.OrdinalIgnoreCase)).Distinct(StringComparer.OrdinalIgnoreCase).Take(4);
    }

    /// <summary>The book with the mistake in it, read from the slip's identity alone.</summary>
    private static Book? MadeByHand(Book book, Slip slip)
    {
        var part = book.Parts.Named(slip.Position)!;
        Book With(Part changed) => book with { Parts = book.Parts.Replace(changed) };
        Book Loose(Book b, string lug) => b with { Mounts = b.Mounts.Add(new() { Name = $"AIR{lug}", KindAsWritten = "tag strip" }), Lugs = b.Lugs.Add(new() { Name = $"AIR-{lug}", Mount = $"AIR{lug}" }) };
        Part Lead(Part p, char letter, string lug) => letter switch { 'a' => p with { LeadA = lug }, 'b' => p with { LeadB = lug }, _ => p with { LeadC = lug } };
        var id = slip.Id;
        switch (slip.Kind)
        {
            case SlipKind.Missed: return Loose(With(Lead(part, id[part.Name.Length + 1], "AIR-x")), "x");
            case SlipKind.NeighbouringLug: return With(Lead(part, id[part.Name.Length + 1], id[(id.IndexOf('>', StringComparison.Ordinal) + 1)..]));
            case SlipKind.Bridge: return book with { Wires = book.Wires.Add(new() { Name = "clipping", From = slip.Lugs[0], To = slip.Lugs[1] }) };
            case SlipKind.Empty: return Loose(Loose(Loose(With(part with { LeadA = "AIR-a", LeadB = "AIR-b", LeadC = part.LeadC is null ? null : "AIR-c" }), "a"), "b"), "c");
            case SlipKind.WrongValue when part.Value is { } value:
                if (id.EndsWith("x10", StringComparison.Ordinal)) return With(part with { Value = value * 10 });
                if (id.EndsWith("/10", StringComparison.Ordinal)) return With(part with { Value = value / 10 });
                return With(part with { Value = book.Parts.Named(id[(id.IndexOf(" as ", StringComparison.Ordinal) + 4)..])!.Value });
            case SlipKind.Reversed when part.Kind == PartKind.Control: return With(part with { LeadA = part.LeadB, LeadB = part.LeadA });
            case SlipKind.Reversed: return With(part with { PlusLead = part.PlusLead == 'a' ? 'b' : 'a' });
            case SlipKind.WireDisplaced:
                var letter = id[part.Name.Length + 1];
                var (plus, to) = (id.IndexOf('+', StringComparison.Ordinal), id.IndexOf('>', StringComparison.Ordinal));
                var (wire, near) = (book.Wires.Named(id[(plus + 1)..to])!, id[(to + 1)..]);
                return With(Lead(part, letter, near)) with { Wires = book.Wires.Replace(Moved(wire, slip.Lugs[0], near)) };
            case SlipKind.WireOff:
                var off = book.Wires.Named(id[..id.IndexOf(" off ", StringComparison.Ordinal)])!;
                return Loose(book, "w") with { Wires = book.Wires.Replace(Moved(off, slip.Lugs[0], "AIR-w")) };
            default: return null;
        }
    }

    private static Wire Moved(Wire wire, string from, string to) =>
        string.Equals(wire.From, from, StringComparison.OrdinalIgnoreCase) ? wire with { From = to } : wire with { To = to };
}

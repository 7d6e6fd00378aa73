using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Netlist;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Slips;

/// <summary>Which mistakes can the hand make here, what would each do to the circuit, and which few readings show it right after soldering?</summary>
public static class SlipsStage
{
    /// <summary>Every slip that the geometry makes possible. Pure; the same netlist, the same slips in the same order.</summary>
    /// <param name="netlist">The set; the slips' changes are made for its network.</param>
    /// <param name="touched">Parts that the work touches; null for every part of the book.</param>
    /// <param name="atHand">Parts that could be taken for one another; null for the touched ones with their values in this book (none where the whole book is asked for).</param>
    /// <returns>By part in book order; a bridge between two lugs comes once. Empty where there is no network.</returns>
    public static ImmutableArray<Slip> Of(NetlistResult netlist, IEnumerable<string>? touched = null, IEnumerable<PartAtHand>? atHand = null)
    {
        if (netlist.Network is null) return [];
        var names = touched?.ToHashSet(StringComparer.OrdinalIgnoreCase);
        var parts = netlist.Map.Book.Parts.Where(p => names is null || names.Contains(p.Name)).DistinctBy(p => p.Name, StringComparer.OrdinalIgnoreCase).ToArray();
        PartAtHand[] hand = [.. atHand ?? (names is null ? [] : parts.Where(p => p.Value is > 0 && (p.Kind == PartKind.Resistor || p.Kind.IsCapacitor())).Select(p => new PartAtHand(p.Name, p.Value!.Value)))];
        var finder = new SlipFinder(netlist);
        return [.. parts.SelectMany(p => finder.Of(p, hand)).DistinctBy(s => s.Id)];
    }

    /// <summary>Lugs so near to one that a lead may end there by mistake, in natural order.</summary>
    public static ImmutableArray<string> Near(Book book, string lug) => new Reach(book).Of(lug);

    /// <summary>The positions of a job sheet in their order, each with the value and tolerance of what goes there.</summary>
    public static ImmutableArray<Exchange> WorkOf(FitResult fit, ChooseResult choices) => WorkReader.Of(fit, choices);

    /// <summary>The meters at a book's bench: its ohmmeter, and for capacitance the same or the first of the user's own that has it.</summary>
    public static BenchMeters MetersOf(Book book)
    {
        var bench = BookMeters.AtBench(book);
        return new(bench.OhmsTop > 0 ? bench : MeterShelf.All[0], bench.Farads is not null ? bench : BookMeters.Own(book).FirstOrDefault(m => m.Farads is not null));
    }

    /// <summary>The check of one position at its turn; null when it is not among the work.</summary>
    /// <param name="netlist">The set as found.</param>
    /// <param name="work">The work in its order: what comes before the position is taken as exchanged, what comes behind as old.</param>
    /// <param name="position">The part's reference.</param>
    /// <param name="meters">The meters.</param>
    public static AfterCheck? CheckOf(NetlistResult netlist, ImmutableArray<Exchange> work, string position, BenchMeters meters)
    {
        var index = Enumerable.Range(0, work.Length).FirstOrDefault(i => string.Equals(work[i].Position, position, StringComparison.OrdinalIgnoreCase), -1);
        if (index < 0 || netlist.Map.Book.Parts.Named(position) is null) return null;
        return netlist.Network is null ? Without(netlist, work[index]) : CheckWriter.Of(Board.Found(netlist), work, index, new(netlist.Map.Book), meters);
    }

    /// <summary>The checks of all positions, in the order of the work; on all cores.</summary>
    public static ImmutableArray<AfterCheck> Checks(NetlistResult netlist, ImmutableArray<Exchange> work, BenchMeters meters)
    {
        if (netlist.Network is null) return [.. work.Select(e => Without(netlist, e))];
        var (found, reach) = (Board.Found(netlist), new Reach(netlist.Map.Book));
        return [.. Enumerable.Range(0, work.Length).Where(i => netlist.Map.Book.Parts.Named(work[i].Position) is not null).AsParallel().AsOrdered().Select(i => CheckWriter.Of(found, work, i, reach, meters))];
    }

    /// <summary>What the readings say that were taken after soldering: those of the position with its two lugs, the newest of each place.</summary>
    public static CheckOutcome Judge(AfterCheck check, IEnumerable<Reading> readings) => Verdicts.Of(check, readings);

    /// <summary>The newest reading that was entered for one of a check's; null when there is none.</summary>
    public static Reading? Entered(AfterCheck check, CheckReading wanted, IEnumerable<Reading> readings) => Verdicts.Entered(check, readings).GetValueOrDefault(wanted.Number);

    private static AfterCheck Without(NetlistResult netlist, Exchange exchange) => new()
    {
        Position = exchange.Position, Readings = [], Slips = [], LookAt = [], Why = "", IsProven = false, Cautions = CheckWriter.Dangers, Reason = netlist.Reason,
    };
}

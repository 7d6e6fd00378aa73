using System.Collections.Immutable;
using Lugbook.Restoration.Slips;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Prove;

/// <summary>One position with its slips, and the readings among the lugs around it.</summary>
/// <param name="Slips">Every slip.</param>
/// <param name="Known">Those with a change, as the probing numbers them.</param>
/// <param name="Probing">The readings.</param>
internal sealed record Neighbourhood(Slip[] Slips, Slip[] Known, Probing Probing);

/// <summary>Works out every position by itself: all pairs over all lugs would be too many for a large chassis.</summary>
internal static class Neighbourhoods
{
    /// <param name="found">The chassis as found.</param>
    /// <param name="board">The chassis with all work done.</param>
    /// <param name="work">The work; empty for the whole book.</param>
    /// <param name="further">Lugs that are probed in any case: their readings then count for every position.</param>
    /// <param name="meters">The meters.</param>
    /// <param name="tick">Told after each position.</param>
    /// <param name="stop">Ends it early.</param>
    public static ImmutableArray<Neighbourhood> Of(Board found, Board board, ImmutableArray<Exchange> work, string[] further, BenchMeters meters, Action<double> tick, CancellationToken stop)
    {
        var parts = board.Netlist.Map.Book.Parts;
        var finder = new SlipFinder(board.Netlist, new Reach(board.Netlist.Map.Book));
        var reach = new Reach(board.Netlist.Map.Book);
        PartAtHand[] atHand = [.. work.Where(e => e.Value is not null).Select(e => new PartAtHand(e.Position, e.Value!.Value))];
        (Part Part, Exchange? Exchange)[] positions = work.IsEmpty
            ? [.. parts.Where(p => p.Kind != PartKind.Valve).DistinctBy(p => p.Name, StringComparer.OrdinalIgnoreCase).Select(p => (p, (Exchange?)null))]
            : [.. work.Select(e => (parts.Named(e.Position), (Exchange?)e)).Where(e => e.Item1 is not null).Select(e => (e.Item1!, e.Item2))];
        var done = 0;
        Neighbourhood? One((Part Part, Exchange? Exchange) at)
        {
            stop.ThrowIfCancellationRequested();
            Slip[] slips = [.. finder.Of(at.Part, atHand), .. at.Exchange is null ? [] : CheckWriter.Old(found, board, at.Part, at.Exchange)];
            Slip[] known = [.. slips.Where(s => s.Change is not null)];
            var probing = slips.Length == 0 ? null : new Probing(board, known, Lugs(board, at.Part, reach, known, further), meters);
            tick(Interlocked.Increment(ref done) / (double)positions.Length);
            return probing is null ? null : new(slips, known, probing);
        }
        // Where parallel work is stopped, the stop comes wrapped with others: it is let out as itself.
        var all = positions.AsParallel().AsOrdered().WithCancellation(stop).Select(One).ToArray();
        return [.. all.OfType<Neighbourhood>()];
    }

    /// <summary>The same lug of a node everywhere, unless a slip here parts it from its node.</summary>
    private static string[] Lugs(Board board, Part part, Reach reach, Slip[] slips, string[] further)
    {
        var map = board.Netlist.Map;
        var moving = slips.SelectMany(s => s.Change!.Lugs.Keys).ToHashSet(StringComparer.OrdinalIgnoreCase);
        string Usual(string lug) => !moving.Contains(lug) && ShortFinder.LugOf(map, map.NodeOf(lug)!.Index) is { } usual && !moving.Contains(usual) ? usual : lug;
        string[] own = [.. CheckWriter.Lugs(board, part, reach, slips).Select(Usual).Distinct(StringComparer.OrdinalIgnoreCase)];
        var nodes = own.Where(l => !moving.Contains(l)).Select(l => map.NodeOf(l)!.Index).ToHashSet();
        return [.. own, .. further.Where(l => !own.Contains(l, StringComparer.OrdinalIgnoreCase) && (moving.Contains(l) || nodes.Add(map.NodeOf(l)!.Index)))];
    }
}

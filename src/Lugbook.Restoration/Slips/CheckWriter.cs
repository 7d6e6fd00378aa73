using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Slips;

/// <summary>Finds the fewest readings for one position and says them.</summary>
internal static class CheckWriter
{
    public static readonly ImmutableArray<Caution> Dangers =
    [
        Cautions.Discharge,
        new("S-cold-readings", "Ohms and capacitance are read with the plug out and every capacitor drained and measured: a charge destroys the meter, and more than the meter."),
    ];

    public static AfterCheck Of(Board found, ImmutableArray<Exchange> work, int index, Reach reach, BenchMeters meters)
    {
        var exchange = work[index];
        // What comes before in the order is done by then, unless it is held back; what was done out of order is done too.
        var exchanged = work.Where((e, i) => i == index || e.Done || i < index && !e.HeldBack).ToArray();
        var board = found.After(exchanged);
        var part = board.Netlist.Map.Book.Parts.Named(exchange.Position)!;
        var atHand = work.Where(e => e.Value is not null && !e.Done).Select(e => new PartAtHand(e.Position, e.Value!.Value));
        Slip[] slips = [.. new SlipFinder(board.Netlist, reach).Of(part, atHand), .. Old(found, board, part, exchange)];
        Slip[] known = [.. slips.Where(s => s.Change is not null)];
        var probing = new Probing(board, known, Lugs(board, part, reach, known), meters);
        var cover = Cover.Of(probing.Candidates.Length, known.Length, probing.Exposes, Value(probing, known.Length));
        var readings = cover.Readings.Select((c, i) => Reading(board, probing.Candidates[c], probing.Shown[c][0], Shown(probing, known, c, meters), i + 1, meters)).ToImmutableArray();
        var told = Told(slips, readings);
        var common = Enumerable.Range(0, probing.Candidates.Length).Where(c => probing.Candidates[c].Kind == ReadingKind.Ohms && IsToCommon(board, probing.Candidates[c])).ToArray();
        return new()
        {
            Position = exchange.Position, Readings = readings, Slips = told, LookAt = [.. told.Where(t => !t.Exposed).Select(t => t.Slip.LookAt).Distinct()],
            Why = Why(cover, known.Length, slips.Length, probing.Candidates.Length), IsProven = cover.IsProven, Cautions = Dangers,
            Exchanged = [.. exchanged.Select(e => e.Position).Order(NaturalOrder.Names)],
            ShownByOhmsToCommon = Enumerable.Range(0, known.Length).Count(s => common.Any(c => probing.Exposes(c, s))),
            ShownBySingleBest = probing.Candidates.IsEmpty ? 0 : Enumerable.Range(0, probing.Candidates.Length).Max(c => Enumerable.Range(0, known.Length).Count(s => probing.Exposes(c, s))),
        };
    }

    private static bool IsToCommon(Board board, Probe probe)
    {
        var common = board.Cold.Reference;
        return board.Netlist.Map.NodeOf(probe.From)?.Index == common || board.Netlist.Map.NodeOf(probe.To)?.Index == common;
    }

    /// <summary>The old part still there, alone or beside the new one.</summary>
    public static IEnumerable<Slip> Old(Board found, Board board, Part part, Exchange exchange)
    {
        var now = board.Netlist.Network!.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        Element[] old = [.. found.Netlist.ElementsOf(part.Name).Select(n => found.Netlist.Network!.Elements.FirstOrDefault(e => e.Name == n)).OfType<Element>().Where(e => Leads.ValueOf(e) is not null)];
        if (old.Length == 0) yield break;
        yield return new()
        {
            Id = $"{part.Name} old", Kind = SlipKind.OldLeft, Position = part.Name, Lugs = [.. part.Leads.Select(l => l.Lug)], Sentence = $"the old {part.Name} still in", LookAt = $"the part at {part.Name} is the new one",
            Change = new() { Instead = [.. old.Where(e => now.ContainsKey(e.Name))] },
        };
        if (exchange.SharesBody && part.Kind.IsCapacitor())
        {
            yield return new()
            {
                Id = $"{part.Name} old too", Kind = SlipKind.OldBeside, Position = part.Name, Lugs = [.. part.Leads.Select(l => l.Lug)],
                Sentence = $"the old section of {part.Name} still beside the new part", LookAt = $"nothing joins the old section of {part.Name} to its lug any more",
                Change = new() { Further = [.. old.Select(e => e with { Name = e.Name + Board.OldMark })] },
            };
        }
    }

    /// <summary>Where the probes can go: the part's lugs, those beside them, the far ends of wires there, and common; one lug of each node that no slip divides.</summary>
    public static string[] Lugs(Board board, Part part, Reach reach, Slip[] slips)
    {
        var map = board.Netlist.Map;
        var moving = slips.SelectMany(s => s.Change!.Lugs.Keys).ToHashSet(StringComparer.OrdinalIgnoreCase);
        string[] own = [.. part.Leads.Select(l => l.Lug).Where(l => map.NodeOf(l) is not null).Distinct(StringComparer.OrdinalIgnoreCase)];
        IEnumerable<string> wanted = own.Concat(own.SelectMany(l => reach.Of(l)));
        if (map.Common.Node is { } common) wanted = wanted.Append(CommonLug(map, common, own));
        wanted = wanted.Concat(map.Book.Wires.Where(w => w.Kind != WireKind.Bond).SelectMany(w => own.Contains(w.From, StringComparer.OrdinalIgnoreCase) ? [w.To] : own.Contains(w.To, StringComparer.OrdinalIgnoreCase) ? new[] { w.From } : []));
        var taken = new List<string>();
        var seen = new HashSet<(int, string)>();
        foreach (var lug in wanted)
        {
            if (map.NodeOf(lug) is not { } node || taken.Contains(lug, StringComparer.OrdinalIgnoreCase)) continue;
            // Two lugs of one node are two places only where some slip parts them.
            var key = moving.Contains(lug) ? string.Join(' ', slips.Where(s => s.Change!.Lugs.ContainsKey(lug)).Select(s => s.Id)) : "";
            if (seen.Add((node.Index, key))) taken.Add(map.Book.Lugs.Named(lug)?.Name ?? lug);
        }
        return [.. taken];
    }

    private static string CommonLug(MapResult map, Node common, string[] own) =>
        common.Lugs.FirstOrDefault(l => own.Contains(l, StringComparer.OrdinalIgnoreCase)) ?? common.Lugs.FirstOrDefault(l => map.Book.Mounts.Named(map.Book.Lugs.Named(l)?.Mount)?.Kind is MountKind.Chassis or MountKind.Can) ?? common.Lugs[0];

    // Among equally few readings: those that tell most slips apart; then fewer changes of meter and function.
    public static Func<ImmutableArray<int>, double> Value(Probing probing, int slips)
    {
        var words = slips * (slips - 1) / 2 / 64 + 1;
        var apart = new ulong[probing.Candidates.Length][];
        return set =>
        {
            var told = new ulong[words];
            foreach (var r in set)
            {
                var mine = apart[r] ??= Pairs(probing.Shown[r], slips, words);
                for (var w = 0; w < words; w++) told[w] |= mine[w];
            }
            return told.Sum(System.Numerics.BitOperations.PopCount) - 0.01 * set.Select(r => probing.Candidates[r].Kind).Distinct().Count();
        };
    }

    private static ulong[] Pairs(ImmutableArray<Interval>[] shown, int slips, int words)
    {
        var pairs = new ulong[words];
        var bit = 0;
        for (var s = 1; s <= slips; s++)
            for (var t = 1; t < s; t++, bit++)
                if (Probing.Apart(shown[s], shown[t])) pairs[bit / 64] |= 1UL << (bit % 64);
        return pairs;
    }

    /// <summary>What each slip would make of a reading.</summary>
    public static ImmutableArray<SlipShown> Shown(Probing probing, Slip[] slips, int candidate, BenchMeters meters)
    {
        var (kind, shown) = (probing.Candidates[candidate].Kind, probing.Shown[candidate]);
        var top = meters.For(kind).TopOf(kind);
        return [.. slips.Select((s, i) => new SlipShown(s, shown[i + 1], CheckWords.Shown(kind, shown[i + 1], top), Probing.Apart(shown[0], shown[i + 1])))];
    }

    /// <summary>A reading in words and figures.</summary>
    public static CheckReading Reading(Board board, Probe candidate, ImmutableArray<Interval> healthy, ImmutableArray<SlipShown> slips, int number, BenchMeters meters)
    {
        var probe = Turned(board, candidate);
        var (from, to) = (board.Netlist.Map.NodeOf(probe.From)!.Index, board.Netlist.Map.NodeOf(probe.To)!.Index);
        var meter = meters.For(probe.Kind);
        var expected = healthy[0];
        var (about, seconds) = About(board, probe.Kind, from, to, meters);
        return new()
        {
            Number = number, Kind = probe.Kind, From = probe.From, To = probe.To, Meter = meter.Name, Expected = expected, About = about, Seconds = seconds,
            Sentence = $"{(probe.Kind == ReadingKind.Ohms ? "Ohms" : "Capacitance")}, red on {probe.From}, black on {probe.To}: {CheckWords.Shown(probe.Kind, expected, meter.TopOf(probe.Kind))}{(expected.Low > 0 && double.IsFinite(expected.High) ? $" (about {Say.Of(probe.Kind, about)})" : "")}",
            Hint = CheckWords.Hint(probe.Kind, expected, seconds, Plus(board, from, to)),
            Slips = slips,
        };
    }

    private static (double About, double Seconds) About(Board board, ReadingKind kind, int from, int to, BenchMeters meters)
    {
        if (from == to) return (0, 0);
        if (kind == ReadingKind.Farads) return (Math.Max(0, Impedance.Between(board.Cold, from, to, meters.Farads!.FaradsHertz).ParallelFarads), 0);
        try
        {
            var ohms = Ohms.Between(board.Cold, from, to, meters.Ohms.OhmsTestVolts);
            return (ohms.Ohms > meters.Ohms.OhmsTop ? double.PositiveInfinity : ohms.Ohms, ohms.SettlingSeconds);
        }
        catch (UnsolvableException)
        {
            return (double.NaN, 0);
        }
    }

    /// <summary>Red on the plus of an electrolytic between the lugs.</summary>
    private static Probe Turned(Board board, Probe probe)
    {
        var (from, to) = (board.Netlist.Map.NodeOf(probe.From)!.Index, board.Netlist.Map.NodeOf(probe.To)!.Index);
        return Plus(board, to, from) && !Plus(board, from, to) ? probe with { From = probe.To, To = probe.From } : probe;
    }

    private static bool Plus(Board board, int plus, int minus) =>
        board.Cold.Elements.OfType<Capacitor>().Any(c => c.A == plus && c.B == minus && board.Netlist.Map.Book.Parts.Named(board.Netlist.Origins.FirstOrDefault(o => o.Element == c.Name)?.Position)?.Kind == PartKind.Electrolytic);

    private static ImmutableArray<SlipTold> Told(Slip[] slips, ImmutableArray<CheckReading> readings)
    {
        var at = readings.IsEmpty ? [] : readings[0].Slips.Select((s, i) => (s.Slip.Id, i)).ToDictionary(x => x.Id, x => x.i, StringComparer.Ordinal);
        bool Exposed(Slip s) => at.TryGetValue(s.Id, out var i) && readings.Any(r => r.Slips[i].Exposed);
        bool Alike(Slip s, Slip t) => readings.All(r => !Probing.Apart(r.Slips[at[s.Id]].Shown, r.Slips[at[t.Id]].Shown));
        var exposed = slips.Where(Exposed).ToArray();
        return [.. slips.Select(s => new SlipTold(s, exposed.Contains(s), exposed.Contains(s) ? [.. exposed.Where(t => t != s && Alike(s, t)).Select(t => t.Id)] : []))];
    }

    private static string Why(Cover cover, int known, int all, int candidates)
    {
        var seen = cover.Coverable.Length;
        if (seen == 0) return $"None of {candidates} readings among these lugs would expose any of {all} slips: look at each.";
        var number = cover.Readings.Length;
        var left = all == seen ? "every slip" : $"{seen} of {all} slips, all that can be exposed here,";
        return $"{(number == 1 ? "One reading exposes" : $"{number} readings expose")} {left} out of {candidates} that could be taken. "
            + (cover.IsProven ? number == 1 ? "Fewer is none." : $"No {number - 1} of them expose as many: all ways were tried." : "A smaller number was not ruled out: the search was cut off.");
    }
}

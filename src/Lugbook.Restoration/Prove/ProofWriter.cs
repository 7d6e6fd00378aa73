using System.Collections.Immutable;
using System.Numerics;
using Lugbook.Restoration.Prove.Solving;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Solve;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Prove;

/// <summary>Finds the readings of the cold proof and says them.</summary>
internal static class ProofWriter
{
    private sealed record Reached(Probe Probe, List<(Neighbourhood In, int Candidate)> Places) { public BigInteger Shows { get; set; } }

    public static ProveResult Of(SolveResult solved, ImmutableArray<Exchange> work, BenchMeters meters, IProgress<double>? progress, CancellationToken stop)
    {
        ImmutableArray<Exchange> done = [.. work.Where(e => e.Done || !e.HeldBack)];
        var found = Board.Found(solved.Netlist);
        var board = found.After(done);

        // The dangerous shorts first, by ohms alone: every pair of the nodes concerned.
        var dangers = ShortFinder.Of(solved);
        Slip[] shorts = [.. dangers.Select(d => d.Slip)];
        var danger = new Probing(board, shorts, [.. shorts.SelectMany(s => s.Lugs).Distinct(StringComparer.OrdinalIgnoreCase)], meters with { Farads = null });
        var common = solved.Netlist.Network!.Reference;
        var apart = CheckWriter.Value(danger, shorts.Length);
        bool ToCommon(Probe p) => solved.Netlist.Map.NodeOf(p.From)!.Index == common || solved.Netlist.Map.NodeOf(p.To)!.Index == common;
        var first = Cover.Of(danger.Candidates.Length, shorts.Length, danger.Exposes, set => apart(set) + set.Count(r => ToCommon(danger.Candidates[r])));
        stop.ThrowIfCancellationRequested();

        // Then the slips, position by position, with the lugs of those readings in every one.
        string[] probed = [.. first.Readings.SelectMany(r => new[] { danger.Candidates[r].From, danger.Candidates[r].To }).Distinct(StringComparer.OrdinalIgnoreCase)];
        var around = Neighbourhoods.Of(found, board, done, probed, meters, share => progress?.Report(0.95 * share), stop);
        var slips = around.SelectMany(n => n.Slips).DistinctBy(s => s.Id).ToArray();
        var number = slips.Select((s, i) => (s.Id, i)).ToDictionary(x => x.Id, x => x.i, StringComparer.Ordinal);
        var reached = Merge(around, number);
        var fixedOnes = first.Readings.Select(r => Find(reached, danger.Candidates[r])).ToArray();
        var all = reached.Aggregate(BigInteger.Zero, (seen, r) => seen | r.Shows);
        var open = fixedOnes.OfType<Reached>().Aggregate(all, (left, r) => left & ~r.Shows);
        var least = LeastCover.Of([.. reached.Select(r => r.Shows)], open, r => reached[r].Probe.Kind == ReadingKind.Farads, stop);
        progress?.Report(1);

        var readings = ImmutableArray.CreateBuilder<CheckReading>();
        for (var k = 0; k < first.Readings.Length; k++)
        {
            var r = first.Readings[k];
            readings.Add(CheckWriter.Reading(board, danger.Candidates[r], danger.Shown[r][0], [.. CheckWriter.Shown(danger, shorts, r, meters), .. Shown(fixedOnes[k], meters)], readings.Count + 1, meters));
        }
        foreach (var r in least.Chosen.Select(i => reached[i]).OrderBy(r => r.Probe.Kind).ThenBy(r => r.Probe.From, NaturalOrder.Names).ThenBy(r => r.Probe.To, NaturalOrder.Names))
            readings.Add(CheckWriter.Reading(board, r.Probe, r.Places[0].In.Probing.Shown[r.Places[0].Candidate][0], Shown(r, meters), readings.Count + 1, meters));

        var told = dangers.Select((d, i) => Told(d.Slip, d.Kind, [.. readings.Take(first.Readings.Length).Where(r => r.Slips[i].Exposed).Select(r => r.Number)], danger, i)).ToImmutableArray();
        var unseen = slips.Where((_, i) => (all >> i).IsEven).ToArray();
        var cover = new ProofCover(slips.Length - unseen.Length, slips.Length, reached.Count, least.Least, least.Least >= least.Chosen.Length);
        return new()
        {
            Readings = readings.ToImmutable(), ShortReadings = first.Readings.Length, Shorts = told,
            WhyShorts = WhyShorts(first, told, danger.Candidates.Length), WhySlips = WhySlips(cover, least.Chosen.Length, done.IsEmpty), Cover = cover,
            Unseen = [.. unseen.GroupBy(s => s.Lugs[0], StringComparer.OrdinalIgnoreCase).OrderBy(g => g.Key, NaturalOrder.Names).Select(g => new LugLook(g.Key, [.. g.Select(s => s.LookAt).Distinct()]))],
            Looks = LookList.Of(solved, board), Touched = [.. done.Select(e => e.Position).Order(NaturalOrder.Names)], Cautions = ProveCautions.Of(solved.Netlist.Map),
        };
    }

    /// <summary>The same reading in several neighbourhoods is one, and shows what it shows in each.</summary>
    private static List<Reached> Merge(ImmutableArray<Neighbourhood> around, Dictionary<string, int> number)
    {
        var byProbe = new Dictionary<Probe, Reached>();
        foreach (var place in around)
        {
            var ids = place.Known.Select(s => number[s.Id]).ToArray();
            for (var c = 0; c < place.Probing.Candidates.Length; c++)
            {
                var shows = BigInteger.Zero;
                for (var s = 0; s < ids.Length; s++) if (place.Probing.Exposes(c, s)) shows |= BigInteger.One << ids[s];
                var key = Key(place.Probing.Candidates[c]);
                if (!byProbe.TryGetValue(key, out var known)) byProbe[key] = known = new(place.Probing.Candidates[c], []);
                known.Shows |= shows;
                known.Places.Add((place, c));
            }
        }
        return [.. byProbe.OrderBy(p => p.Key.Kind).ThenBy(p => p.Key.From, NaturalOrder.Names).ThenBy(p => p.Key.To, NaturalOrder.Names).Select(p => p.Value)];
    }

    private static Reached? Find(List<Reached> reached, Probe probe) => reached.FirstOrDefault(r => Key(r.Probe) == Key(probe));

    private static Probe Key(Probe p) => NaturalOrder.Names.Compare(p.From, p.To) <= 0 ? p : p with { From = p.To, To = p.From };

    private static ImmutableArray<SlipShown> Shown(Reached? reading, BenchMeters meters) =>
        reading is null ? [] : [.. reading.Places.SelectMany(p => CheckWriter.Shown(p.In.Probing, p.In.Known, p.Candidate, meters)).DistinctBy(s => s.Slip.Id)];

    private static ShortTold Told(Slip slip, ShortKind kind, ImmutableArray<int> by, Probing probing, int index)
    {
        if (!by.IsEmpty) return new(slip, kind, by, null);
        var own = Enumerable.Range(0, probing.Candidates.Length).FirstOrDefault(c => Key(probing.Candidates[c]) == Key(new(ReadingKind.Ohms, slip.Lugs[0], slip.Lugs[1])), -1);
        if (own < 0) return new(slip, kind, by, "No reading between the two was worked out.");
        var healthy = probing.Shown[own][0][0];
        return new(slip, kind, by, $"A healthy set shows {CheckWords.Shown(ReadingKind.Ohms, healthy, double.PositiveInfinity)} there, and with the short {CheckWords.Shown(ReadingKind.Ohms, probing.Shown[own][index + 1], double.PositiveInfinity)}: this meter cannot tell them apart.");
    }

    private static string WhyShorts(Cover cover, ImmutableArray<ShortTold> told, int candidates)
    {
        var seen = told.Count(t => t.IsTold);
        if (told.IsEmpty) return "No supply, heater or line is known in this book, so no dangerous short can be named.";
        if (seen == 0) return $"None of the {told.Length} dangerous shorts can be told by ohms with this meter.";
        return $"{Count(cover.Readings.Length, "reading tells", "readings tell")} {(seen == told.Length ? $"all {seen}" : $"{seen} of the {told.Length}")} dangerous shorts, each anything from 0 to {ShortFinder.MostOhms:0} Ω, out of {candidates} readings between the places concerned. "
            + (cover.IsProven ? "No fewer do: all ways were tried." : "A smaller number was not ruled out: the search was cut off.")
            + (seen == told.Length ? "" : $" {Count(told.Length - seen, "short stays", "shorts stay")} for the eye.");
    }

    private static string WhySlips(ProofCover cover, int further, bool whole)
    {
        var what = whole ? "Nothing is exchanged or planned, so the whole book is proved. " : "";
        if (cover.All == 0) return what + "No slip is possible at what was touched.";
        return what + $"{cover.Seen} of {cover.All} slips are shown by the readings above and {Count(further, "further one", "further ones")}, out of {cover.Candidates} readings in ohms and capacitance. "
            + (cover.IsProven ? "No fewer further ones show as many: proven." : $"At least {cover.LeastFurther} are needed; between that and {further} it is not proven.")
            + " Candidates are all pairs of lugs around one position (its own, their neighbours, the far ends of their wires) with common and the lugs read above; a reading counts for slips at the positions that it lies around.";
    }

    private static string Count(int n, string one, string more) => $"{n} {(n == 1 ? one : more)}";
}

using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Fit;

/// <summary>Writes the sheet of each lug.</summary>
internal static class LugWriter
{
    private const double NeighboursMm = 12;

    public static ImmutableArray<LugSheet> Write(MapResult map, Bench bench, ImmutableArray<Turn> order, FitRules rules)
    {
        var stepOf = new Dictionary<int, int>();
        for (var i = 0; i < order.Length; i++) stepOf.Add(order[i].Choice.PartId, i + 1);
        var place = map.Book.Lugs.Select((l, i) => (l.Name, i)).DistinctBy(l => l.Name, StringComparer.OrdinalIgnoreCase).ToDictionary(l => l.Name, l => l.i, StringComparer.OrdinalIgnoreCase);
        return [.. bench.Lugs.OrderBy(l => place.GetValueOrDefault(l, int.MaxValue)).Select(lug =>
        {
            ImmutableArray<FitLead> off = [.. bench.Off(lug).OrderBy(l => stepOf.GetValueOrDefault(l.PartId)).ThenBy(l => l.Letter)];
            ImmutableArray<FitLead> stay = [.. bench.Stay(lug)];
            ImmutableArray<WireEnd> wires = [.. bench.Wires(lug)];
            var row = map.Book.Lugs.Named(lug);
            return new LugSheet
            {
                Lug = lug,
                Mount = row?.Mount ?? "",
                Function = row?.Function ?? row?.Note,
                Off = off,
                Stay = stay,
                Wires = wires,
                Verdict = bench.Verdict(lug),
                Sentence = Sentence(off, stay, wires, bench.Verdict(lug), rules),
                Ends = bench.Ends(lug),
                Near = bench.Around.Around(lug, NeighboursMm),
                Crowding = Crowding(bench, lug),
                HeatSensitive = bench.HeatSensitive(lug),
                Steps = [.. off.Select(l => stepOf.GetValueOrDefault(l.PartId)).Distinct()],
            };
        })];
    }

    private static string? Crowding(Bench bench, string lug)
    {
        var (ends, near) = (bench.Ends(lug), bench.Around.Around(lug, NeighboursMm));
        var over = bench.Over(lug, 0);
        List<string> words = [];
        if (bench.Crowded(lug)) words.Add($"Crowded: {ends} ends are on it; tin and clear it in stages.");
        if (near is [{ Millimetres: <= 5 } first, ..]) words.Add($"{first.Lug} is only {Show.Number(first.Millimetres)} mm away: look for a bridge.");
        if (over.Length > 0) words.Add($"{Show.List(over)} {(over.Length == 1 ? "lies" : "lie")} over it in plan: bend aside, do not strain {(over.Length == 1 ? "its leads" : "their leads")}.");
        return words.Count == 0 ? null : string.Join(" ", words);
    }

    private static string Sentence(ImmutableArray<FitLead> off, ImmutableArray<FitLead> stay, ImmutableArray<WireEnd> wires, LugVerdict verdict, FitRules rules)
    {
        var leaving = Show.List([.. off.Select(l => l.Position).Distinct()]);
        var bonded = wires.Any(w => w.Bond) ? " It is bonded to the chassis: a large iron, and leave the rivet alone." : "";
        if (verdict == LugVerdict.ClearToBareMetal) return $"Clear to bare metal: {leaving} {(off.Length == 1 ? "is" : "are")} all there is, and no wire ends here.{bonded}";
        var keeps = stay.Select(l => l.Position).Distinct().Concat(wires.Where(w => !w.Bond).Select(w => $"wire {w.Wire}")).ToArray();
        return $"Splice: {Show.List(keeps)} {(keeps.Length == 1 ? "stays" : "stay")}. Cut {leaving} off and leave {Show.Number(rules.TailMm)} mm of old lead to splice onto (common practice, no source).{bonded}";
    }
}

using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Fit;

/// <summary>Writes the sheet of each lug.</summary>
internal static class LugWriter
{
    /// <summary>Old lead left for a splice, mm: a sixteenth of an inch (common practice, no source).</summary>
    public const double TailMm = 1.6;

    public static ImmutableArray<LugSheet> Write(MapResult map, Bench bench, ImmutableArray<Turn> order)
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
                Sentence = Sentence(off, stay, wires, bench.Verdict(lug)),
                HeatSensitive = bench.HeatSensitive(lug),
                Steps = [.. off.Select(l => stepOf.GetValueOrDefault(l.PartId)).Distinct()],
            };
        })];
    }

    private static string Sentence(ImmutableArray<FitLead> off, ImmutableArray<FitLead> stay, ImmutableArray<WireEnd> wires, LugVerdict verdict)
    {
        var leaving = Show.List([.. off.Select(l => l.Position).Distinct()]);
        var bonded = wires.Any(w => w.Bond) ? " It is bonded to the chassis: a large iron, and leave the rivet alone." : "";
        if (verdict == LugVerdict.ClearToBareMetal) return $"Clear to bare metal: {leaving} {(off.Length == 1 ? "is" : "are")} all there is, and no wire ends here.{bonded}";
        var keeps = stay.Select(l => l.Position).Distinct().Concat(wires.Where(w => !w.Bond).Select(w => $"wire {w.Wire}")).ToArray();
        return $"Splice: {Show.List(keeps)} {(keeps.Length == 1 ? "stays" : "stay")}. Cut {leaving} off and leave {Show.Number(TailMm)} mm of old lead to splice onto (common practice, no source).{bonded}";
    }
}

using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Fit;

/// <summary>Time from counts: the user's own pace once five ticks of a sort are known, else a rule of thumb.</summary>
internal static class Pace
{
    // Longer between two ticks than this is a pause, shorter than half a minute a sweep: common practice, no source.
    private const double LongestMinutes = 60, ShortestMinutes = 0.5;
    private const int Enough = 5;

    public static WorkEstimate Of(MapResult map, IReadOnlyList<Choice> work, FitRules rules)
    {
        var own = Own(map, work);
        ImmutableArray<PaceLine> kinds = [.. work.GroupBy(Kind).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => Line(g.Key, g.Count(c => !c.Done), own.GetValueOrDefault(g.Key) ?? []))];
        var (minutes, low, high) = (kinds.Sum(k => k.Left * k.Minutes), kinds.Sum(k => k.Left * k.Low), kinds.Sum(k => k.Left * k.High));
        var parts = work.Where(c => !c.Done && c.Candidates is [{ } first, ..] && c.New == first.Text).SelectMany(c => c.Candidates[0].Parts).ToArray();
        var mine = kinds.Count(k => k.IsOwn);
        return new()
        {
            Kinds = kinds, Minutes = Math.Round(minutes), Low = Math.Round(low), High = Math.Round(high),
            LabourLow = rules.HourPrice > 0 ? Math.Round((decimal)(low / 60 * rules.HourPrice), 2) : null,
            LabourHigh = rules.HourPrice > 0 ? Math.Round((decimal)(high / 60 * rules.HourPrice), 2) : null,
            PartsLow = parts.Sum(p => p.PriceLow ?? 0), PartsHigh = parts.Sum(p => p.PriceHigh ?? 0),
            Sentence = (mine == 0 ? "By rule of thumb: 15 minutes a part (9 to 24), 25 a section of a can (15 to 36); common practice, no source. Your own pace takes its place once five ticks of a sort are timed."
                : mine == kinds.Length ? "By your own pace: medians of your ticks, from quarter to quarter."
                : "By your own pace where five ticks or more of a sort are timed (median, from quarter to quarter), else by rule of thumb (common practice, no source).")
                + " Pauses of more than an hour, and what was entered in a sweep, do not count. Looking over, first power and trial are not in it. Part prices are the catalogue's examples.",
        };
    }

    public static string Kind(Choice choice) => choice.Unit == Unit.Ohm ? "resistor"
        : choice.Requirement.Polarity is null ? "capacitor" : choice.Group is not null ? "section of a can" : "electrolytic";

    // Minutes of a position: from the tick before it to its own.
    private static Dictionary<string, List<double>> Own(MapResult map, IReadOnlyList<Choice> work)
    {
        var kinds = work.DistinctBy(c => c.Position, StringComparer.OrdinalIgnoreCase).ToDictionary(c => c.Position, Kind, StringComparer.OrdinalIgnoreCase);
        var ticks = map.Book.Work.Where(w => w.Done && w.DoneAt is not null).OrderBy(w => w.DoneAt).ToArray();
        var found = new Dictionary<string, List<double>>(StringComparer.Ordinal);
        for (var k = 1; k < ticks.Length; k++)
        {
            var minutes = (ticks[k].DoneAt!.Value - ticks[k - 1].DoneAt!.Value).TotalMinutes;
            if (minutes is < ShortestMinutes or > LongestMinutes || !kinds.TryGetValue(ticks[k].Name, out var kind)) continue;
            if (!found.TryGetValue(kind, out var list)) found[kind] = list = [];
            list.Add(minutes);
        }
        return found;
    }

    private static PaceLine Line(string kind, int left, List<double> own)
    {
        if (own.Count < Enough) return kind == "section of a can" ? new(kind, left, own.Count, 25, 15, 36, false) : new(kind, left, own.Count, 15, 9, 24, false);
        own.Sort();
        return new(kind, left, own.Count, Math.Round(At(own, 0.5), 1), Math.Round(At(own, 0.25), 1), Math.Round(At(own, 0.75), 1), true);
    }

    // The value below which a share of the sorted values lies, between neighbours in proportion.
    private static double At(List<double> sorted, double share)
    {
        var place = share * (sorted.Count - 1);
        var k = (int)place;
        return k + 1 < sorted.Count ? sorted[k] + (sorted[k + 1] - sorted[k]) * (place - k) : sorted[k];
    }
}

using System.Collections.Immutable;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>From all readings to the few that a restorer wants to see.</summary>
internal static class Ranking
{
    /// <summary>Below this share a reading is not shown.</summary>
    private const double Floor = 0.012;
    /// <summary>With a colour that cannot be read there are more readings, so each must be likelier.</summary>
    private const double FloorWhenFilled = 0.02;
    private const int Most = 8;
    private const int MostWhenFilled = 12;

    /// <summary>Ranked, folded and cut; shares add up to 1.</summary>
    public static ImmutableArray<Meaning> Meanings(Found found, bool named, MarkingContext context)
    {
        var folded = Fold(found.Candidates);
        var sum = folded.Sum(c => c.Weight);
        var floor = found.Filled ? FloorWhenFilled : Floor;
        var kept = folded.Where((c, i) => i == 0 || c.Weight >= floor * sum || (named && !found.Filled && !c.Turned && c.Altered.Length == 0))
            .Take(found.Filled ? MostWhenFilled : Most).ToList();
        sum = kept.Sum(c => c.Weight);
        return [.. kept.Select(c => Meaning(c, c.Weight / sum, found, context))];
    }

    /// <summary>One reading for all codes that say the same; the likeliest code gives its name.</summary>
    private static List<Candidate> Fold(List<Candidate> all)
    {
        var folded = new List<Candidate>();
        foreach (var candidate in all.OrderByDescending(c => c.Weight).ThenBy(c => c.Read.Value))
        {
            var at = folded.FindIndex(f => Same(f.Read, candidate.Read));
            if (at < 0) { folded.Add(candidate); continue; }
            var first = folded[at];
            IReadOnlyList<string> also = first.Read.Form.Code == candidate.Read.Form.Code || first.AlsoBy.Contains(candidate.Read.Form.Code)
                ? first.AlsoBy : [.. first.AlsoBy, candidate.Read.Form.Code];
            // Kept apart from the prior: only the weight grows, by what the other codes add.
            folded[at] = first with { AlsoBy = also, Belief = first.Belief + candidate.Weight / first.Prior };
        }
        folded.Sort((a, b) => b.Weight != a.Weight ? b.Weight.CompareTo(a.Weight) : a.Read.Value.CompareTo(b.Read.Value));
        return folded;
    }

    private static bool Same(Decoded a, Decoded b) =>
        a.Layout.Unit == b.Layout.Unit && Math.Abs(a.Value - b.Value) <= 1e-9 * a.Value
        && (!(a.Layout.Apart || b.Layout.Apart) || a.Layout == b.Layout)
        && Agree(a.PercentOfValue, b.PercentOfValue) && Agree(a.Volts, b.Volts) && Agree(a.TempcoPpm, b.TempcoPpm)
        && (a.Class == b.Class || a.Class is null || b.Class is null);

    private static bool Agree(double? a, double? b) => a is null || b is null || Math.Abs(a.Value - b.Value) <= 1e-9 * Math.Abs(a.Value);

    private static Meaning Meaning(Candidate candidate, double share, Found found, MarkingContext context)
    {
        var read = candidate.Read;
        var fails = found.Faults.FirstOrDefault(f => f.Layout == read.Layout)?.Fault;
        return new Meaning
        {
            Unit = read.Layout.Unit,
            Sections = [new(read.Value, read.Volts)],
            Tolerance = read.Tolerance,
            TempcoPpm = read.TempcoPpm,
            Dielectric = read.Class,
            Code = read.Form.Code,
            Reason = Wording.Reason(candidate, fails?.Problem),
            Doubts = Against(candidate, found, context) is { } against ? Wording.Doubts(candidate).Insert(0, against) : Wording.Doubts(candidate),
            Share = share,
        };
    }

    /// <summary>What speaks against a reading in the other unit than the kind that was given; null when nothing does.</summary>
    private static string? Against(Candidate candidate, Found found, MarkingContext context)
    {
        if (Belief.Kind(context) is not { } kind || kind.IsCapacitor() == candidate.Read.Layout.IsCapacitor) return null;
        var own = found.Faults.Where(f => f.Layout.IsCapacitor == kind.IsCapacitor()).MaxBy(f => f.Nearness);
        var what = $"this would be a {(candidate.Read.Layout.IsCapacitor ? "capacitor" : "resistor")}, but the part is called {PartKinds.Spelling(kind)}";
        return own is null || found.Candidates.Any(c => c.Read.Layout.IsCapacitor == kind.IsCapacitor()) ? what : $"{what}; read as one, {own.Fault.Problem}";
    }
}

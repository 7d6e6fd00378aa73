using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Fit;

/// <summary>Holds back the steps that the map's contradictions touch: what cannot be true of a working set is no ground to solder on.</summary>
internal static class Disputed
{
    /// <summary>What cannot be true anywhere in the book.</summary>
    public static ImmutableArray<Contradiction> In(MapResult map) => [.. map.Contradictions.Where(c => c.Weight == Weight.Contradiction)];

    /// <summary>The step, closed and without a disputed polarity when a contradiction concerns its part or a lug of it.</summary>
    public static FitStep Hold(FitStep step, MapResult map, ImmutableArray<Contradiction> contradictions)
    {
        var against = Against(map.Book.Parts.ById(step.PartId), contradictions);
        if (against.Length == 0) return step;
        var polarity = against.Any(c => c.Rule.Contains("reversed", StringComparison.Ordinal));
        return step with
        {
            Open = $"Held back: {string.Join(" ", against.Select(c => c.Sentence))} Mend the book or the chassis first.",
            Polarity = polarity ? "Disputed: the book's polarity and the circuit do not agree. Measure before anything is soldered." : step.Polarity,
            On = polarity ? [.. step.On.Select(l => l with { How = WithoutSign(l.How) })] : step.On,
        };
    }

    /// <summary>What cannot be true of this part or a lug of it.</summary>
    public static Contradiction[] Against(Part? part, ImmutableArray<Contradiction> contradictions) => [.. contradictions.Where(c => part is not null && Concerns(c, part))];

    private static bool Concerns(Contradiction found, Part part) =>
        Same(found.Place, part.Name) || part.Leads.Any(l => Same(found.Place, l.Lug));

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);

    private static string WithoutSign(string how) =>
        how.Replace("Plus lead. ", "", StringComparison.Ordinal).Replace("Minus lead. ", "", StringComparison.Ordinal);
}

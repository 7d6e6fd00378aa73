using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>What speaks for M as thousand or as million: the book's decision, the set's other markings, its year, and the number itself.</summary>
/// <remarks>Source: data/reference/letter-codes.csv, unit-spelling M; the weights are judgement.</remarks>
internal static class MegEvidence
{
    /// <summary>Belief from 0 to 1 that M is a thousand, before the value's own likelihood, with the reason in words or null.</summary>
    /// <param name="context">What is known of the set.</param>
    /// <param name="figures">The number before the M.</param>
    public static (double Thousand, string? Because) Weigh(MarkingContext context, double figures)
    {
        if (context.MegHabit == MegHabit.Thousand && figures >= 1) return (0.985, "the book says that M is a thousand on this set's sheet");
        if (context.MegHabit == MegHabit.Million) return (0.015, "the book says that M is a million on this set's sheet");
        var (odds, because) = context.Year switch
        {
            <= 1942 => (1.2, "of that year"),
            <= 1950 => (0.8, "of that year"),
            <= 1956 => (0.25, null),
            not null => (0.04, "after the mid-fifties M is a million"),
            null => (0.25, null as string),
        };
        if (because == "of that year") because = null;
        var meg = context.OtherMarkings.IsDefault ? null : context.OtherMarkings.FirstOrDefault(IsMeg);
        var large = context.OtherMarkings.IsDefault ? null : context.OtherMarkings.FirstOrDefault(IsLargeM);
        var small = context.OtherMarkings.IsDefault ? null : context.OtherMarkings.FirstOrDefault(IsSmallM);
        if (large is not null) (odds, because) = (odds * 30, $"the same set has {large.Trim()}, which can only be thousands");
        if (small is not null) (odds, because) = (odds / 30, $"the same set has {small.Trim()}, which can only be millions");
        if (meg is not null) (odds, because) = (odds * 30, $"the same set writes {meg.Trim()} for millions");
        if (context.MegHabit == MegHabit.Thousand) (odds, because) = (odds * 10, "the book says that M is a thousand on this set's sheet");
        if (figures < 1) odds *= 0.02;                       // nobody writes .5M for 500
        else if (figures != Math.Floor(figures)) odds *= 0.5;
        var round = OldValues.Contains(figures, Unit.Ohm);
        var series = PreferredValues.Contains(figures, PreferredSeries.E24);
        if (round && !series) odds *= 1.6;
        if (series && !round) odds *= 0.6;
        return (odds / (1 + odds), because);
    }

    private static bool IsMeg(string? marking) => marking is not null && Has(marking, "MEG", out var at) && !Has(marking[..at], "MICRO", out _);

    private static bool IsLargeM(string? marking) => NumberBeforeM(marking) is >= 26;

    private static bool IsSmallM(string? marking) => NumberBeforeM(marking) is > 0 and < 1;

    private static bool Has(string text, string word, out int at) => (at = text.IndexOf(word, StringComparison.OrdinalIgnoreCase)) >= 0;

    // The number in "250M", "50M 1/2W"; null when the M is part of a word or of another code.
    private static double? NumberBeforeM(string? marking)
    {
        if (marking is null || marking.Length > 200) return null;
        var tokens = Lexer.Cut(FoldedText.Of(marking).Text, out _);
        for (var i = 0; i + 1 < tokens.Count; i++)
        {
            if (!tokens[i].IsNumber || tokens[i + 1] is not { IsWord: true, Text: "M" }) continue;
            if (i + 2 < tokens.Count && tokens[i + 2] is { Glued: true, Kind: not TokenKind.Sign }) continue;
            return tokens[i].Number.Value;
        }
        return null;
    }
}

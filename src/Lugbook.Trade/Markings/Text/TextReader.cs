using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Markings.Text;

/// <summary>From text to ranked meanings: folding, tokens, grammar, assembly, shares.</summary>
internal static class TextReader
{
    private const string Place = "the marking";

    /// <summary>Longer than anything that was ever printed on a part.</summary>
    private const int Longest = 200;

    /// <summary>Meanings below this share are not worth a line.</summary>
    private const double SmallestShare = 0.0005;

    /// <summary>See <see cref="TextMarking.Read"/>.</summary>
    public static MarkingResult Read(string marking, MarkingContext context)
    {
        if (marking.Length > Longest)
            return Complain(marking, Longest, "too long for a marking", $"Write what is printed on one part, at most {Longest} characters.");
        var folded = FoldedText.Of(marking);
        if (folded.Text.Trim().Length == 0)
            return Complain(marking, 0, "nothing is written", "Write what is printed on the part, with ? for what cannot be read.");
        if (context.Kind == Parts.PartKind.Valve)
            return Complain(marking, 0, "a valve is marked with its type, not with a value", "Look the type up in the handbook.");

        var drafts = Unreadable.IsIn(folded.Text)
            ? Unreadable.Read(folded.Text, context, out var failure)
            : Drafts(folded.Text, context, out failure);
        return failure is not null
            ? Complain(marking, folded.SourceOf(failure.At), failure.Problem, failure.Remedy)
            : Rank(drafts);
    }

    /// <summary>The drafts of a folded text without unreadable characters. A part's name before it (R12 47K) is left out if that helps.</summary>
    public static List<Draft> Drafts(string text, MarkingContext context, out Failure? failure)
    {
        var drafts = Once(text, context, out failure);
        if (failure is null || AfterName(text) is not { } rest) return drafts;
        var again = Once(new string(' ', rest) + text[rest..], context, out var other);
        if (other is not null) return drafts;
        failure = null;
        var name = text[..rest].Trim(' ', ':', '=', '.', '-');
        return [.. again.Select(d => d with { Meaning = d.Meaning with { Doubts = d.Meaning.Doubts.Add($"{name} is taken as the part's name") } })];
    }

    private static List<Draft> Once(string text, MarkingContext context, out Failure? failure)
    {
        var tokens = Lexer.Cut(text, out failure);
        if (failure is not null) return [];
        return Grammar.Read(text, tokens, out failure) is { } facts ? Assembly.Build(facts, context, out failure) : [];
    }

    // R12, C7A: letter, figures, perhaps a letter; then a blank or a colon and more.
    private static int? AfterName(string text)
    {
        var at = 0;
        while (at < text.Length && text[at] == ' ') at++;
        if (at >= text.Length || char.ToUpperInvariant(text[at]) is not ('R' or 'C' or 'L' or 'T')) return null;
        var figures = ++at;
        while (at < text.Length && char.IsAsciiDigit(text[at])) at++;
        if (at == figures || at - figures > 3) return null;
        if (at < text.Length && char.IsAsciiLetter(text[at])) at++;
        if (at >= text.Length || text[at] is not (' ' or ':' or '=')) return null;
        while (at < text.Length && text[at] is ' ' or ':' or '=') at++;
        return at < text.Length ? at : null;
    }

    /// <summary>Joins equal meanings, turns weights into shares, puts the likeliest first.</summary>
    private static MarkingResult Rank(List<Draft> drafts)
    {
        var joined = new List<(Meaning Meaning, double Weight)>();
        foreach (var draft in drafts.OrderByDescending(d => d.Weight))
        {
            var at = joined.FindIndex(j => Same(j.Meaning, draft.Meaning));
            if (at < 0) joined.Add((draft.Meaning, draft.Weight));
            else joined[at] = (joined[at].Meaning, joined[at].Weight + draft.Weight);
        }
        var total = joined.Sum(j => j.Weight);
        var kept = joined.Where(j => j.Weight / total >= SmallestShare).OrderByDescending(j => j.Weight).Take(12).ToList();
        var sum = kept.Sum(j => j.Weight);
        return new([.. kept.Select(j => j.Meaning with { Share = j.Weight / sum })], null);
    }

    private static bool Same(Meaning a, Meaning b) =>
        a.Unit == b.Unit && a.Tolerance == b.Tolerance && a.TempcoPpm == b.TempcoPpm && a.Sections.Length == b.Sections.Length
        && a.Sections.Zip(b.Sections).All(p => Math.Abs(p.First.Value / p.Second.Value - 1) < 1e-9 && p.First.RatedVolts == p.Second.RatedVolts);

    private static MarkingResult Complain(string marking, int at, string problem, string remedy) =>
        new([], new Complaint(Place, marking, Math.Clamp(at, 0, marking.Length), problem, remedy));
}

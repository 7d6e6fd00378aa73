using System.Collections.Immutable;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Puts together the sentence that reads back what was understood.</summary>
/// <remarks>What follows "assumed:", "before:", "new:" or "open:" is for people; quick entry leaves it out when it reads the sentence again.</remarks>
internal static class Sentence
{
    /// <summary>The rows in words, then what was assumed, what was there before, what comes new with it, and what is open.</summary>
    public static string Of(IEnumerable<string> rows, Part? before, ImmutableArray<BookEdit> edits, ImmutableArray<string> assumed, ImmutableArray<OpenField> open)
    {
        var sentence = string.Join("\n", rows);
        if (!assumed.IsEmpty) sentence += $"; assumed: {string.Join(", ", assumed)}";
        var changed = edits.OfType<ChangePart>().FirstOrDefault();
        if (changed is not null) sentence += $"; before: {ReadBack.Of(changed.Before)}";
        else if (before is not null && !edits.OfType<RemovePart>().Any()) sentence += "; before: the same";
        var added = edits.Where(e => e is AddMount or AddLug { Implied: true }).Select(e => e.Say["new ".Length..]).ToArray();
        if (added.Length > 0) sentence += $"; new: {string.Join(", ", added)}";
        if (!open.IsEmpty) sentence += $"; open: {string.Join(", ", open.Select(o => o.Say).Distinct())}";
        return sentence;
    }
}

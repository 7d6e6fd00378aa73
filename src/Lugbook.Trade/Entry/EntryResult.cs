using System.Collections.Immutable;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Entry;

/// <summary>One answer to a question: the line (or lines) to read in place of the one that raised it.</summary>
/// <param name="Say">The answer in words: "25 kΩ: M as thousand".</param>
/// <param name="Lines">What to read instead; lines are separated by a line feed.</param>
public sealed record EntryAlternative(string Say, string Lines);

/// <summary>Something that a bench note leaves open between a few answers.</summary>
/// <param name="Ask">The question: "What does 25M mean?".</param>
/// <param name="Alternatives">Two or more, likeliest first; people count them from 1.</param>
public sealed record EntryQuestion(string Ask, ImmutableArray<EntryAlternative> Alternatives)
{
    /// <summary>The question with its numbered answers on one line.</summary>
    public override string ToString() =>
        $"{Ask} {string.Join("; ", Alternatives.Select((a, i) => $"({i + 1}) {a.Say}"))}";
}

/// <summary>What one bench note means for the book. Nothing has been entered yet; <see cref="Apply"/> does that.</summary>
/// <remarks>
/// With complaints there are no edits. With a question there are edits for its first answer, except where no answer is
/// likelier than another: then there are none, and the line waits for the answer.
/// </remarks>
public sealed record EntryResult
{
    /// <summary>The line as written.</summary>
    public required string Line { get; init; }
    /// <summary>The changes, in the order in which they are to be made.</summary>
    public ImmutableArray<BookEdit> Edits { get; init; } = [];
    /// <summary>One sentence that reads back what was understood; empty when nothing was.</summary>
    public string Understood { get; init; } = "";
    /// <summary>What was taken to be so without being written.</summary>
    public ImmutableArray<string> Assumed { get; init; } = [];
    /// <summary>Fields of the parts concerned that are still to be filled in, most needed first.</summary>
    public ImmutableArray<OpenField> Open { get; init; } = [];
    /// <summary>What the line leaves open between a few answers.</summary>
    public ImmutableArray<EntryQuestion> Questions { get; init; } = [];
    /// <summary>What could not be read, with the place in the line.</summary>
    public ImmutableArray<Complaint> Complaints { get; init; } = [];
    /// <summary>What the next line is to be read against: the book with the edits, the last mount, the mode.</summary>
    public required EntryContext Next { get; init; }
    /// <summary>The reference that a next part of the same letter would get; null when the line was about no part.</summary>
    public string? NextReference { get; init; }

    /// <summary>Can it be entered as it stands?</summary>
    public bool IsReady => Complaints.IsEmpty && (Questions.IsEmpty || !Edits.IsEmpty);

    /// <summary>The book with all edits; the same book when there are none.</summary>
    /// <param name="book">The book that the line was read against.</param>
    /// <exception cref="KeyNotFoundException">A row to be changed has gone since; read the line again.</exception>
    public Book Apply(Book book) => Edits.Aggregate(book, (b, edit) => edit.Apply(b));
}

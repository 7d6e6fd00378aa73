using System.Collections.Immutable;
using Lugbook.Trade.Entry.Lines;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Entry;

/// <summary>One line of several.</summary>
/// <param name="Number">Counted from 1.</param>
/// <param name="Result">What it means, read against the book with the good lines before it.</param>
public sealed record EntryLine(int Number, EntryResult Result);

/// <summary>Several bench notes, pasted together. Nothing has been entered yet.</summary>
/// <param name="Lines">The lines that are not empty, in order.</param>
/// <param name="Before">The book that they were read against.</param>
/// <param name="Next">What the next line is to be read against if the good ones are entered.</param>
public sealed record EntryBatch(ImmutableArray<EntryLine> Lines, Book Before, EntryContext Next)
{
    /// <summary>All complaints, each with its line number.</summary>
    public ImmutableArray<Complaint> Complaints =>
        [.. Lines.SelectMany(l => l.Result.Complaints.Select(c => c with { Place = FormattableString.Invariant($"line {l.Number}") }))];

    /// <summary>Can every line be entered?</summary>
    public bool IsReady => Lines.Length > 0 && Lines.All(l => l.Result.IsReady);

    /// <summary>The book with all lines, or as it was when any line cannot be entered.</summary>
    public Book AllOrNothing => IsReady ? Next.Book : Before;

    /// <summary>The book with the lines that can be entered.</summary>
    public Book GoodOnes => Next.Book;

    /// <summary>Reads pasted bench notes line by line; each sees the good lines before it.</summary>
    /// <remarks>Spreadsheet rows (<see cref="PastedRows.LooksLikeTable"/>) are the exchange form's to read.</remarks>
    public static EntryBatch Read(string text, EntryContext context) => Read(text, context, MarkingReader.Read);

    /// <summary>The same with another reader of markings.</summary>
    internal static EntryBatch Read(string text, EntryContext context, Func<string, MarkingContext, MarkingResult> reader)
    {
        var lines = ImmutableArray.CreateBuilder<EntryLine>();
        var now = context;
        var number = 0;
        foreach (var line in text.ReplaceLineEndings("\n").Split('\n'))
        {
            number++;
            if (Words.Of(line).IsEmpty) continue;
            var result = QuickEntry.Read(line, now, reader);
            lines.Add(new(number, result));
            if (result.IsReady) now = result.Next;
        }
        return new(lines.ToImmutable(), context.Book, now);
    }
}

using System.Collections.Immutable;
using Lugbook.Trade;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>What came of reading a book: all of it, or nothing and every reason why.</summary>
/// <param name="Book">The book; null exactly when there is at least one complaint. Nothing is half imported.</param>
/// <param name="Complaints">Everything that must be mended, of all files at once, in the order of the files.</param>
/// <param name="Remarks">What was inferred, converted, left open or left out, as sentences; worth showing even after success.</param>
public sealed record ImportResult(Book? Book, ImmutableArray<Complaint> Complaints, ImmutableArray<string> Remarks)
{
    /// <summary>The content of the book's photographs, as far as the source carried it.</summary>
    public ImmutableArray<Photographs.PhotoContent> Photographs { get; init; } = [];

    internal static ImportResult Failed(params ImmutableArray<Complaint> complaints) => new(null, complaints, []);

    /// <summary>What became of the whole, in one sentence.</summary>
    public string Outcome => Book is { } book
        ? $"{book.Parts.Count} parts, {book.Lugs.Count} lugs and {book.Wires.Count} wires were read."
        : Complaints.Length == 1 ? "Nothing was imported; mend this and try again." : $"Nothing was imported; mend these {Complaints.Length} and try again.";
}

/// <summary>What came of reading one table from text: the same code serves a file and what is pasted into a page.</summary>
/// <param name="Rows">The rows in the order of the text; empty when there is a complaint.</param>
/// <param name="Complaints">Everything that must be mended.</param>
/// <param name="Remarks">What was inferred, converted, left open or left out.</param>
public sealed record TableRead<T>(ImmutableArray<T> Rows, ImmutableArray<Complaint> Complaints, ImmutableArray<string> Remarks)
{
    /// <summary>True when nothing must be mended.</summary>
    public bool IsGood => Complaints.IsEmpty;
}

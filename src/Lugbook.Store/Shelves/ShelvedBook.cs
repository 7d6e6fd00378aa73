using System.Collections.Immutable;
using System.Text.Json;
using Lugbook.Store.History;
using Lugbook.Trade;
using Microsoft.EntityFrameworkCore;

namespace Lugbook.Store.Shelves;

/// <summary>Where a row is, and its stored body, which may hold members that this version does not know.</summary>
internal readonly record struct StoredRow(long Place, string Body);

/// <summary>An edit that an undo or redo would concern.</summary>
internal sealed record Step(long Number, string What);

/// <summary>One version of a stored book: the contents, and what is needed to write the next version.</summary>
internal sealed record ShelvedBook(
    long Id, long Version, Book Book, ImmutableDictionary<(string Table, int RowId), StoredRow> Rows, Step? Undo, Step? Redo)
{
    public StoredBook Stored => new(Book, Version, Undo?.What, Redo?.What);

    /// <summary>Reads a book; the caller sees to it that all queries see one state of the database.</summary>
    /// <exception cref="ShelfException">A row cannot be understood.</exception>
    public static async Task<ShelvedBook> LoadAsync(ShelfContext db, BookRecord record, CancellationToken stop)
    {
        var rows = await db.Rows.AsNoTracking().Where(r => r.BookId == record.Id).OrderBy(r => r.Place).ThenBy(r => r.RowId).ToListAsync(stop);
        var (undo, redo) = await StepsAsync(db, record.Id, stop);
        return new(record.Id, record.Version, Compose(record.Name, rows),
            rows.ToImmutableDictionary(r => (r.Table, r.RowId), r => new StoredRow(r.Place, r.Body)), undo, redo);
    }

    /// <summary>What an undo and a redo would concern. Entry 1 is the book's arrival, which cannot be undone.</summary>
    public static async Task<(Step? Undo, Step? Redo)> StepsAsync(ShelfContext db, long bookId, CancellationToken stop)
    {
        var undo = await db.Edits.Where(e => e.BookId == bookId && e.Number > 1 && e.State == EditState.Applied)
            .OrderByDescending(e => e.Number).Select(e => new Step(e.Number, e.What)).FirstOrDefaultAsync(stop);
        var redo = await db.Edits.Where(e => e.BookId == bookId && e.State == EditState.Undone)
            .OrderBy(e => e.Number).Select(e => new Step(e.Number, e.What)).FirstOrDefaultAsync(stop);
        return (undo, redo);
    }

    private static Book Compose(string name, IReadOnlyList<RowRecord> rows)
    {
        var facts = rows.FirstOrDefault(r => r.Table == BookTables.Facts)
            ?? throw new ShelfException($"The book '{name}' has lost its first row: the shelf is damaged. Put the newest backup in its place.");
        var book = new Book { Name = name, Facts = Understand(name, facts, RowJson.Read<BookFacts>) };
        var byTable = rows.ToLookup(r => r.Table);
        foreach (var table in BookTables.All)
            if (byTable.Contains(table.Name))
                book = table.With(book, byTable[table.Name].Select(r => Understand(name, r, body => table.Read(r.RowId, body))));
        return book;
    }

    private static T Understand<T>(string book, RowRecord row, Func<string, T> read)
    {
        try
        {
            return read(row.Body);
        }
        catch (JsonException problem)
        {
            throw new ShelfException(
                $"In the book '{book}' this version cannot read row {row.RowId} ('{row.NameKey}') of table '{row.Table}': {problem.Message} "
                + "Most likely a newer Lugbook wrote it: use that one. Nothing was changed.", problem);
        }
    }
}

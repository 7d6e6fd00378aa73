using System.Collections.Immutable;
using Lugbook.Store.Photographs;
using Lugbook.Store.Shelves;
using Lugbook.Store.Sqlite;
using Lugbook.Trade;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>A book of the bench's shelf, called by its short name where a path may stand.</summary>
internal static class ShelfBook
{
    /// <summary>Who edits, in the history's words.</summary>
    public const string Who = "command";

    /// <summary>Opens the book of this name; null when it is no short name, or there is no shelf or no such book on it.</summary>
    /// <exception cref="ShelfException">The shelf could not be read.</exception>
    public static async Task<(Book Book, ImmutableArray<PhotoContent> Photographs)?> FindAsync(string name, CancellationToken stop)
    {
        if (name.AsSpan().IndexOfAny("/\\.") >= 0 || !File.Exists(BenchOptions.UsualShelfFile())) return null;
        await using var shelf = await OpenAsync(stop);
        try
        {
            var book = (await shelf.OpenAsync(name, stop)).Book;
            var photographs = ImmutableArray.CreateBuilder<PhotoContent>();
            foreach (var p in book.Photographs.DistinctBy(p => p.Content))
                if (await shelf.OriginalAsync(book.Name, p.Content, stop) is { } bytes) photographs.Add(new(p.Content, p.MediaType, p.Width, p.Height, bytes));
            return (book, photographs.ToImmutable());
        }
        catch (BookNotFoundException) { return null; }
    }

    /// <summary>Edits it as a page does: stored at once, in the history, to be taken back there.</summary>
    /// <exception cref="ShelfException">It could not be stored; nothing was changed.</exception>
    public static async Task EditAsync(string name, string what, Func<Book, Book> edit, CancellationToken stop)
    {
        await using var shelf = await OpenAsync(stop);
        await shelf.EditAsync(name, Who, what, edit, stop);
    }

    private static Task<SqliteShelf> OpenAsync(CancellationToken stop) => SqliteShelf.OpenAsync(BenchOptions.UsualShelfFile(), TimeProvider.System, stop);
}

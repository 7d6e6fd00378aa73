using System.Collections.Concurrent;
using Lugbook.Store.Shelves;

namespace Lugbook.Web;

/// <summary>The newest view of each open book, shared by all pages and devices so that an answer is computed once.</summary>
internal sealed class OpenBooks(IShelf shelf, BenchData data)
{
    private readonly ConcurrentDictionary<string, BookView> _views = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>The book as it is stored now.</summary>
    /// <exception cref="BookNotFoundException">There is no such book.</exception>
    public async Task<BookView> OpenAsync(string name, CancellationToken stop) => Keep(await shelf.OpenAsync(name, stop));

    /// <summary>The view of this content; the same object for the same version.</summary>
    public BookView Keep(StoredBook stored) => _views.AddOrUpdate(
        stored.Book.Name,
        _ => new BookView(stored, data),
        (_, kept) => kept.Stored.Version == stored.Version && kept.Book.Equals(stored.Book) ? kept : new BookView(stored, data, kept));
}

using Lugbook.Store.Photographs;
using Lugbook.Trade;

namespace Lugbook.Store.Shelves;

/// <summary>The content of books' photographs. What a photograph is of stands in its book; here are its bytes, known by their sum.</summary>
/// <remarks>
/// The original is kept byte for byte, in the same transaction as its row, for as long as the book is on the shelf: undo of a deletion finds it. Nothing here
/// is a path. Sized-down copies can be made again at any time and are kept beside the original so that they need not be.
/// </remarks>
public interface IPhotographs
{
    /// <summary>Keeps content and applies the edit that names it, together or not at all. An edit that changes nothing keeps nothing.</summary>
    Task<StoredBook> AddPhotographAsync(string name, string who, string what, PhotoContent content, Func<Book, Book> edit, CancellationToken stop);
    /// <summary>Puts a new book on the shelf with the content of its photographs.</summary>
    Task<StoredBook> AddAsync(Book book, IReadOnlyList<PhotoContent> photographs, string who, string what, CancellationToken stop);
    /// <summary>The original, byte for byte; null when this book has no such content.</summary>
    Task<byte[]?> OriginalAsync(string name, string sum, CancellationToken stop);
    /// <summary>A copy no longer than <paramref name="side"/> pixels, if one has been kept.</summary>
    Task<byte[]?> CopyAsync(string name, string sum, int side, CancellationToken stop);
    /// <summary>Keeps a copy. Does nothing when the original has gone meanwhile.</summary>
    Task KeepCopyAsync(string name, string sum, int side, byte[] copy, CancellationToken stop);
}

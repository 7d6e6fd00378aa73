using Lugbook.Store.Photographs;
using Lugbook.Trade;
using Microsoft.EntityFrameworkCore;

namespace Lugbook.Store.Shelves;

/// <summary>The content of photographs, in the same database and under the same lock as the books.</summary>
public abstract partial class DatabaseShelf
{
    /// <inheritdoc/>
    public Task<StoredBook> AddPhotographAsync(string name, string who, string what, PhotoContent content, Func<Book, Book> edit, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(content);
        return EditAsync(name, null, who, what, edit, (db, book) => AddContentAsync(db, book, content, stop), stop);
    }

    /// <inheritdoc/>
    public Task<StoredBook> AddAsync(Book book, IReadOnlyList<PhotoContent> photographs, string who, string what, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(photographs);
        return AddAsync(book, who, what, async (db, id) =>
        {
            foreach (var content in photographs.DistinctBy(c => c.Sum)) await AddContentAsync(db, id, content, stop);
        }, stop);
    }

    /// <inheritdoc/>
    public Task<byte[]?> OriginalAsync(string name, string sum, CancellationToken stop) => ContentAsync(name, sum, 0, stop);

    /// <inheritdoc/>
    public Task<byte[]?> CopyAsync(string name, string sum, int side, CancellationToken stop)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(side, 1);
        return ContentAsync(name, sum, side, stop);
    }

    /// <inheritdoc/>
    public Task KeepCopyAsync(string name, string sum, int side, byte[] copy, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(copy);
        ArgumentOutOfRangeException.ThrowIfLessThan(side, 1);
        return Guarded(() => WritingAsync(async () =>
        {
            var key = BookRecord.KeyOf(name);
            await using var db = NewContext();
            await using var writing = await BeginWriteAsync(db, stop);
            if (await db.Books.Where(b => b.NameKey == key).Select(b => (long?)b.Id).FirstOrDefaultAsync(stop) is not { } id) return false;
            var there = await db.Contents.Where(c => c.BookId == id && c.Sum == sum).Select(c => c.Side).ToListAsync(stop);
            if (!there.Contains(0) || there.Contains(side)) return false;
            db.Contents.Add(new() { BookId = id, Sum = sum, Side = side, Bytes = copy });
            await db.SaveChangesAsync(stop);
            await writing.CommitAsync(CancellationToken.None);
            return true;
        }, stop));
    }

    private Task<byte[]?> ContentAsync(string name, string sum, int side, CancellationToken stop) => Guarded(async () =>
    {
        var key = BookRecord.KeyOf(name);
        await using var db = NewContext();
        await using var reading = await BeginReadAsync(db, stop);
        return await (from book in db.Books
                      where book.NameKey == key
                      join content in db.Contents on book.Id equals content.BookId
                      where content.Sum == sum && content.Side == side
                      select content.Bytes).FirstOrDefaultAsync(stop);
    });

    private static async Task AddContentAsync(ShelfContext db, long book, PhotoContent content, CancellationToken stop)
    {
        if (!await db.Contents.AnyAsync(c => c.BookId == book && c.Sum == content.Sum && c.Side == 0, stop))
            db.Contents.Add(new() { BookId = book, Sum = content.Sum, Side = 0, Bytes = content.Bytes.ToArray() });
    }
}

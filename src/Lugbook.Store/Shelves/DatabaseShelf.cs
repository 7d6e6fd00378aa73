using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Text.Json;
using Lugbook.Store.History;
using Lugbook.Trade;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Lugbook.Store.Shelves;

/// <summary>A shelf in a database, whichever it is; what is special to one is in the class derived for it.</summary>
/// <remarks>
/// The database is the truth. A book read once is kept in memory and used again only while its version in the database is the same.
/// Writes go one at a time, each in one transaction; reads run beside them and see one state.
/// </remarks>
public abstract partial class DatabaseShelf : IShelf, IBenchPapers, IPhotographs, IAsyncDisposable
{
    private const int Attempts = 10;
    private const int MostKept = 32;

    private readonly TimeProvider _clock;
    private readonly SemaphoreSlim _writer = new(1, 1);
    private readonly ConcurrentDictionary<string, ShelvedBook> _kept = new();
    private bool _closed;

    private protected DatabaseShelf(TimeProvider clock) => _clock = clock;

    /// <inheritdoc/>
    public event Action<string>? Changed;

    /// <summary>A context of its own for the caller, who disposes it.</summary>
    private protected abstract ShelfContext NewContext();
    /// <summary>Starts a transaction in which all reads see one state, without keeping writers out; disposing ends it.</summary>
    private protected abstract Task<IAsyncDisposable> BeginReadAsync(ShelfContext db, CancellationToken stop);
    /// <summary>Starts a transaction for writing.</summary>
    private protected abstract Task<IDbContextTransaction> BeginWriteAsync(ShelfContext db, CancellationToken stop);
    /// <summary>What went wrong in the database in the user's terms, or null when the error is not the database's.</summary>
    private protected abstract ShelfException? Explain(Exception error);
    /// <summary>Lets go of what the shelf holds open.</summary>
    private protected abstract ValueTask CloseAsync();

    /// <inheritdoc/>
    public Task<IReadOnlyList<BookCard>> ListAsync(CancellationToken stop) => Guarded<IReadOnlyList<BookCard>>(async () =>
    {
        await using var db = NewContext();
        var books = await db.Books.AsNoTracking().OrderByDescending(b => b.ChangeOrder).ToListAsync(stop);
        return [.. books.Select(b => new BookCard(b.Name, b.Title, b.Parts, b.Done, new(b.ChangedUtc)))];
    });

    /// <inheritdoc/>
    public Task<StoredBook> OpenAsync(string name, CancellationToken stop) => Guarded(async () =>
    {
        var key = BookRecord.KeyOf(name);
        await using var db = NewContext();
        await using var reading = await BeginReadAsync(db, stop);
        var record = await db.Books.AsNoTracking().FirstOrDefaultAsync(b => b.NameKey == key, stop) ?? throw new BookNotFoundException(name);
        return (await CurrentAsync(db, record, stop)).Stored;
    });

    /// <inheritdoc/>
    public Task<StoredBook> AddAsync(Book book, string who, string what, CancellationToken stop) => AddAsync(book, who, what, (_, _) => Task.CompletedTask, stop);

    private async Task<StoredBook> AddAsync(Book book, string who, string what, Func<ShelfContext, long, Task> with, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(who);
        ArgumentNullException.ThrowIfNull(what);
        BookNames.Check(book.Name);
        var stored = await Guarded(() => WritingAsync(() => InsertAsync(book, who, what, with, stop), stop));
        Noted(stored);
        Tell(stored.Book.Name);
        return stored;
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<HistoryEntry>> HistoryAsync(string name, CancellationToken stop) => Guarded<IReadOnlyList<HistoryEntry>>(async () =>
    {
        var key = BookRecord.KeyOf(name);
        await using var db = NewContext();
        await using var reading = await BeginReadAsync(db, stop);
        var id = await db.Books.Where(b => b.NameKey == key).Select(b => (long?)b.Id).FirstOrDefaultAsync(stop) ?? throw new BookNotFoundException(name);
        var edits = await db.Edits.Where(e => e.BookId == id).OrderByDescending(e => e.Number)
            .Select(e => new { e.Number, e.WhenUtc, e.Who, e.What, e.State, e.UndoneBy, e.UndoneUtc }).ToListAsync(stop);
        return
        [
            .. edits.Select(e => new HistoryEntry(e.Number, new(e.WhenUtc), e.Who, e.What, e.State != EditState.Applied,
                e.State == EditState.Dropped, e.UndoneBy, e.UndoneUtc is { } when ? new(when) : null)),
        ];
    });

    /// <inheritdoc/>
    public async Task RemoveAsync(string name, CancellationToken stop)
    {
        var key = BookRecord.KeyOf(name);
        var removed = await Guarded(() => WritingAsync(async () =>
        {
            await using var db = NewContext();
            await using var writing = await BeginWriteAsync(db, stop);
            var written = await db.Books.Where(b => b.NameKey == key).Select(b => b.Name).FirstOrDefaultAsync(stop) ?? throw new BookNotFoundException(name);
            await db.Books.Where(b => b.NameKey == key).ExecuteDeleteAsync(stop);   // rows and edits go with it: the keys cascade
            await writing.CommitAsync(CancellationToken.None);
            _kept.TryRemove(key, out _);
            return written;
        }, stop));
        Tell(removed);
    }

    /// <summary>Waits for the write under way and closes. A second call does nothing.</summary>
    public async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        await _writer.WaitAsync();
        try
        {
            if (_closed) return;
            _closed = true;
            _kept.Clear();
            await CloseAsync();
        }
        finally
        {
            _writer.Release();
        }
    }

    /// <summary>Runs a piece of work; what the database could not do comes out in the user's terms.</summary>
    private protected async Task<T> Guarded<T>(Func<Task<T>> work)
    {
        ObjectDisposedException.ThrowIf(_closed, this);
        try
        {
            return await work();
        }
        catch (Exception error) when (error is not (ShelfException or OperationCanceledException) && Explain(error) is not null)
        {
            throw Explain(error)!;
        }
    }

    private async Task<T> WritingAsync<T>(Func<Task<T>> write, CancellationToken stop)
    {
        await _writer.WaitAsync(stop);
        try
        {
            ObjectDisposedException.ThrowIf(_closed, this);
            return await write();
        }
        finally
        {
            _writer.Release();
        }
    }

    private async Task<StoredBook> InsertAsync(Book book, string who, string what, Func<ShelfContext, long, Task> with, CancellationToken stop)
    {
        await using var db = NewContext();
        await using var writing = await BeginWriteAsync(db, stop);
        if (await IsTakenAsync(db, book.Name, stop)) throw new BookExistsException(book.Name);
        var now = _clock.GetUtcNow().UtcDateTime;
        var record = new BookRecord { Name = book.Name, NameKey = BookRecord.KeyOf(book.Name), Title = "", Version = 1, CreatedUtc = now };
        await DescribeAsync(db, record, book, stop);
        db.Books.Add(record);
        await db.SaveChangesAsync(stop);

        var empty = Book.Empty(book.Name, "");
        var changes = BookDiff.Between(empty, book with { Facts = empty.Facts });
        var plan = RowPlan.Make(record.Id, ImmutableDictionary<(string, int), StoredRow>.Empty, book,
            changes.Add(new(BookTables.Facts, BookTables.OnlyRow, null, null, null, RowJson.Write(book.Facts))));
        db.Rows.AddRange(plan.Insert);
        db.Edits.Add(NewEdit(record.Id, 1, who, what, []));
        await with(db, record.Id);
        await db.SaveChangesAsync(stop);
        await writing.CommitAsync(CancellationToken.None);

        // Read back from what was written, so that the answer is what a later reader gets.
        var asStored = BookDiff.Apply(empty, changes, Direction.Forward) with { Facts = RowJson.Read<BookFacts>(plan.Rows[(BookTables.Facts, BookTables.OnlyRow)].Body) };
        return Keep(record.NameKey, new(record.Id, record.Version, asStored, plan.Rows, null, null));
    }

    private async Task<StoredBook> ChangeAsync(
        string name, Func<ShelfContext, ShelvedBook, Task<ImmutableArray<RowChange>?>> decide, CancellationToken stop)
    {
        var (before, stored) = await Guarded(() => WritingAsync(async () =>
        {
            for (var attempt = 1; ; attempt++)
            {
                try
                {
                    return await TryChangeAsync(name, decide, stop);
                }
                catch (DbUpdateConcurrencyException conflict)
                {
                    // Another process stored a version in between: start again from that one.
                    _kept.TryRemove(BookRecord.KeyOf(name), out _);
                    if (attempt == Attempts)
                        throw new ShelfException($"Another program keeps changing the book '{name}'. Nothing was stored; try again.", conflict);
                    await Task.Delay(TimeSpan.FromMilliseconds(5 * attempt), _clock, stop);
                }
            }
        }, stop));
        if (before is null) return stored;
        Noted(stored);
        Tell(before);
        if (before != stored.Book.Name) Tell(stored.Book.Name);
        return stored;
    }

    /// <summary>One attempt. The name before is null when nothing was to be changed.</summary>
    private async Task<(string? Before, StoredBook Stored)> TryChangeAsync(
        string name, Func<ShelfContext, ShelvedBook, Task<ImmutableArray<RowChange>?>> decide, CancellationToken stop)
    {
        var key = BookRecord.KeyOf(name);
        await using var db = NewContext();
        await using var writing = await BeginWriteAsync(db, stop);
        var record = await db.Books.FirstOrDefaultAsync(b => b.NameKey == key, stop) ?? throw new BookNotFoundException(name);
        var current = await CurrentAsync(db, record, stop);
        if (await decide(db, current) is not { } changes) return (null, current.Stored);

        var after = Applied(current.Book, changes);
        if (after.Name != record.Name) await RenameAsync(db, record, after.Name, stop);
        var plan = RowPlan.Make(current.Id, current.Rows, after, changes);
        db.Rows.RemoveRange(plan.Delete);
        db.Rows.UpdateRange(plan.Update);
        db.Rows.AddRange(plan.Insert);
        record.Version++;
        await DescribeAsync(db, record, after, stop);
        await db.SaveChangesAsync(stop);
        var (undo, redo) = await ShelvedBook.StepsAsync(db, current.Id, stop);
        await writing.CommitAsync(CancellationToken.None);

        if (record.NameKey != key) _kept.TryRemove(key, out _);
        return (current.Book.Name, Keep(record.NameKey, new(current.Id, record.Version, after, plan.Rows, undo, redo)));
    }

    private static Book Applied(Book book, ImmutableArray<RowChange> changes)
    {
        try
        {
            return BookDiff.Apply(book, changes, Direction.Forward);
        }
        catch (Exception misfit) when (misfit is InvalidOperationException or JsonException)
        {
            throw new ShelfException($"This step of the history of '{book.Name}' cannot be taken: {misfit.Message} "
                + "Most likely a newer Lugbook made it: use that one. Nothing was changed.", misfit);
        }
    }

    private static async Task RenameAsync(ShelfContext db, BookRecord record, string name, CancellationToken stop)
    {
        BookNames.Check(name);
        var key = BookRecord.KeyOf(name);
        if (key != record.NameKey && await IsTakenAsync(db, name, stop)) throw new BookExistsException(name);
        (record.Name, record.NameKey) = (name, key);
    }

    /// <summary>What the card shows, and the order of the shelf.</summary>
    private async Task DescribeAsync(ShelfContext db, BookRecord record, Book book, CancellationToken stop)
    {
        record.Title = book.Facts.Title;
        record.Parts = book.Parts.Count;
        record.Done = book.Work.Count(w => w.Done);
        record.ChangedUtc = _clock.GetUtcNow().UtcDateTime;
        record.ChangeOrder = (await db.Books.MaxAsync(b => (long?)b.ChangeOrder, stop) ?? 0) + 1;
    }

    private static Task<bool> IsTakenAsync(ShelfContext db, string name, CancellationToken stop)
    {
        var key = BookRecord.KeyOf(name);
        return db.Books.AnyAsync(b => b.NameKey == key, stop);
    }

    private async Task<ShelvedBook> CurrentAsync(ShelfContext db, BookRecord record, CancellationToken stop)
    {
        if (_kept.TryGetValue(record.NameKey, out var kept) && kept.Id == record.Id && kept.Version == record.Version) return kept;
        var loaded = await ShelvedBook.LoadAsync(db, record, stop);
        Keep(record.NameKey, loaded);
        return loaded;
    }

    private StoredBook Keep(string key, ShelvedBook book)
    {
        if (_kept.Count >= MostKept && !_kept.ContainsKey(key)) _kept.Clear();   // far more books than anyone works on at once
        _kept[key] = book;
        return book.Stored;
    }
}

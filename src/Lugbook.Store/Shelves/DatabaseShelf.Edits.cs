using System.Collections.Immutable;
using Lugbook.Store.History;
using Lugbook.Trade;
using Microsoft.EntityFrameworkCore;

namespace Lugbook.Store.Shelves;

/// <summary>Edits, and taking them back.</summary>
public abstract partial class DatabaseShelf
{
    /// <inheritdoc/>
    public Task<StoredBook> EditAsync(string name, string who, string what, Func<Book, Book> edit, CancellationToken stop) => EditAsync(name, null, who, what, edit, stop);

    /// <inheritdoc/>
    public Task<StoredBook> EditOnceAsync(string name, Guid token, string who, string what, Func<Book, Book> edit, CancellationToken stop) => EditAsync(name, token, who, what, edit, stop);

    private Task<StoredBook> EditAsync(string name, Guid? token, string who, string what, Func<Book, Book> edit, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(who);
        ArgumentNullException.ThrowIfNull(what);
        ArgumentNullException.ThrowIfNull(edit);
        return ChangeAsync(name, async (db, current) =>
        {
            if (token is not null && await db.Edits.AnyAsync(e => e.BookId == current.Id && e.Token == token, stop)) return null;
            var after = edit(current.Book) ?? throw new InvalidOperationException($"The edit '{what}' gave no book.");
            var changes = RowPlan.Carry(current.Rows, BookDiff.Between(current.Book, after));
            if (changes.IsEmpty) return null;
            if (current.Redo is not null)
            {
                await db.Edits.Where(e => e.BookId == current.Id && e.State == EditState.Undone)
                    .ExecuteUpdateAsync(e => e.SetProperty(x => x.State, EditState.Dropped), stop);
            }
            var last = await db.Edits.Where(e => e.BookId == current.Id).MaxAsync(e => e.Number, stop);
            db.Edits.Add(NewEdit(current.Id, last + 1, who, what, changes, token));
            return changes;
        }, stop);
    }

    /// <inheritdoc/>
    public Task<StoredBook> UndoAsync(string name, string who, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(who);
        return ChangeAsync(name, async (db, current) =>
        {
            if (current.Undo is null) return null;
            var edit = await EditOf(db, current.Id, current.Undo.Number, stop);
            (edit.State, edit.UndoneBy, edit.UndoneUtc) = (EditState.Undone, who, _clock.GetUtcNow().UtcDateTime);
            return [.. RowJson.Read<ImmutableArray<RowChange>>(edit.Changes).Select(c => c.Reversed())];
        }, stop);
    }

    /// <inheritdoc/>
    public Task<StoredBook> RedoAsync(string name, string who, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(who);
        return ChangeAsync(name, async (db, current) =>
        {
            if (current.Redo is null) return null;
            var edit = await EditOf(db, current.Id, current.Redo.Number, stop);
            edit.State = EditState.Applied;
            return RowJson.Read<ImmutableArray<RowChange>>(edit.Changes);
        }, stop);
    }

    private EditRecord NewEdit(long book, long number, string who, string what, ImmutableArray<RowChange> changes, Guid? token = null) => new()
    {
        BookId = book, Number = number, WhenUtc = _clock.GetUtcNow().UtcDateTime, Who = who, What = what, Changes = RowJson.Write(changes), Token = token,
    };

    private static Task<EditRecord> EditOf(ShelfContext db, long book, long number, CancellationToken stop) =>
        db.Edits.FirstAsync(e => e.BookId == book && e.Number == number, stop);
}

using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;

namespace Lugbook.Store.Shelves;

public abstract partial class DatabaseShelf
{
    // By key: the name and the version that were last told.
    private readonly ConcurrentDictionary<string, (string Name, long Version)> _told = new();
    private bool _looked;

    /// <inheritdoc/>
    public async Task LookAsync(CancellationToken stop)
    {
        var now = await Guarded(async () =>
        {
            await using var db = NewContext();
            return await db.Books.AsNoTracking().Select(b => new { b.NameKey, b.Name, b.Version }).ToListAsync(stop);
        });
        var first = !_looked;
        _looked = true;
        foreach (var (key, was) in _told)
            if (!now.Exists(b => b.NameKey == key) && _told.TryRemove(key, out _) && !first) Tell(was.Name);
        foreach (var book in now)
        {
            var isNew = !_told.TryGetValue(book.NameKey, out var was) || was.Version != book.Version;
            _told[book.NameKey] = (book.Name, book.Version);
            if (isNew && !first) Tell(book.Name);
        }
    }

    // What this process stored and told need not be told again.
    private void Noted(StoredBook stored) => _told[BookRecord.KeyOf(stored.Book.Name)] = (stored.Book.Name, stored.Version);

    /// <summary>The edit is stored: a handler that throws must not make it look otherwise, nor keep the others from hearing.</summary>
    private void Tell(string name)
    {
        foreach (var handler in (Changed?.GetInvocationList() ?? []).Cast<Action<string>>())
        {
            try
            {
                handler(name);
            }
#pragma warning disable CA1031 // see the summary
            catch (Exception)
            {
            }
#pragma warning restore CA1031
        }
    }
}

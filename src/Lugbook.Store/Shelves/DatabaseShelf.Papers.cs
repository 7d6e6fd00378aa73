using System.Collections.Immutable;
using Lugbook.Store.History;
using Microsoft.EntityFrameworkCore;

namespace Lugbook.Store.Shelves;

/// <summary>The papers of the bench, in the same database and under the same lock as the books.</summary>
public abstract partial class DatabaseShelf
{
    private const int PaperEditsKept = 100;

    /// <inheritdoc/>
    public event Action? PapersChanged;

    /// <inheritdoc/>
    public Task<BenchPapers> PapersAsync(CancellationToken stop) => Guarded(async () =>
    {
        await using var db = NewContext();
        await using var reading = await BeginReadAsync(db, stop);
        return await PapersOf(db, stop);
    });

    /// <inheritdoc/>
    public async Task<BenchPapers> EditPapersAsync(string who, string what, Func<ImmutableDictionary<string, string>, ImmutableDictionary<string, string>> edit, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(who);
        ArgumentNullException.ThrowIfNull(what);
        ArgumentNullException.ThrowIfNull(edit);
        var (papers, changed) = await Guarded(() => WritingAsync(async () =>
        {
            await using var db = NewContext();
            await using var writing = await BeginWriteAsync(db, stop);
            var before = (await PapersOf(db, stop)).Papers;
            var after = edit(before);
            ImmutableArray<PaperChange> changes = [.. before.Keys.Union(after.Keys).Order(StringComparer.Ordinal)
                .Select(n => new PaperChange(n, before.GetValueOrDefault(n), after.GetValueOrDefault(n))).Where(c => c.Before != c.After)];
            if (changes.IsEmpty) return (await PapersOf(db, stop), false);
            await ApplyAsync(db, changes.Select(c => (c.Name, c.After)), stop);
            var number = (await db.PaperEdits.MaxAsync(e => (long?)e.Number, stop) ?? 0) + 1;
            db.PaperEdits.Add(new() { Number = number, WhenUtc = _clock.GetUtcNow().UtcDateTime, Who = who, What = what, Changes = RowJson.Write(changes) });
            await db.SaveChangesAsync(stop);
            await db.PaperEdits.Where(e => e.Number <= number - PaperEditsKept).ExecuteDeleteAsync(stop);
            var stored = await PapersOf(db, stop);
            await writing.CommitAsync(CancellationToken.None);
            return (stored, true);
        }, stop));
        if (changed) TellPapers();
        return papers;
    }

    /// <inheritdoc/>
    public async Task<BenchPapers> UndoPapersAsync(CancellationToken stop)
    {
        var papers = await Guarded(() => WritingAsync(async () =>
        {
            await using var db = NewContext();
            await using var writing = await BeginWriteAsync(db, stop);
            if (await db.PaperEdits.OrderByDescending(e => e.Number).FirstOrDefaultAsync(stop) is { } last)
            {
                await ApplyAsync(db, RowJson.Read<ImmutableArray<PaperChange>>(last.Changes).Select(c => (c.Name, c.Before)), stop);
                db.PaperEdits.Remove(last);
                await db.SaveChangesAsync(stop);
            }
            var stored = await PapersOf(db, stop);
            await writing.CommitAsync(CancellationToken.None);
            return stored;
        }, stop));
        TellPapers();
        return papers;
    }

    private static async Task ApplyAsync(ShelfContext db, IEnumerable<(string Name, string? Body)> papers, CancellationToken stop)
    {
        foreach (var (name, body) in papers)
        {
            var kept = await db.Papers.FirstOrDefaultAsync(p => p.Name == name, stop);
            if (body is null) { if (kept is not null) db.Papers.Remove(kept); }
            else if (kept is null) db.Papers.Add(new() { Name = name, Body = body });
            else kept.Body = body;
        }
    }

    private static async Task<BenchPapers> PapersOf(ShelfContext db, CancellationToken stop)
    {
        var papers = await db.Papers.AsNoTracking().ToListAsync(stop);
        var last = await db.PaperEdits.AsNoTracking().OrderByDescending(e => e.Number).Select(e => e.What).FirstOrDefaultAsync(stop);
        return new(papers.ToImmutableDictionary(p => p.Name, p => p.Body, StringComparer.Ordinal), last);
    }

    // The edit is stored: a handler that throws must not make it look otherwise.
    private void TellPapers()
    {
        foreach (var handler in (PapersChanged?.GetInvocationList() ?? []).Cast<Action>())
        {
            try
            {
                handler();
            }
#pragma warning disable CA1031
            catch (Exception)
            {
            }
#pragma warning restore CA1031
        }
    }

    /// <summary>One paper before and after an edit; null: not there.</summary>
    internal sealed record PaperChange(string Name, string? Before, string? After);
}

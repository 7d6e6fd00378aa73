using System.Collections.Immutable;
using Lugbook.Store.History;
using Lugbook.Trade;

namespace Lugbook.Store.Shelves;

/// <summary>The rows to write for a list of changes.</summary>
internal sealed record RowPlan(
    IReadOnlyList<RowRecord> Insert, IReadOnlyList<RowRecord> Update, IReadOnlyList<RowRecord> Delete,
    ImmutableDictionary<(string Table, int RowId), StoredRow> Rows)
{
    /// <summary>Pure: what to write so that the stored rows of a book become those after the changes.</summary>
    public static RowPlan Make(
        long bookId, ImmutableDictionary<(string Table, int RowId), StoredRow> stored, Book after, IEnumerable<RowChange> changes)
    {
        var (insert, update, delete) = (new List<RowRecord>(), new List<RowRecord>(), new List<RowRecord>());
        var rows = stored.ToBuilder();
        foreach (var group in changes.Where(c => c.Table != BookTables.Name).GroupBy(c => c.Table))
        {
            var byId = group.ToDictionary(c => c.RowId);
            foreach (var gone in group.Where(c => c is { BeforePlace: not null, AfterPlace: null }))
            {
                delete.Add(Record(group.Key, gone.RowId, "", default));
                rows.Remove((group.Key, gone.RowId));
            }
            if (group.Key == BookTables.Facts)
            {
                Put(group.Key, BookTables.OnlyRow, "", new(0, byId[BookTables.OnlyRow].AfterJson!));
                continue;
            }
            var now = BookTables.All.First(t => t.Name == group.Key).RowsOf(after);
            var places = Places.Fill([.. now.Select(r =>
                byId.GetValueOrDefault(r.Id)?.AfterPlace is null ? stored[(group.Key, r.Id)].Place : (long?)null)]);
            for (var i = 0; i < now.Count; i++)
                Put(group.Key, now[i].Id, now[i].Name, new(places[i], byId.GetValueOrDefault(now[i].Id)?.AfterJson ?? stored[(group.Key, now[i].Id)].Body));
        }
        return new(insert, update, delete, rows.ToImmutable());

        void Put(string table, int id, string name, StoredRow row)
        {
            if (!stored.TryGetValue((table, id), out var old)) insert.Add(Record(table, id, name, row));
            else if (old != row) update.Add(Record(table, id, name, row));
            rows[(table, id)] = row;
        }

        RowRecord Record(string table, int id, string name, StoredRow row) =>
            new() { BookId = bookId, Table = table, RowId = id, NameKey = BookRecord.KeyOf(name), Place = row.Place, Body = row.Body ?? "" };
    }

    /// <summary>
    /// The changes with their bodies as the database has them: what was there to the letter, and in what comes those members
    /// that a newer version wrote and this one does not know.
    /// </summary>
    public static ImmutableArray<RowChange> Carry(
        ImmutableDictionary<(string Table, int RowId), StoredRow> stored, IEnumerable<RowChange> changes) =>
    [
        .. changes.Select(change =>
            change.BeforeJson is null || !stored.TryGetValue((change.Table, change.RowId), out var row) ? change
            : change with
            {
                BeforeJson = row.Body,
                AfterJson = change.AfterJson is { } fresh ? RowJson.KeepUnknown(BookTables.TypeOf(change.Table)!, row.Body, fresh) : null,
            }),
    ];
}

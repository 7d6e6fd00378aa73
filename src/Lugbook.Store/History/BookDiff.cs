using System.Collections.Immutable;
using Lugbook.Trade;

namespace Lugbook.Store.History;

/// <summary>What differs between two versions of a book, row by row, so that it can be stored, taken back and put again.</summary>
/// <remarks>
/// Pure. For any books a and b: <c>Apply(a, Between(a, b), Forward)</c> equals b, and <c>Apply(b, Between(a, b), Backward)</c> equals a.
/// Rows are matched by identity. Of a change of order the fewest rows that explain it are named (longest increasing subsequence of places).
/// </remarks>
public static class BookDiff
{
    /// <summary>The changes that lead from one book to the other; empty when they are equal.</summary>
    public static ImmutableArray<RowChange> Between(Book before, Book after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        var changes = ImmutableArray.CreateBuilder<RowChange>();
        if (before.Name != after.Name)
            changes.Add(new(BookTables.Name, BookTables.OnlyRow, null, null, RowJson.Write(before.Name), RowJson.Write(after.Name)));
        if (before.Facts != after.Facts)
            changes.Add(new(BookTables.Facts, BookTables.OnlyRow, null, null, RowJson.Write(before.Facts), RowJson.Write(after.Facts)));
        foreach (var table in BookTables.All)
        {
            var (was, now) = (table.RowsOf(before), table.RowsOf(after));
            if (!ReferenceEquals(was, now)) AddTable(changes, table, was, now);
        }
        return changes.ToImmutable();
    }

    /// <summary>The book with the changes applied one way.</summary>
    /// <exception cref="InvalidOperationException">The changes were not made on this book: a row is missing, there already, or has no such place.</exception>
    /// <exception cref="System.Text.Json.JsonException">A body is not what this version writes.</exception>
    public static Book Apply(Book book, IEnumerable<RowChange> changes, Direction direction)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(changes);
        foreach (var group in changes.Select(c => direction == Direction.Forward ? c : c.Reversed()).GroupBy(c => c.Table))
        {
            book = group.Key switch
            {
                BookTables.Name => book with { Name = RowJson.Read<string>(Body(group.Single())) },
                BookTables.Facts => book with { Facts = RowJson.Read<BookFacts>(Body(group.Single())) },
                _ => ApplyTable(book, BookTables.All.FirstOrDefault(t => t.Name == group.Key) ?? throw Misfit(group.First(), "this version has no such table"), [.. group]),
            };
        }
        return book;
    }

    private static void AddTable(ImmutableArray<RowChange>.Builder changes, BookTable table, IReadOnlyList<Row> was, IReadOnlyList<Row> now)
    {
        var placeBefore = new Dictionary<int, int>(was.Count);
        for (var i = 0; i < was.Count; i++) placeBefore.Add(was[i].Id, i);
        var identities = now.Select(r => r.Id).ToHashSet();
        for (var i = 0; i < was.Count; i++)
            if (!identities.Contains(was[i].Id)) changes.Add(new(table.Name, was[i].Id, i, null, table.Write(was[i]), null));

        var stays = Rising([.. now.Where(r => placeBefore.ContainsKey(r.Id)).Select(r => placeBefore[r.Id])]);
        for (var i = 0; i < now.Count; i++)
        {
            var row = now[i];
            if (!placeBefore.TryGetValue(row.Id, out var from))
            {
                changes.Add(new(table.Name, row.Id, null, i, null, table.Write(row)));
                continue;
            }
            var (moved, altered) = (!stays.Contains(from), !was[from].Equals(row));
            if (moved || altered)
            {
                changes.Add(new(table.Name, row.Id, moved ? from : null, moved ? i : null,
                    altered ? table.Write(was[from]) : null, altered ? table.Write(row) : null));
            }
        }
    }

    private static Book ApplyTable(Book book, BookTable table, IReadOnlyList<RowChange> changes)
    {
        var rows = table.RowsOf(book).ToDictionary(r => r.Id);
        var leaving = new HashSet<int>();
        var arriving = new List<(int Place, Row Row)>();
        foreach (var change in changes)
        {
            var there = rows.GetValueOrDefault(change.RowId);
            var comes = change is { BeforePlace: null, AfterPlace: not null };
            if (comes != there is null) throw Misfit(change, comes ? "the row is there already" : "the row is not there");
            var after = change.AfterJson is { } body ? table.Read(change.RowId, body) : there;
            if (change.BeforePlace is not null) leaving.Add(change.RowId);
            if (change.AfterPlace is { } place) arriving.Add((place, after ?? throw Misfit(change, "a row comes without content")));
            else if (change.BeforePlace is null) rows[change.RowId] = after!;
        }
        var result = table.RowsOf(book).Where(r => !leaving.Contains(r.Id)).Select(r => rows[r.Id]).ToList();
        foreach (var (place, row) in arriving.OrderBy(a => a.Place))
        {
            if (place > result.Count)
                throw new InvalidOperationException($"The change of {table.Name} row {row.Id} does not fit the book: there is no place {place}.");
            result.Insert(place, row);
        }
        return table.With(book, result);
    }

    /// <summary>The values of a longest rising subsequence: the rows that need not move. All values differ.</summary>
    private static HashSet<int> Rising(int[] values)
    {
        var tails = new List<int>();                     // index of the smallest last value of each length
        var previous = new int[values.Length];
        for (var i = 0; i < values.Length; i++)
        {
            var (low, high) = (0, tails.Count);
            while (low < high)
            {
                var middle = (low + high) / 2;
                if (values[tails[middle]] < values[i]) low = middle + 1;
                else high = middle;
            }
            previous[i] = low == 0 ? -1 : tails[low - 1];
            if (low == tails.Count) tails.Add(i);
            else tails[low] = i;
        }
        var kept = new HashSet<int>();
        for (var i = tails.Count == 0 ? -1 : tails[^1]; i >= 0; i = previous[i]) kept.Add(values[i]);
        return kept;
    }

    private static string Body(RowChange change) => change.AfterJson ?? throw Misfit(change, "it has no content");

    private static InvalidOperationException Misfit(RowChange change, string why) =>
        new($"The change of {change.Table} row {change.RowId} does not fit the book: {why}.");
}

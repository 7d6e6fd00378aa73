using System.Collections;
using System.Collections.Immutable;

namespace Lugbook.Trade;

/// <summary>An immutable list of rows in the order in which people wrote them, found by name or identity.</summary>
/// <remarks>Names are compared without regard to case. Equality is by content and order.</remarks>
public sealed class Table<T> : IReadOnlyList<T>, IEquatable<Table<T>> where T : Row
{
    private readonly ImmutableArray<T> _rows;
    private readonly Lazy<(Dictionary<string, T> ByName, Dictionary<int, T> ById)> _index;

    private Table(ImmutableArray<T> rows)
    {
        _rows = rows;
        _index = new(() =>
        {
            var byName = new Dictionary<string, T>(rows.Length, StringComparer.OrdinalIgnoreCase);
            var byId = new Dictionary<int, T>(rows.Length);
            foreach (var row in rows)
            {
                byName.TryAdd(row.Name, row);
                if (!byId.TryAdd(row.Id, row)) throw new InvalidOperationException($"Two rows have the identity {row.Id}.");
            }
            return (byName, byId);
        });
    }

    /// <summary>No rows.</summary>
    public static Table<T> Empty { get; } = new([]);

    /// <summary>A table of these rows; those without an identity get the next free one.</summary>
    /// <exception cref="InvalidOperationException">Two rows have one identity.</exception>
    public static Table<T> Of(IEnumerable<T> rows)
    {
        var given = rows.ToImmutableArray();
        var next = given.IsEmpty ? 1 : given.Max(r => r.Id) + 1;
        var table = new Table<T>([.. given.Select(r => r.Id > 0 ? r : (T)((Row)r with { Id = next++ }))]);
        _ = table._index.Value;
        return table;
    }

    /// <inheritdoc/>
    public int Count => _rows.Length;
    /// <inheritdoc/>
    public T this[int index] => _rows[index];
    /// <summary>The first row of this name, or null.</summary>
    public T? Named(string? name) => name is null ? null : _index.Value.ByName.GetValueOrDefault(name);
    /// <summary>The row of this identity, or null.</summary>
    public T? ById(int id) => _index.Value.ById.GetValueOrDefault(id);
    /// <summary>Appends a row and gives it the next free identity, unless it has one.</summary>
    public Table<T> Add(T row) => Of(_rows.Add(row));
    /// <summary>Appends several rows.</summary>
    public Table<T> AddRange(IEnumerable<T> rows) => Of(_rows.AddRange(rows));
    /// <summary>Puts a row in place of the one with its identity.</summary>
    /// <exception cref="KeyNotFoundException">No row has that identity.</exception>
    public Table<T> Replace(T row)
    {
        var at = IndexOf(row.Id);
        return new(_rows.SetItem(at, row));
    }
    /// <summary>Takes out the row of this identity.</summary>
    /// <exception cref="KeyNotFoundException">No row has that identity.</exception>
    public Table<T> Remove(int id) => new(_rows.RemoveAt(IndexOf(id)));

    private int IndexOf(int id)
    {
        for (var i = 0; i < _rows.Length; i++)
            if (_rows[i].Id == id) return i;
        throw new KeyNotFoundException($"No row has the identity {id}; someone may have removed it.");
    }

    /// <inheritdoc/>
    public IEnumerator<T> GetEnumerator() => ((IEnumerable<T>)_rows).GetEnumerator();
    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
    /// <inheritdoc/>
    public bool Equals(Table<T>? other) => other is not null && _rows.SequenceEqual(other._rows);
    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Table<T>);
    /// <inheritdoc/>
    public override int GetHashCode() => _rows.Aggregate(Count, HashCode.Combine);
}

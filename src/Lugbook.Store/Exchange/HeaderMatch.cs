using System.Collections.Immutable;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>A column of the file that Lugbook understands.</summary>
/// <param name="Index">Place in the row, from 0.</param>
/// <param name="Header">As written.</param>
/// <param name="Unit">Unit that the header, or the line of units beneath it, names; null when none.</param>
internal sealed record MatchedColumn(int Index, string Header, string? Unit);

/// <summary>Which column of a file is which, and which are not known and kept.</summary>
internal sealed class HeaderMatch
{
    /// <summary>How far down a header may stand, below titles.</summary>
    private const int TitleLines = 25;

    private HeaderMatch(ImmutableArray<GridRow> body, int width, Dictionary<string, MatchedColumn> known, ImmutableArray<(int Index, string Key)> unknown) =>
        (Body, Width, Known, Unknown) = (body, width, known, unknown);

    /// <summary>The rows below the header.</summary>
    public ImmutableArray<GridRow> Body { get; private set; }
    /// <summary>Cells that the header has.</summary>
    public int Width { get; }
    /// <summary>Column key to place.</summary>
    public Dictionary<string, MatchedColumn> Known { get; }
    /// <summary>Columns kept as they are.</summary>
    public ImmutableArray<(int Index, string Key)> Unknown { get; }

    /// <summary>How many headers of this row are understood; 0 when it cannot be the header.</summary>
    public static int Score(IReadOnlyList<string> cells, TableShape shape) => Assign(cells, shape).Count;

    /// <summary>Is there a header with all that this table needs, and more than one column of it?</summary>
    public static bool Suits(Grid grid, TableShape shape) =>
        grid.Rows.Take(TitleLines).Any(r => Assign(r.Cells, shape) is { Count: > 1 } known && Suffices(known, shape));

    /// <summary>The header that Lugbook itself wrote: its own columns in their order, then the unknown ones.</summary>
    public static HeaderMatch? Exact(Grid grid, TableShape shape)
    {
        if (grid.Rows.IsEmpty) return null;
        var header = grid.Rows[0].Cells;
        var known = new Dictionary<string, MatchedColumn>();
        var i = 0;
        // An earlier release may lack a column: each is taken where it stands in the order.
        foreach (var key in shape.Written.Append("row_id"))
            if (i < header.Length && header[i] == key) known[key] = new(i++, key, null);
        if (known.Count == 0) return null;
        return new(grid.Rows[1..], header.Length, known, [.. Enumerable.Range(i, header.Length - i).Select(n => (n, header[n]))]);
    }

    /// <summary>Finds the header below any titles; complains when the needed columns are not there.</summary>
    public static HeaderMatch? Find(Grid grid, TableShape shape, List<Complaint> complaints, List<string> remarks)
    {
        var look = grid.Rows.Take(TitleLines).ToList();
        var best = -1;
        var bestKnown = new Dictionary<string, MatchedColumn>();
        for (var r = 0; r < look.Count; r++)
        {
            var known = Assign(look[r].Cells, shape);
            var (suffices, beaten) = (Suffices(known, shape), Suffices(bestKnown, shape));
            if ((suffices && !beaten) || (suffices == beaten && known.Count > bestKnown.Count)) (best, bestKnown) = (r, known);
        }
        if (best < 0 || !Suffices(bestKnown, shape))
        {
            complaints.Add(Missing(grid, shape, best < 0 ? null : look[best], bestKnown));
            return null;
        }
        if (best > 0) remarks.Add($"{grid.Place}: what stands above the header in {grid.LineWord} {look[best].Line} was left out.");
        ColumnContent.Refine(grid, best, shape, bestKnown, remarks);
        var header = look[best];
        var unknown = KeepUnknown(grid, header, bestKnown, best, remarks);
        var match = new HeaderMatch(grid.Rows[(best + 1)..], header.Cells.Length, bestKnown, unknown);
        match.TakeUnitLine(shape);
        return match.UnitsAreUnderstood(grid, header, shape, complaints) ? match : null;
    }

    private static bool Suffices(Dictionary<string, MatchedColumn> known, TableShape shape) =>
        shape.Required.Any(set => set.All(known.ContainsKey));

    /// <summary>Gives each header to the column that it names best; a header that names nothing, or comes second, is left over.</summary>
    private static Dictionary<string, MatchedColumn> Assign(IReadOnlyList<string> cells, TableShape shape)
    {
        var candidates = new List<(int Rank, int Index, string Key, string? Unit)>();
        for (var i = 0; i < Math.Min(cells.Count, ImportLimits.Columns); i++)
        {
            if (cells[i].Length is 0 or > 60) continue;
            foreach (var column in shape.Columns)
                if (HeaderWords.Rank(cells[i], column, out var unit) is { } rank) candidates.Add((rank, i, column.Key, unit));
        }
        var known = new Dictionary<string, MatchedColumn>();
        var taken = new HashSet<int>();
        foreach (var (_, index, key, unit) in candidates.OrderBy(c => c.Rank).ThenBy(c => c.Index))
            if (!known.ContainsKey(key) && taken.Add(index)) known[key] = new(index, cells[index].Trim(), unit);
        return known;
    }

    private static ImmutableArray<(int, string)> KeepUnknown(Grid grid, GridRow header, Dictionary<string, MatchedColumn> known, int at, List<string> remarks)
    {
        var understood = known.Values.Select(m => m.Index).ToHashSet();
        var keys = new HashSet<string>(known.Values.Select(m => m.Header));
        var kept = ImmutableArray.CreateBuilder<(int, string)>();
        for (var i = 0; i < header.Cells.Length; i++)
        {
            if (understood.Contains(i)) continue;
            var key = header.Cells[i].Trim();
            if (key.Length == 0)
            {
                // A column without a header matters only when something stands in it.
                if (grid.Rows[(at + 1)..].All(r => r.Cells.Length <= i || string.IsNullOrWhiteSpace(r.Cells[i]))) continue;
                key = $"(column {i + 1})";
            }
            var free = key;
            for (var n = 2; !keys.Add(free); n++) free = $"{key} ({n})";
            kept.Add((i, free));
        }
        if (kept.Count > 0) remarks.Add($"{grid.Place}: kept as they are, being unknown: {string.Join(", ", kept.Select(k => k.Item2))}.");
        return kept.ToImmutable();
    }

    /// <summary>A line of units beneath the header: every cell that is filled names a unit of its column.</summary>
    private void TakeUnitLine(TableShape shape)
    {
        if (Body.IsEmpty || Body[0].IsBlank) return;
        var units = new List<(string Key, string Unit)>();
        var filled = 0;
        for (var i = 0; i < Body[0].Cells.Length; i++)
        {
            var cell = Body[0].Cells[i].Trim();
            if (cell.Length == 0) continue;
            filled++;
            var unit = cell.Trim('(', ')', '[', ']', ' ');
            if (Known.FirstOrDefault(k => k.Value.Index == i).Key is { } key && UnitWords.Fits(unit, shape[key].Measure)) units.Add((key, unit));
        }
        if (units.Count != filled) return;
        foreach (var (key, unit) in units) Known[key] = Known[key] with { Unit = unit };
        Body = Body[1..];
    }

    private bool UnitsAreUnderstood(Grid grid, GridRow header, TableShape shape, List<Complaint> complaints)
    {
        var good = true;
        foreach (var (key, column) in Known)
            if (column.Unit is { } unit && !UnitWords.Fits(unit, shape[key].Measure))
            {
                complaints.Add(new($"{grid.Place}, {grid.LineWord} {header.Line}, column '{column.Header}'", column.Header, Math.Max(0, column.Header.LastIndexOf(unit, StringComparison.Ordinal)),
                    $"'{unit}' is not a unit of one meaning for this column.", $"Write {UnitWords.Examples(shape[key].Measure)}, or leave the unit out and write it in the cells."));
                good = false;
            }
        return good;
    }

    private static Complaint Missing(Grid grid, TableShape shape, GridRow? header, Dictionary<string, MatchedColumn> known)
    {
        if (header is not { } row) return new(grid.Place, "", 0, $"there is no header line: no column of a {shape.RowIsCalled} list was recognised.", Wanted(shape));
        // Of several sufficient sets, name the one that lacks least.
        var lacking = shape.Required.Select(set => set.Where(k => !known.ContainsKey(k)).ToList()).MinBy(l => l.Count)!;
        var found = string.Join(", ", row.Cells.Select(c => c.Trim()).Where(c => c.Length > 0));
        var others = string.Join("; ", lacking.Select(k => $"for {k} also {string.Join(", ", shape[k].Aliases.Skip(1).Take(8))}"));
        return new($"{grid.Place}, {grid.LineWord} {row.Line}", found.Length > 200 ? found[..200] + "…" : found, 0,
            $"the {(lacking.Count == 1 ? "column" : "columns")} {string.Join(" and ", lacking)} {(lacking.Count == 1 ? "is" : "are")} missing from this header.", $"Name the {(lacking.Count == 1 ? "column" : "columns")} so ({others}).");
    }

    private static string Wanted(TableShape shape) =>
        $"Put a line of column names above the rows: {string.Join(", ", shape.Written)}; only {string.Join(" or ", shape.Required.Select(s => string.Join(" with ", s)))} must be there.";
}

using System.Collections.Immutable;
using Lugbook.Trade;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>One table on its way from a grid to rows: header found, habits known, complaints and remarks collected.</summary>
internal sealed class TableReader
{
    private readonly List<Complaint> _complaints = [];
    private int _unlisted;

    private TableReader(Grid grid, TableShape shape, ReadingContext context) => (Grid, Shape, Context) = (grid, shape, context);

    public Grid Grid { get; }
    public TableShape Shape { get; }
    public ReadingContext Context { get; }
    public HeaderMatch Header { get; private set; } = null!;
    public CommaHabit Habit { get; private set; }
    public List<string> Remarks { get; } = [];
    /// <summary>A workbook gives a column that is formatted as per cent as fractions: 0.2 for 20 %.</summary>
    public bool TolerancesAreFractions { get; private set; }

    /// <summary>Reads text into rows.</summary>
    public static TableRead<T> Text<T>(string text, TableShape shape, ReadingContext context, Func<TableReader, IEnumerable<T>> rows)
    {
        var (grid, complaint) = DelimitedText.Read(text, context.Place, cells => HeaderMatch.Score(cells, shape), context.Exact);
        return complaint is not null ? new([], [complaint], []) : Rows(grid!, shape, context, rows);
    }

    /// <summary>Reads a grid into rows.</summary>
    public static TableRead<T> Rows<T>(Grid grid, TableShape shape, ReadingContext context, Func<TableReader, IEnumerable<T>> rows)
    {
        var remarks = new List<string>();
        if (shape == Shapes.Parts && !context.Exact) grid = PartsText.Headed(grid, remarks);
        var reader = new TableReader(grid, shape, context);
        reader.Remarks.AddRange(remarks);
        var header = context.Exact ? HeaderMatch.Exact(grid, shape) : HeaderMatch.Find(grid, shape, reader._complaints, reader.Remarks);
        if (header is null)
            return new([], reader._complaints.Count > 0 ? [.. reader._complaints] : [new(grid.Place, "", 0, "the header is not the one that Lugbook writes.", "Take another copy of this file.")], [.. reader.Remarks]);
        reader.Header = header;
        reader.Habit = context.Exact ? CommaHabit.Thousands : NumberText.Habit(reader.NumberCells(), grid.Delimiter);
        reader.TolerancesAreFractions = !context.Exact && reader.LookLikeFractions();
        var read = rows(reader).ToImmutableArray();
        reader.CheckIdentities(read);
        if (reader._unlisted > 0)
            reader._complaints.Add(new(grid.Place, "", 0, $"there are {reader._unlisted} more like these.", "Mend those that are listed first."));
        return reader._complaints.Count > 0 ? new([], [.. reader._complaints], [.. reader.Remarks]) : new(read, [], [.. reader.Remarks]);
    }

    /// <summary>The rows below the header that hold something, each with access to its cells.</summary>
    public IEnumerable<RowCells> Body()
    {
        foreach (var row in Header.Body)
        {
            var cells = new RowCells(this, row);
            if (!Context.Exact)
            {
                if (row.Cells.Skip(Header.Width).Any(c => !string.IsNullOrWhiteSpace(c)))
                {
                    cells.ComplainOfRow(string.Join(" | ", row.Cells), $"this {Grid.LineWord} has {row.Cells.Length} cells, the header only {Header.Width}.",
                        "Put a text that contains the separator in quotation marks, or give the last column a header.");
                    continue;
                }
                if (row.Filled == 1 && Grid.Rows.Length > 1 && IsHeading(row))
                {
                    Remarks.Add($"{Grid.Place}, {Grid.LineWord} {row.Line}: '{row.Cells.First(c => !string.IsNullOrWhiteSpace(c)).Trim()}' has nothing beside it and was taken for a heading.");
                    continue;
                }
            }
            yield return cells;
        }
    }

    public void Complain(Complaint complaint)
    {
        if (_complaints.Count < ImportLimits.Complaints) _complaints.Add(complaint);
        else _unlisted++;
    }

    /// <summary>"Resistors" alone in a row of a parts list; a name with a digit is a part.</summary>
    private bool IsHeading(GridRow row)
    {
        var cell = row.Cells.First(c => !string.IsNullOrWhiteSpace(c));
        return Shape.Columns.Length > 6 && !cell.Any(char.IsAsciiDigit) && cell.Trim().Length > 2;
    }

    /// <summary>Every tolerance below 1, none marked as per cent, and the header does not say per cent either.</summary>
    private bool LookLikeFractions()
    {
        if (!Header.Known.TryGetValue("tol_pct", out var column) || column.Unit is not null || column.Header.Contains("pct", StringComparison.OrdinalIgnoreCase)
            || column.Header.Contains("per", StringComparison.OrdinalIgnoreCase) || column.Header.Contains('%', StringComparison.Ordinal)) return false;
        var cells = Header.Body.Where(r => r.Cells.Length > column.Index).Select(r => r.Cells[column.Index].Trim()).Where(c => c.Length > 0).ToList();
        var fractions = cells.Count > 0 && cells.All(c => NumberText.Plain(c, Habit, out _, out _) is { } plain && NumberText.Scaled(plain, 0) is > 0 and < 1);
        if (fractions) Remarks.Add($"{Grid.Place}: all tolerances are below 1, so they were read as fractions: 0.2 is 20 %.");
        return fractions;
    }

    private IEnumerable<string> NumberCells() =>
        from key in Header.Known.Keys
        where Shape[key].Measure is not (Measure.Words or Measure.Count)
        let index = Header.Known[key].Index
        from row in Header.Body
        where row.Cells.Length > index && row.Cells[index].Length > 0
        select row.Cells[index];

    private void CheckIdentities<T>(ImmutableArray<T> rows)
    {
        var seen = new HashSet<int>();
        foreach (var row in rows.OfType<Row>())
            if (row.Id != 0 && !seen.Add(row.Id))
                Complain(new(Grid.Place, row.Name, 0, $"two rows have the row_id {row.Id}.", "Empty the row_id of the one that was added, or of the whole column."));
    }
}

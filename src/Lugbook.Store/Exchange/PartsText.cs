using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Sheets;

namespace Lugbook.Store.Exchange;

/// <summary>Reads a list of parts from text: a file's, or what was pasted from a spreadsheet.</summary>
/// <remarks>Pure. Headers, delimiters, units and numbers are taken as forgivingly as docs/exchange.md says.</remarks>
public static class PartsText
{
    /// <summary>Parts from comma-, semicolon- or tab-separated text with a header line. Of lists that hold only references and values the header may be missing.</summary>
    /// <param name="text">The whole text.</param>
    /// <param name="context">What helps to read markings; null when nothing is known.</param>
    /// <returns>All rows, or every complaint.</returns>
    public static TableRead<Part> Read(string text, ReadingContext? context = null) => TableReader.Text(text, Shapes.Parts, context ?? ReadingContext.None, Rows);

    /// <summary>The service sheet's parts list, from text.</summary>
    /// <inheritdoc cref="Read"/>
    public static TableRead<SheetPart> ReadSheetParts(string text, ReadingContext? context = null) =>
        TableReader.Text(text, Shapes.SheetParts, context ?? ReadingContext.None, SheetRows);

    internal static IEnumerable<Part> Rows(TableReader table)
    {
        var markings = Markings(table);
        var unknown = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var inferred = 0;
        foreach (var row in table.Body())
        {
            if (Name(row) is not { } cell) continue;
            var names = table.Context.Exact ? [cell] : KindWords.References(cell);
            if (names.Count > 1) row.Remark($"'{cell.ReplaceLineEndings(" ")}' entered as {names.Count} parts.");
            var (kindWritten, kind) = KindOf(row, names[0], unknown, ref inferred);
            var electrical = Electrical.Read(row, names[0], kind, Context(table, markings, kind));
            var leads = LeadsText.Read(row, kind);
            if (names.Count > 1 && leads != Leads.None)
            {
                row.ComplainOfRow(cell, "several parts share this row, but they cannot share their lugs.", "Give each part its own row.");
                continue;
            }
            foreach (var name in names)
                yield return new Part
                {
                    Id = row.Id(),
                    Name = name,
                    KindAsWritten = kindWritten,
                    Marked = electrical.Marked,
                    Value = electrical.Value,
                    Unit = electrical.Unit,
                    RatedVolts = electrical.RatedVolts,
                    RatedWatts = electrical.RatedWatts,
                    Tolerance = electrical.Tolerance,
                    LeadA = leads.A,
                    LeadB = leads.B,
                    LeadC = leads.C,
                    PlusLead = leads.Plus,
                    Group = row.Words("group"),
                    Code = row.Words("code"),
                    Note = row.Words("note"),
                    Extras = row.Extras(),
                };
        }
        Report(table, unknown, inferred);
    }

    internal static IEnumerable<SheetPart> SheetRows(TableReader table)
    {
        var markings = Markings(table);
        var unknown = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var inferred = 0;
        foreach (var row in table.Body())
        {
            if (Name(row) is not { } cell) continue;
            var names = table.Context.Exact ? [cell] : KindWords.References(cell);
            var (kindWritten, kind) = KindOf(row, names[0], unknown, ref inferred);
            var electrical = Electrical.Read(row, names[0], kind, Context(table, markings, kind));
            foreach (var name in names)
                yield return new SheetPart
                {
                    Id = row.Id(),
                    Name = name,
                    KindAsWritten = kindWritten,
                    Marked = electrical.Marked,
                    Value = electrical.Value,
                    Unit = electrical.Unit,
                    RatedVolts = electrical.RatedVolts,
                    RatedWatts = electrical.RatedWatts,
                    Tolerance = electrical.Tolerance,
                    Note = row.Words("note"),
                    Extras = row.Extras(),
                };
        }
        Report(table, unknown, inferred);
    }

    private static string? Name(RowCells row)
    {
        if (row.Words("ref") is not { } name)
        {
            if (row.Table.Context.Exact) return row.Raw("ref");
            row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "this row has no reference.", "Give the part its reference, as in C7, or begin a line that is a comment with #.");
            return null;
        }
        if (row.Table.Context.Exact || !RowCells.IsDate(name)) return name;
        row.Complain("ref", 0, "the spreadsheet has made a date of this.", "Format the column as text and write the reference again.");
        return null;
    }

    /// <summary>The kind as kept, and the kind that helps to read the row. What Trade does not know is entered by the word that it knows.</summary>
    private static (string Written, PartKind Kind) KindOf(RowCells row, string name, SortedDictionary<string, int> unknown, ref int inferred)
    {
        if (row.Table.Context.Exact) return (row.Raw("kind"), PartKinds.Of(row.Raw("kind")));
        var suggested = KindWords.FromReference(name);
        if (row.Words("kind") is not { } written)
        {
            if (suggested is not { } kind) return ("", PartKind.Other);
            inferred++;
            return (PartKinds.Spelling(kind), kind);
        }
        if (PartKinds.Of(written) is not PartKind.Other and var known) return (written, known);
        if (KindWords.Of(written) is { } meant)
        {
            row.Remark($"{name}: kind '{written}' entered as {PartKinds.Spelling(meant)}.");
            return (PartKinds.Spelling(meant), meant);
        }
        unknown[written] = unknown.GetValueOrDefault(written) + 1;
        return (written, suggested ?? PartKind.Other);
    }

    private static void Report(TableReader table, SortedDictionary<string, int> unknown, int inferred)
    {
        if (inferred > 0) table.Remarks.Add($"{table.Grid.Place}: the kind of {inferred} {(inferred == 1 ? "part" : "parts")} was taken from the letters of the reference.");
        foreach (var (kind, count) in unknown)
            table.Remarks.Add($"{table.Grid.Place}: kind '{kind}' ({count} {(count == 1 ? "part" : "parts")}) is not known; kept, but not judged.");
    }

    private static System.Collections.Immutable.ImmutableArray<string> Markings(TableReader table)
    {
        if (table.Context.Exact) return [];
        var read = from key in new[] { "marked", "value" }
                   where table.Header.Known.ContainsKey(key)
                   let index = table.Header.Known[key].Index
                   from row in table.Header.Body
                   where row.Cells.Length > index
                   let text = row.Cells[index].Trim()
                   where text.Length is > 0 and < 40
                   select text;
        return [.. table.Context.OtherMarkings.Concat(read).Distinct().Take(500)];
    }

    private static MarkingContext Context(TableReader table, System.Collections.Immutable.ImmutableArray<string> markings, PartKind kind) => new()
    {
        Kind = kind == PartKind.Other ? null : kind,
        MegHabit = table.Context.MegHabit,
        Year = table.Context.Year,
        OtherMarkings = markings,
    };

    /// <summary>"R1 47K" lines without a header, parted by a separator or by blanks, get one; anything else is left as it is.</summary>
    internal static Grid Headed(Grid grid, List<string> remarks)
    {
        var pairs = grid.Rows.Select(Pair).ToList();
        if (pairs.Count == 0 || pairs.Any(p => p is null)) return grid;
        remarks.Add($"{grid.Place}: there is no header line; the columns were taken as reference and value.");
        return grid with { Rows = [new(0, ["ref", "value"]), .. pairs.Select(p => p!.Value)] };
    }

    private static GridRow? Pair(GridRow row)
    {
        var cells = row.Cells.Select(c => c.Trim()).ToList();
        while (cells.Count > 0 && cells[^1].Length == 0) cells.RemoveAt(cells.Count - 1);
        if (cells.Count == 1 && cells[0].IndexOfAny([' ', '\t', ':', '=']) is var cut and > 0) cells = [cells[0][..cut], cells[0][(cut + 1)..].Trim()];
        return cells.Count == 2 && KindWords.Reference().IsMatch(cells[0]) ? new(row.Line, [cells[0], cells[1]]) : null;
    }
}

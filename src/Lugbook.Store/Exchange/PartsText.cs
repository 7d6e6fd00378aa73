using System.Collections.Immutable;
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
        var sentences = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var inferred = 0;
        foreach (var row in table.Body())
        {
            if (Name(row) is not { } cell) continue;
            var names = table.Context.Exact ? [cell] : KindWords.References(cell);
            if (names.Count > 1) row.Remark($"'{cell.ReplaceLineEndings(" ")}' entered as {names.Count} parts.");
            var (kindWritten, kind) = KindOf(row, names[0], sentences, ref inferred);
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
                    BodyX = row.Number("body_x", -10_000, 10_000),
                    BodyY = row.Number("body_y", -10_000, 10_000),
                    BodyTurn = row.Number("body_turn", -360, 360),
                    Extras = row.Extras(),
                };
        }
        Report(table, sentences, inferred);
    }

    internal static IEnumerable<SheetPart> SheetRows(TableReader table)
    {
        var markings = Markings(table);
        var sentences = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var inferred = 0;
        foreach (var row in table.Body())
        {
            if (Name(row) is not { } cell) continue;
            var names = table.Context.Exact ? [cell] : KindWords.References(cell);
            var (kindWritten, kind) = KindOf(row, names[0], sentences, ref inferred);
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
        Report(table, sentences, inferred);
    }

    private static string? Name(RowCells row)
    {
        if (row.Words("ref") is not { } name)
        {
            if (row.Table.Context.Exact) return row.Raw("ref");
            row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "this row has no reference.", "Give the part its reference, as in C7, or begin a line that is a comment with #.");
            return null;
        }
        if (row.Table.Context.Exact) return name;
        if (row.Words("kind") is null && HeaderWords.Normal(name) is "total" or "totals" or "sum" or "subtotal" or "gesamt" or "summe" or "totaal" or "totale" or "count" or "anzahl")
        {
            row.Remark($"'{name}' was taken for a sum and left out.");
            return null;
        }
        if (!RowCells.IsDate(name)) return name;
        row.Complain("ref", 0, "the spreadsheet has made a date of this.", "Format the column as text and write the reference again.");
        return null;
    }

    /// <summary>The kind as kept, and the kind that helps to read the row. What Trade does not know is entered by the word that it knows.</summary>
    private static (string Written, PartKind Kind) KindOf(RowCells row, string name, SortedDictionary<string, int> sentences, ref int inferred)
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
            Count($"kind '{written}' ({{0}}) entered as {PartKinds.Spelling(meant)}.");
            return (PartKinds.Spelling(meant), meant);
        }
        Count($"kind '{written}' ({{0}}) is not known; kept, but not judged.");
        return (written, suggested ?? PartKind.Other);

        void Count(string sentence) => sentences[sentence] = sentences.GetValueOrDefault(sentence) + 1;
    }

    private static void Report(TableReader table, SortedDictionary<string, int> sentences, int inferred)
    {
        if (inferred > 0) table.Remarks.Add($"{table.Grid.Place}: the kind of {inferred} {(inferred == 1 ? "part" : "parts")} was taken from the letters of the reference.");
        foreach (var (sentence, count) in sentences)
            table.Remarks.Add($"{table.Grid.Place}: {sentence.Replace("{0}", $"{count} {(count == 1 ? "part" : "parts")}", StringComparison.Ordinal)}");
    }

    private static ImmutableArray<string> Markings(TableReader table)
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

    private static MarkingContext Context(TableReader table, ImmutableArray<string> markings, PartKind kind) => new()
    {
        Kind = kind == PartKind.Other ? null : kind,
        MegHabit = table.Context.MegHabit,
        Year = table.Context.Year,
        OtherMarkings = markings,
    };

    /// <summary>"R1 47K" lines without a header, parted by a separator or by blanks, get one; anything else is left as it is.</summary>
    internal static Grid Headed(Grid grid, List<string> remarks)
    {
        var rows = grid.Rows.Select(Headless).ToList();
        if (rows.Count == 0 || rows.Any(r => r is null)) return grid;
        var rated = rows.Any(r => r!.Value.Cells.Length == 3);
        remarks.Add($"{grid.Place}: there is no header line; the columns were taken as reference{(rated ? ", value and rating" : " and value")}.");
        return grid with { Rows = [new(0, ["ref", "value", "rating"]), .. rows.Select(r => r!.Value)] };
    }

    private static GridRow? Headless(GridRow row)
    {
        var cells = row.Cells.Select(c => c.Trim()).ToList();
        while (cells.Count > 0 && cells[^1].Length == 0) cells.RemoveAt(cells.Count - 1);
        if (cells.Count == 1 && cells[0].IndexOfAny([' ', '\t', ':', '=']) is var cut and > 0) cells = [cells[0][..cut], cells[0][(cut + 1)..].Trim()];
        if (cells.Count == 3 && !RatingText.Pieces(cells[2], PartKind.Other).All(p => p.Volts is not null || p.Watts is not null || p.Tolerance is not null)) return null;
        return cells.Count is 2 or 3 && KindWords.Reference().IsMatch(cells[0]) ? new(row.Line, [.. cells]) : null;
    }
}

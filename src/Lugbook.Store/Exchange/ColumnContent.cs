using System.Globalization;
using Lugbook.Trade.Markings;

namespace Lugbook.Store.Exchange;

/// <summary>Where headers alone mislead, the cells beneath decide: which of two columns holds the references, which the kinds, which the markings.</summary>
/// <remarks>Only for lists of parts, only where the header is not the one that Lugbook writes, and always with a remark.</remarks>
internal static class ColumnContent
{
    /// <summary>How many of a column's filled cells must agree.</summary>
    private const double Most = 0.6;
    private const int Look = 200;

    /// <summary>Changes the match where the content speaks clearly against it.</summary>
    public static void Refine(Grid grid, int headerAt, TableShape shape, Dictionary<string, MatchedColumn> known, List<string> remarks)
    {
        if (shape != Shapes.Parts && shape != Shapes.SheetParts) return;
        var header = grid.Rows[headerAt].Cells;
        ReferencesByContent(grid, headerAt, shape, known, header, remarks);
        if (!known.ContainsKey("kind")) Adopt("kind", c => KindWords.Of(c) is not null);
        if (!known.ContainsKey("value") && !known.ContainsKey("marked"))
        {
            // A copied service sheet has it all in one column: "Condenser, .05 mfd 400 v".
            if (known.TryGetValue("note", out var note) && Share(grid, headerAt, note.Index, IsMarking) >= Most)
            {
                known.Remove("note");
                known["marked"] = note;
                remarks.Add($"{grid.Place}: the column '{note.Header}' was taken as what is marked on the parts.");
            }
            else Adopt("marked", IsMarking);
        }

        void Adopt(string key, Func<string, bool> fits)
        {
            var taken = known.Values.Select(k => k.Index).ToHashSet();
            for (var i = 0; i < header.Length; i++)
            {
                if (taken.Contains(i) || header[i].Trim().Length == 0 || Share(grid, headerAt, i, fits) < Most) continue;
                known[key] = new(i, header[i].Trim(), null);
                remarks.Add($"{grid.Place}: the column '{header[i].Trim()}' was taken as {key}, going by what stands in it.");
                return;
            }
        }
    }

    /// <summary>"Symbol" and "Part No." may both head the references; C1 and R2 look like them, 23-101 does not.</summary>
    private static void ReferencesByContent(Grid grid, int headerAt, TableShape shape, Dictionary<string, MatchedColumn> known, IReadOnlyList<string> header, List<string> remarks)
    {
        if (known["ref"] is not { } chosen || chosen.Header == "ref" || Share(grid, headerAt, chosen.Index, IsReference) >= Most) return;
        var others = known.Where(k => k.Key != "ref").Select(k => k.Value.Index).ToHashSet();
        var better = Enumerable.Range(0, header.Count).Where(i => !others.Contains(i) && HeaderWords.Rank(header[i], shape["ref"], out _) is not null)
            .Select(i => (Index: i, Share: Share(grid, headerAt, i, IsReference))).OrderByDescending(c => c.Share).FirstOrDefault();
        if (better.Share < Most || better.Index == chosen.Index) return;
        known["ref"] = new(better.Index, header[better.Index].Trim(), null);
        remarks.Add($"{grid.Place}: the column '{header[better.Index].Trim()}' was taken as the reference, not '{chosen.Header}', going by what stands in it.");
    }

    private static double Share(Grid grid, int headerAt, int index, Func<string, bool> fits)
    {
        var cells = grid.Rows.Skip(headerAt + 1).Take(Look).Where(r => r.Cells.Length > index).Select(r => r.Cells[index].Trim()).Where(c => c.Length > 0).ToList();
        return cells.Count == 0 ? 0 : cells.Count(fits) / (double)cells.Count;
    }

    private static bool IsReference(string cell) => KindWords.References(cell).All(r => KindWords.Reference().IsMatch(r));

    /// <summary>A figure with a unit, or a letter code; a bare number may be anything.</summary>
    private static bool IsMarking(string cell) =>
        cell.Length < 80 && cell.Any(char.IsAsciiDigit) && cell.Any(char.IsLetter) && !double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out _)
        && TextMarking.Read(cell) is { Best: { } best } && !best.Code.StartsWith("bare", StringComparison.Ordinal);
}

using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>Which sheet of a workbook is which table: by its name, or, failing that, the only one that looks like a list of parts.</summary>
internal static class SheetChoice
{
    public static void Take(NamedBytes file, Dictionary<string, Grid> tables, List<Complaint> complaints, List<string> remarks)
    {
        var (sheets, complaint) = Workbook.Read(file.Bytes, file.Name);
        if (complaint is not null)
        {
            complaints.Add(complaint);
            return;
        }
        var left = new List<(string Sheet, Grid Grid)>();
        foreach (var (sheet, grid) in sheets)
        {
            if (TableOf(sheet) is not { } table || !IsMeant(grid, table)) left.Add((sheet, grid));
            else if (!tables.TryAdd(table, grid)) complaints.Add(new(grid.Place, "", 0, $"there is a second sheet for the table {table}.", "Rename or delete one of them."));
        }
        if (!tables.ContainsKey("parts") && !tables.ContainsKey("lugs"))
        {
            var likely = left.Where(s => s.Grid.Rows.Take(25).Any(r => HeaderMatch.Score(r.Cells, Shapes.Parts) >= 2)).ToList();
            if (likely.Count == 0 && left.Count == 1) likely = left;
            if (likely.Count == 1)
            {
                tables["parts"] = likely[0].Grid;
                left.Remove(likely[0]);
            }
            else complaints.Add(new(file.Name, "", 0, sheets.IsEmpty ? "this workbook is empty." : $"none of the sheets {string.Join(", ", sheets.Select(s => s.Sheet))} is named parts or lugs{(likely.Count > 1 ? $", and {string.Join(" and ", likely.Select(s => s.Sheet))} both look like parts" : "")}.",
                $"Name the sheets {string.Join(", ", Shapes.All.Select(s => s.Name))}; parts alone is enough."));
        }
        if (left.Count > 0) remarks.Add($"{file.Name}: sheets not read: {string.Join(", ", left.Select(s => s.Sheet))}.");
    }

    /// <summary>A table that strangers may also have, under its name but of other things, is meant only where its header suits; an empty one is an empty table.</summary>
    public static bool IsMeant(Grid grid, string table) => Shapes.All.First(s => s.Name == table) is { MustSuit: true } shape ? grid.Rows.IsEmpty || HeaderMatch.Suits(grid, shape) : true;

    private static string? TableOf(string sheet)
    {
        var normal = HeaderWords.Normal(sheet);
        return Shapes.All.FirstOrDefault(s => s.Name == normal || s.Titles.Contains(normal))?.Name;
    }
}

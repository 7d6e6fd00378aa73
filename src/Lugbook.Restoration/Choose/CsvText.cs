using System.Collections.Immutable;
using System.Text;

namespace Lugbook.Restoration.Choose;

/// <summary>A row of a small table, with its line in the text.</summary>
internal sealed class CsvRow(int line, ImmutableArray<string> header, ImmutableArray<string> cells)
{
    public int Line => line;
    public int Cells => cells.Length;
    /// <summary>The cell below a header, trimmed; null when the column or the cell is missing or empty.</summary>
    public string? this[string column]
    {
        get
        {
            var at = header.FindIndex(h => string.Equals(h, column, StringComparison.OrdinalIgnoreCase));
            return at >= 0 && at < cells.Length && cells[at].Trim() is { Length: > 0 } text ? text : null;
        }
    }
}

/// <summary>Reads and writes the plain comma-separated text of our own data files; books have a more forgiving reader in the store.</summary>
internal static class CsvText
{
    /// <summary>First line that is no comment is the header; lines that start with # and empty lines are passed over.</summary>
    public static (ImmutableArray<string> Header, ImmutableArray<CsvRow> Rows) Read(string text)
    {
        ImmutableArray<string> header = [];
        var rows = ImmutableArray.CreateBuilder<CsvRow>();
        var number = 0;
        foreach (var line in text.TrimStart('\uFEFF').Split('\n'))
        {
            number++;
            var plain = line.TrimEnd('\r');
            if (plain.Trim().Length == 0 || plain.StartsWith('#')) continue;
            var cells = Cells(plain);
            if (header.IsEmpty) header = [.. cells.Select(c => c.Trim())];
            else rows.Add(new(number, header, cells));
        }
        return (header, rows.ToImmutable());
    }

    /// <summary>One line of cells, quoted where needed.</summary>
    public static string Line(params ReadOnlySpan<string?> cells)
    {
        var line = new StringBuilder();
        for (var i = 0; i < cells.Length; i++)
        {
            if (i > 0) line.Append(',');
            var cell = cells[i] ?? "";
            if (cell.AsSpan().IndexOfAny(",\"\r\n") >= 0 || cell != cell.Trim()) line.Append('"').Append(cell.Replace("\"", "\"\"", StringComparison.Ordinal)).Append('"');
            else line.Append(cell);
        }
        return line.Append('\n').ToString();
    }

    private static ImmutableArray<string> Cells(string line)
    {
        var cells = ImmutableArray.CreateBuilder<string>();
        var cell = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < line.Length; i++)
        {
            var c = line[i];
            if (quoted && c == '"' && i + 1 < line.Length && line[i + 1] == '"') { cell.Append('"'); i++; }
            else if (c == '"') quoted = !quoted;
            else if (c == ',' && !quoted) { cells.Add(cell.ToString()); cell.Clear(); }
            else cell.Append(c);
        }
        cells.Add(cell.ToString());
        return cells.ToImmutable();
    }
}

/// <summary>What the immutable array lacks.</summary>
internal static class ImmutableArraySearch
{
    public static int FindIndex<T>(this ImmutableArray<T> items, Func<T, bool> found)
    {
        for (var i = 0; i < items.Length; i++)
            if (found(items[i])) return i;
        return -1;
    }
}

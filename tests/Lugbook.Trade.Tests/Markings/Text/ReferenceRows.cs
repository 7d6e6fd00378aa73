using System.Globalization;
using System.Text;

namespace Lugbook.Trade.Tests.Markings.Text;

/// <summary>Rows of a reference file beside the tests: comment lines left out, quotes understood, columns by name.</summary>
internal static class ReferenceRows
{
    internal sealed record ReferenceRow(IReadOnlyDictionary<string, string> Cells)
    {
        public string this[string column] => Cells[column];
        public double Number(string column) => double.Parse(Cells[column], CultureInfo.InvariantCulture);
        public double? NumberOrNull(string column) => Cells[column].Length == 0 ? null : Number(column);
    }

    public static IReadOnlyList<ReferenceRow> Of(string file)
    {
        var path = Path.Combine(AppContext.BaseDirectory, "data", "reference", file);
        var lines = File.ReadAllLines(path).Where(l => !l.StartsWith('#')).Select(Split).ToList();
        return [.. lines.Skip(1).Select(cells => new ReferenceRow(lines[0].Zip(cells).ToDictionary(p => p.First, p => p.Second)))];
    }

    private static List<string> Split(string line)
    {
        var cells = new List<string>();
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
        return cells;
    }
}

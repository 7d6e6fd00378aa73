using System.Globalization;
using System.Text;

namespace Lugbook.Circuit.Valves;

/// <summary>A table of comma-separated text with a header: # comments and blank lines skipped, quotes as in RFC 4180, columns found by name.</summary>
internal sealed class Table
{
    private readonly Dictionary<string, int> _columns = new(StringComparer.OrdinalIgnoreCase);

    private Table() { }

    public List<Row> Rows { get; } = [];
    public List<LineFault> Faults { get; } = [];
    public bool Has(string column) => _columns.ContainsKey(column);

    /// <summary>Reads a text; whatever is wrong is in <see cref="Faults"/>, and the rows that could be read are there all the same.</summary>
    public static Table Of(string text, params ReadOnlySpan<string> required)
    {
        var table = new Table();
        var number = 0;
        var header = false;
        foreach (var raw in text.TrimStart('\uFEFF').Split('\n'))
        {
            number++;
            var line = raw.TrimEnd('\r');
            if (line.Length == 0 || string.IsNullOrWhiteSpace(line) || line.TrimStart().StartsWith('#')) continue;
            var cells = Cells(line);
            if (cells is null)
            {
                table.Faults.Add(new(number, "", line, "A quotation mark is not closed.", "Close it on the same line; write \"\" for one inside a quoted field."));
                continue;
            }
            if (!header)
            {
                header = true;
                for (var c = 0; c < cells.Count; c++)
                {
                    var name = cells[c].Trim().Replace(' ', '_');
                    if (name.Length > 0 && !table._columns.TryAdd(name, c))
                        table.Faults.Add(new(number, name, line, "Two columns have this name.", "Keep one of them."));
                }
                foreach (var column in required)
                {
                    if (!table.Has(column)) table.Faults.Add(new(number, column, line, "The header lacks this column.", $"Add a column named {column}."));
                }
                continue;
            }
            if (cells.Count > table._columns.Count && cells.Skip(table._columns.Count).Any(c => c.Length > 0))
            {
                table.Faults.Add(new(number, "", line, $"The line has {cells.Count} fields, the header {table._columns.Count}.", "Put a field that contains a comma into quotation marks."));
                continue;
            }
            table.Rows.Add(new(table, number, cells));
        }
        if (!header) table.Faults.Add(new(Math.Max(number, 1), "", "", "There is no header line.", "Begin with a line of column names."));
        return table;
    }

    private static List<string>? Cells(string line)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < line.Length; i++)
        {
            var c = line[i];
            if (quoted && c == '"' && i + 1 < line.Length && line[i + 1] == '"')
            {
                cell.Append('"');
                i++;
            }
            else if (c == '"') quoted = !quoted;
            else if (c == ',' && !quoted)
            {
                cells.Add(cell.ToString().Trim());
                cell.Clear();
            }
            else cell.Append(c);
        }
        cells.Add(cell.ToString().Trim());
        return quoted ? null : cells;
    }

    /// <summary>One line of the table.</summary>
    internal sealed class Row(Table table, int line, List<string> cells)
    {
        private readonly int _faultsBefore = table.Faults.Count;

        public int Line => line;
        /// <summary>Nothing of this line was found wrong so far.</summary>
        public bool Good => !table.Faults.Skip(_faultsBefore).Any(f => f.Line == line);
        public string Text(string column) => table._columns.TryGetValue(column, out var at) && at < cells.Count ? cells[at] : "";
        public void Fault(string column, string problem, string remedy) =>
            table.Faults.Add(new(line, column, Text(column), problem, remedy));

        /// <summary>A number, or null where the field is blank or wrong; a wrong one is a fault.</summary>
        public double? Number(string column, double least = double.NegativeInfinity, double most = double.PositiveInfinity, bool leastBelongs = true)
        {
            var text = Text(column);
            if (text.Length == 0) return null;
            if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value))
            {
                Fault(column, "This is not a number.", "Write digits with a point for decimals, without a unit; leave the field blank when it is not given.");
                return null;
            }
            if (value < least || value > most || (value == least && !leastBelongs))
            {
                var range = double.IsPositiveInfinity(most)
                    ? string.Create(CultureInfo.InvariantCulture, $"{(leastBelongs ? "at least" : "above")} {least}")
                    : string.Create(CultureInfo.InvariantCulture, $"{(leastBelongs ? "from" : "above")} {least} to {most}");
                Fault(column, $"The number is outside its range, {range}.", "Check the unit that the column's name states, and the sign.");
                return null;
            }
            return value;
        }
    }
}

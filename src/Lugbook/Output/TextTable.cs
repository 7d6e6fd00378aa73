using System.Globalization;
using System.Text;

namespace Lugbook.Output;

/// <summary>A plain table for a terminal: columns as wide as their longest cell, two blanks between.</summary>
internal sealed class TextTable(params string[] headers)
{
    private readonly List<string[]> _rows = [];

    /// <summary>Adds a row; missing cells are blank.</summary>
    public void Add(params string?[] cells) =>
        _rows.Add([.. Enumerable.Range(0, headers.Length).Select(i => i < cells.Length ? cells[i] ?? "" : "")]);

    public override string ToString()
    {
        var widths = headers.Select((h, i) => _rows.Select(r => Width(r[i])).Append(Width(h)).Max()).ToArray();
        var text = new StringBuilder();
        Line(headers);
        text.AppendLine(string.Join("  ", widths.Select(w => new string('-', w))));
        foreach (var row in _rows) Line(row);
        return text.ToString();

        void Line(string[] cells) =>
            text.AppendLine(string.Join("  ", cells.Select((c, i) => c + new string(' ', widths[i] - Width(c)))).TrimEnd());
    }

    private static int Width(string cell) => new StringInfo(cell).LengthInTextElements;
}

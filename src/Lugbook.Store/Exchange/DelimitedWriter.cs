using System.Buffers;
using System.Text;

namespace Lugbook.Store.Exchange;

/// <summary>Writes a table as comma-separated text (RFC 4180, lines ended by LF).</summary>
/// <remarks>Exact: text beginning with = is written as it is. Whoever hands such a file to strangers prefers XLSX, where text stays text.</remarks>
internal static class DelimitedWriter
{
    private static readonly SearchValues<char> Special = SearchValues.Create(",;\t|\"\r\n");

    public static string Write(WrittenTable table)
    {
        var text = new StringBuilder();
        Line(text, table.Headers);
        foreach (var row in table.Rows) Line(text, row.Select(c => c.Text));
        return text.ToString();
    }

    private static void Line(StringBuilder text, IEnumerable<string> cells)
    {
        var first = true;
        foreach (var cell in cells)
        {
            if (!first) text.Append(',');
            if (NeedsQuotes(cell, first)) text.Append('"').Append(cell.Replace("\"", "\"\"", StringComparison.Ordinal)).Append('"');
            else text.Append(cell);
            first = false;
        }
        text.Append('\n');
    }

    private static bool NeedsQuotes(string cell, bool first) =>
        cell.AsSpan().IndexOfAny(Special) >= 0
        || (cell.Length > 0 && (char.IsWhiteSpace(cell[0]) || char.IsWhiteSpace(cell[^1]) || cell[0] == '\uFEFF' || (first && cell[0] == '#')));
}

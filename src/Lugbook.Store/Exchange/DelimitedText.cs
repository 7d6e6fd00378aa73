using System.Collections.Immutable;
using System.Text;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>Cuts text into rows and cells: commas, semicolons, tabs or bars; quotes as in RFC 4180, and more leniently.</summary>
/// <remarks>
/// Lenient where it costs nothing: a quote inside an unquoted cell is an inch mark; a quote inside a quoted cell that neither doubles nor
/// ends it is kept; CRLF, LF and CR all end a line; a line beginning with # is a comment; line breaks inside quotes are kept as LF.
/// Our own reader rather than a package's, because every complaint names the physical line, and because the unclosed quote has to be found.
/// </remarks>
internal static class DelimitedText
{
    private static readonly char[] Delimiters = [';', '\t', ',', '|'];
    private static readonly string[] SpreadsheetErrors = ["#REF!", "#N/A", "#NV", "#DIV/0!", "#VALUE!", "#WERT!", "#NAME?", "#NUM!", "#ZAHL!", "#NULL!", "#BEZUG!"];

    /// <summary>Reads a table. The delimiter is the one with which the header is understood best.</summary>
    /// <param name="text">The whole text.</param>
    /// <param name="place">The file's name, for complaints.</param>
    /// <param name="understood">How many cells of a row are known headers; decides between delimiters.</param>
    /// <param name="exact">True for what Lugbook itself wrote: comma, nothing lenient, line breaks kept as they are.</param>
    /// <param name="keepsGood">True when the rows before the fault are given too, beside the complaint.</param>
    public static (Grid? Grid, Complaint? Complaint) Read(string text, string place, Func<IReadOnlyList<string>, int> understood, bool exact = false, bool keepsGood = false)
    {
        var from = text.StartsWith('\uFEFF') ? 1 : 0;
        var firstLine = 1;
        var delimiter = ',';
        if (!exact && Announced(text, ref from) is { } announced) (delimiter, firstLine) = (announced, 2);
        else if (!exact) delimiter = Choose(text, from, understood);

        var cutter = new Cutter(text, from, firstLine, delimiter, exact);
        var rows = ImmutableArray.CreateBuilder<GridRow>();
        GridRow? commentedHeader = null;
        (Grid?, Complaint?) Refused(Complaint complaint) => (keepsGood ? new(place, "line", rows.ToImmutable(), delimiter) : null, complaint);
        while (cutter.Next() is { } row)
        {
            if (row.IsBlank) continue;
            if (IsComment(row, exact))
            {
                commentedHeader ??= !exact && Uncommented(row) is var bare && understood(bare.Cells) > 1 ? bare : null;
                continue;
            }
            if (rows.Count > ImportLimits.Rows)
                return Refused(new(place, "", 0, $"this table has more than {ImportLimits.Rows} rows{(keepsGood ? $"; from line {row.Line} on it was not read" : "")}.", "Split it; no chassis has so many parts."));
            if (row.Cells.Length > ImportLimits.Columns)
                return Refused(new($"{place}, line {row.Line}", "", 0, $"this line has {row.Cells.Length} cells; {ImportLimits.Columns} is the limit.", "Check that this is the right file, and that its quotes are closed."));
            rows.Add(row);
        }
        // A program's table may have its header in a comment; it counts only when there is no other.
        if (commentedHeader is { } header && rows.Take(25).All(r => understood(r.Cells) < 2)) rows.Insert(0, header);
        return cutter.UnclosedLine is { } unclosed
            ? Refused(new($"{place}, line {unclosed.Line}", unclosed.Text, 0, "a quotation mark opens here and is never closed.", "Close it, or double it (\"\") when it is part of the text."))
            : (new(place, "line", rows.ToImmutable(), delimiter), null);
    }

    /// <summary>A first line "sep=;", which some spreadsheets write and honour.</summary>
    private static char? Announced(string text, ref int from)
    {
        var rest = text.AsSpan(from);
        if (!rest.StartsWith("sep=", StringComparison.OrdinalIgnoreCase) || rest.Length < 5) return null;
        var end = rest.IndexOfAny('\r', '\n');
        if ((end < 0 ? rest.Length : end) != 5) return null;
        var delimiter = rest[4];
        from += end < 0 ? 5 : end + (rest[end..].StartsWith("\r\n") ? 2 : 1);
        return delimiter;
    }

    private static char Choose(string text, int from, Func<IReadOnlyList<string>, int> understood)
    {
        var (best, bestScore) = (',', (-1, -1));
        foreach (var delimiter in Delimiters)
        {
            var cutter = new Cutter(text, from, 1, delimiter, exact: false);
            var (headers, steady) = (0, 0);
            for (var n = 0; n < 30 && cutter.Next() is { } row; n++)
            {
                headers = Math.Max(headers, understood(row.Cells));
                if (row.Cells.Length > 1) steady++;
            }
            if ((headers, steady).CompareTo(bestScore) > 0) (best, bestScore) = (delimiter, (headers, steady));
        }
        return best;
    }

    private static GridRow Uncommented(GridRow row) => row with { Cells = row.Cells.SetItem(0, row.Cells[0].TrimStart(' ', '#')) };

    private static bool IsComment(GridRow row, bool exact)
    {
        var first = row.Cells[0].TrimStart();
        if (!first.StartsWith('#')) return false;
        if (exact) return !row.FirstIsQuoted;
        if (SpreadsheetErrors.Contains(first.TrimEnd(), StringComparer.OrdinalIgnoreCase)) return false;
        // "#" alone heads a column of numbers; in quotes, only a line with nothing else can be a comment.
        return row.Filled == 1 || (!row.FirstIsQuoted && first.TrimEnd() != "#");
    }

    /// <summary>Walks the text once.</summary>
    private sealed class Cutter(string text, int from, int firstLine, char delimiter, bool exact)
    {
        private readonly StringBuilder _cell = new();
        private int _at = from;
        private int _line = firstLine;

        public (int Line, string Text)? UnclosedLine { get; private set; }

        public GridRow? Next()
        {
            if (_at >= text.Length || UnclosedLine is not null) return null;
            var (line, firstIsQuoted) = (_line, false);
            var cells = ImmutableArray.CreateBuilder<string>();
            while (true)
            {
                var quoted = ReadCell();
                if (UnclosedLine is not null) return null;
                if (cells.Count == 0) firstIsQuoted = quoted;
                cells.Add(_cell.ToString());
                if (_at >= text.Length) break;
                if (text[_at] == delimiter) { _at++; continue; }
                EndLine();
                break;
            }
            return new(line, cells.ToImmutable(), firstIsQuoted);
        }

        private bool ReadCell()
        {
            _cell.Clear();
            var start = _at;
            while (start < text.Length && text[start] == ' ' && text[start] != delimiter) start++;
            if (start < text.Length && text[start] == '"') { _at = start + 1; ReadQuoted(); return true; }
            while (_at < text.Length && text[_at] != delimiter && text[_at] is not ('\r' or '\n')) _cell.Append(text[_at++]);
            return false;
        }

        private void ReadQuoted()
        {
            var (openedAt, openedLine) = (_at - 1, _line);
            while (_at < text.Length)
            {
                var c = text[_at];
                if (c == '"')
                {
                    if (_at + 1 < text.Length && text[_at + 1] == '"') { _cell.Append('"'); _at += 2; continue; }
                    if (Closes(_at + 1, out var next)) { _at = next; return; }
                    _cell.Append('"');
                    _at++;
                }
                else if (c is '\r' or '\n')
                {
                    var crlf = c == '\r' && _at + 1 < text.Length && text[_at + 1] == '\n';
                    _cell.Append(exact ? (crlf ? "\r\n" : c.ToString()) : "\n");
                    _line++;
                    _at += crlf ? 2 : 1;
                }
                else { _cell.Append(c); _at++; }
            }
            var end = text.AsSpan(openedAt).IndexOfAny('\r', '\n');
            UnclosedLine = (openedLine, text.Substring(openedAt, Math.Min(end < 0 ? text.Length - openedAt : end, 60)));
        }

        /// <summary>Is what follows a quote the end of the cell, blanks apart?</summary>
        private bool Closes(int at, out int next)
        {
            next = at;
            while (next < text.Length && text[next] == ' ' && text[next] != delimiter) next++;
            return next >= text.Length || text[next] == delimiter || text[next] is '\r' or '\n';
        }

        private void EndLine()
        {
            if (text[_at] == '\r' && _at + 1 < text.Length && text[_at + 1] == '\n') _at++;
            _at++;
            _line++;
        }
    }
}

using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>Access to one row's cells by column; each way of reading complains for itself and then gives null.</summary>
internal sealed partial class RowCells(TableReader table, GridRow row)
{
    public GridRow Row => row;
    public TableReader Table => table;

    /// <summary>Does the file have this column?</summary>
    public bool Has(string key) => table.Header.Known.ContainsKey(key);

    /// <summary>The cell as written; empty when there is none.</summary>
    public string Raw(string key) =>
        table.Header.Known.TryGetValue(key, out var column) && column.Index < row.Cells.Length ? row.Cells[column.Index] : "";

    /// <summary>Words; null when blank. Blanks around them go, unless Lugbook wrote them itself.</summary>
    public string? Words(string key)
    {
        var raw = Raw(key);
        if (table.Context.Exact) return raw.Length == 0 ? null : raw;
        var trimmed = raw.Trim();
        return trimmed.Length == 0 ? null : trimmed;
    }

    /// <summary>The name of a lug: one line, one name; a date is the spreadsheet's doing.</summary>
    public string? LugName(string key)
    {
        if (Words(key) is not { } text || table.Context.Exact) return Words(key);
        if (IsDate(text)) Complain(key, 0, "the spreadsheet has made a date of this.", "Format the column as text and write the lug again.");
        else if (text.AsSpan().IndexOfAny(",;\n\r\t") is var at and >= 0) Complain(key, at, "this names more than one lug; a lead or wire end is on one.", "Write the name of one lug, as in V3-6.");
        else if (text.Length > 60) Complain(key, 60, "this is too long for the name of a lug.", "Write the name of one lug, as in V3-6, and put the rest into the note.");
        else if (!text.Any(char.IsLetterOrDigit)) return text is "-" or "--" or "–" or "—" ? null : Refuse();
        else return text;
        return null;

        string? Refuse()
        {
            Complain(key, 0, "this is not the name of a lug.", "Write a name with a letter or a number, as in V3-6, or leave it empty.");
            return null;
        }
    }

    /// <summary>A number in the column's base unit (mm, V, W, Ω), with a unit in the cell or in the header, within bounds.</summary>
    /// <param name="key">The column.</param>
    /// <param name="least">Least possible value.</param>
    /// <param name="most">Largest possible value.</param>
    /// <param name="only">The part of the cell that holds the number; null for all of it.</param>
    public double? Number(string key, double least, double most, string? only = null)
    {
        var text = (only ?? Raw(key)).Trim();
        if (text.Length == 0 || IsNothing(text)) return null;
        var column = table.Shape[key];
        var (number, unit, unitAt) = SplitUnit(text, column.Measure);
        unit ??= table.Header.Known[key].Unit;
        if (unitAt is { } wrong && !UnitWords.Fits(unit!, column.Measure))
        {
            Complain(key, wrong, IsDate(text) ? "the spreadsheet has made a date of this." : $"'{unit}' is not a unit for this column.",
                IsDate(text) ? "Format the column as text and write it again." : $"Write a plain number{(column.Measure is Measure.Count or Measure.Number ? "" : $", or one with {UnitWords.Examples(column.Measure)}")}.");
            return null;
        }
        if (column.Measure == Measure.Watts && Fraction(number) is { } fraction) number = fraction;
        var plain = NumberText.Plain(number, table.Habit, out var at, out var problem);
        if (plain is null)
        {
            Complain(key, at, IsDate(text) ? "the spreadsheet has made a date of this." : problem!, IsDate(text) ? "Format the column as text and write it again." : "Write a plain number such as 12.5, or leave the cell empty.");
            return null;
        }
        var value = unit is null ? NumberText.Scaled(plain, 0)
            : column.Measure == Measure.Length ? Millimetres(plain, unit)
            : column.Measure == Measure.Percent ? NumberText.Scaled(plain, 0)
            : NumberText.Scaled(plain, UnitWords.Of(unit)!.Value.Power);
        return InBounds(key, value, least, most) ? value : null;
    }

    /// <summary>A whole number, 0 or more.</summary>
    public int? Whole(string key)
    {
        var text = Raw(key).Trim();
        if (text.Length == 0 || IsNothing(text)) return null;
        // Spreadsheets like to write 3 as 3.0.
        var digits = text.EndsWith(".0", StringComparison.Ordinal) ? text[..^2] : text;
        if (int.TryParse(digits, System.Globalization.NumberStyles.AllowLeadingSign, System.Globalization.CultureInfo.InvariantCulture, out var whole) && (whole >= 0 || table.Context.Exact)) return whole;
        Complain(key, 0, "this is not a whole number from 0 upwards.", "Write digits only, or leave the cell empty.");
        return null;
    }

    /// <summary>Is this number possible here? Complains when it is not.</summary>
    public bool InBounds(string key, double value, double least, double most)
    {
        if (double.IsFinite(value) && (table.Context.Exact || (value >= least && value <= most))) return true;
        Complain(key, 0, !double.IsFinite(value) ? "this number is beyond all bounds." : value < least && least == 0 ? "this cannot be negative."
            : $"this is impossible here: it must lie from {NumberText.Write(least)} to {NumberText.Write(most)}.", "Check the number and its unit.");
        return false;
    }

    /// <summary>The columns that Lugbook does not know.</summary>
    /// <remarks>Blank ones are kept in the first row only: that is enough for empty columns and their order to survive.</remarks>
    public Extras Extras()
    {
        if (table.Header.Unknown.IsEmpty) return Trade.Text.Extras.None;
        var first = row.Line == table.Header.Body[0].Line;
        return Trade.Text.Extras.From(from column in table.Header.Unknown
                                      let text = column.Index < row.Cells.Length ? row.Cells[column.Index] : ""
                                      where first || text.Length > 0
                                      select KeyValuePair.Create(column.Key, text));
    }

    /// <summary>The row's identity; 0 when the file has none.</summary>
    public int Id() => Has("row_id") ? Whole("row_id") ?? 0 : 0;

    /// <summary>Complains of one cell.</summary>
    public void Complain(string key, int at, string problem, string remedy)
    {
        var text = Raw(key);
        // The position was found in the trimmed text.
        var lead = text.Length - text.TrimStart().Length;
        text = text.ReplaceLineEndings(" ");
        table.Complain(new($"{Place}, column '{table.Header.Known.GetValueOrDefault(key)?.Header ?? key}'", text, Math.Clamp(at + lead, 0, text.Length), problem, remedy));
    }

    /// <summary>Complains of the row as a whole.</summary>
    public void ComplainOfRow(string text, string problem, string remedy) =>
        table.Complain(new(Place, text.ReplaceLineEndings(" ") is var line && line.Length > 200 ? line[..200] + "…" : line, 0, problem, remedy));

    /// <summary>Adds a remark about this row.</summary>
    public void Remark(string sentence) => table.Remarks.Add($"{Place}: {sentence}");

    /// <summary>File and line.</summary>
    public string Place => $"{table.Grid.Place}, {table.Grid.LineWord} {row.Line}";

    /// <summary>How people write "nothing here".</summary>
    public static bool IsNothing(string text) => text is "-" or "--" or "---" or "–" or "—" or "n/a" or "N/A" or "n.a." or "none" or "?" or "unknown";

    /// <summary>A date, as spreadsheets make them of 1/2 and 3-6.</summary>
    public static bool IsDate(string text) => DatePattern().IsMatch(text);

    /// <summary>Parts "600 VDC" or "62,5mm" into number and unit; the unit is null when the text is a number alone.</summary>
    private static (string Number, string? Unit, int? UnitAt) SplitUnit(string text, Measure measure)
    {
        var end = text.Length;
        while (end > 0 && !char.IsAsciiDigit(text[end - 1]) && text[end - 1] is not ('.' or '½' or '¼' or '⅓' or '¾')) end--;
        if (end == text.Length || end == 0) return (text, null, null);
        var unit = text[end..].Trim();
        if (text[end - 1] == '.' && end == 1) return (text, null, null);
        return UnitWords.Fits(unit, measure) || measure != Measure.Words ? (text[..end].Trim(), unit, text.IndexOf(unit, end, StringComparison.Ordinal)) : (text, null, null);
    }

    /// <summary>1/2, ½, 1/4: how watts are printed. Null when it is no such fraction.</summary>
    private static string? Fraction(string text) => text switch
    {
        "½" or "1/2" => "0.5",
        "¼" or "1/4" => "0.25",
        "⅓" or "1/3" => "0.33",
        "¾" or "3/4" => "0.75",
        "1/8" or "⅛" => "0.125",
        "1/10" => "0.1",
        "1 1/2" or "1½" or "1-1/2" => "1.5",
        _ => null,
    };

    private static double Millimetres(string plain, string unit)
    {
        var factor = UnitWords.Millimetres(unit)!.Value;
        if (factor == 1) return NumberText.Scaled(plain, 0);
        return decimal.TryParse(plain, System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out var exact) && Math.Abs(exact) < 1_000_000_000m
            ? (double)(exact * factor)
            : NumberText.Scaled(plain, 0) * (double)factor;
    }

    [GeneratedRegex(@"^\s*(\d{1,2}[.\-/ ]\s?(jan|feb|m[aä]r|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez)|(jan|feb|m[aä]r|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez)[a-zä]*[.\-/ ]\d{1,4}\s*$|\d{4}-\d\d-\d\d)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex DatePattern();
}

using System.Collections.Immutable;
using System.Globalization;
using System.IO.Compression;
using Lugbook.Trade.Text;
using MiniExcelLibs;

namespace Lugbook.Store.Exchange;

/// <summary>XLSX workbooks in and out; text is written as text, so a cell that begins with = is never a formula.</summary>
internal static class Workbook
{
    /// <summary>Bytes that a workbook may unpack to: 256 MiB, far above any list of parts, far below trouble.</summary>
    private const long UnpackedBytes = 256L * 1024 * 1024;
    /// <summary>The longest text that the format's cells hold.</summary>
    private const int CellLength = 32_767;

    /// <summary>All sheets that hold anything, as grids named "file, sheet name".</summary>
    public static (ImmutableArray<(string Sheet, Grid Grid)> Sheets, Complaint? Complaint) Read(byte[] bytes, string place, bool keepsGood = false)
    {
        try
        {
            if (TooBig(bytes)) return ([], new(place, "", 0, "this workbook unpacks to more than 256 MiB.", "Take the sheets that belong to this set into a workbook of their own."));
            using var stream = new MemoryStream(bytes, writable: false);
            var sheets = ImmutableArray.CreateBuilder<(string, Grid)>();
            foreach (var name in MiniExcel.GetSheetNames(stream))
            {
                var where = $"{place}, sheet {name}";
                var rows = ImmutableArray.CreateBuilder<GridRow>();
                var line = 0;
                foreach (IDictionary<string, object?> cells in stream.Query(useHeaderRow: false, sheetName: name, excelType: ExcelType.XLSX))
                {
                    line++;
                    if (cells.Count > ImportLimits.Columns)
                        return ([], new($"{where}, row {line}", "", 0, $"this sheet is {cells.Count} columns wide; {ImportLimits.Columns} is the limit.", "Delete the columns that are not needed."));
                    var row = new GridRow(line, [.. cells.Values.Select(Text)]);
                    if (row.IsBlank || (row.Filled == 1 && row.Cells.First(c => !string.IsNullOrWhiteSpace(c)).TrimStart().StartsWith('#'))) continue;
                    if (rows.Count > ImportLimits.Rows)
                        return (keepsGood ? sheets.Append((name, new(where, "row", rows.ToImmutable(), '\0'))).ToImmutableArray() : [], new(where, "", 0, $"this sheet has more than {ImportLimits.Rows} rows.", "Split it; no chassis has so many parts."));
                    rows.Add(row);
                }
                if (rows.Count > 0) sheets.Add((name, new(where, "row", rows.ToImmutable(), '\0')));
            }
            return (sheets.ToImmutable(), null);
        }
        // The package throws whatever its parser meets in a damaged file; none of it may reach the user.
        catch (Exception e) when (e is not (OperationCanceledException or OutOfMemoryException))
        {
            return ([], new(place, "", 0, $"this workbook could not be read ({e.Message.ReplaceLineEndings(" ")}).", "Open it in a spreadsheet program and save it again as .xlsx, or as CSV."));
        }
    }

    /// <summary>Writes the tables as sheets of one workbook.</summary>
    public static Complaint? Write(IReadOnlyList<WrittenTable> tables, Stream stream, string place)
    {
        foreach (var table in tables)
            foreach (var row in table.Rows)
                if (row.FirstOrDefault(c => c.Text.Length > CellLength).Text is { } longest)
                    return new($"{place}, sheet {table.Name}", longest[..60] + "…", 0, $"this text has {longest.Length} characters; a workbook's cell holds {CellLength}.", "Shorten it, or write CSV or an archive instead.");
        WorkbookWriter.Write(tables, stream);
        return null;
    }

    private static string Text(object? cell) => cell switch
    {
        null => "",
        string text => text.ReplaceLineEndings("\n"),
        double number => NumberText.Write(number),
        bool truth => truth ? "TRUE" : "FALSE",
        DateTime { TimeOfDay.Ticks: 0 } day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        DateTime time => time.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => cell.ToString() ?? "",
    };

    /// <summary>Unpacks and counts: what the directory of a ZIP says about sizes need not be true.</summary>
    private static bool TooBig(byte[] bytes)
    {
        using var zip = new ZipArchive(new MemoryStream(bytes, writable: false), ZipArchiveMode.Read);
        if (zip.Entries.Count > 5000) return true;
        var total = 0L;
        var buffer = new byte[81920];
        foreach (var entry in zip.Entries)
        {
            using var stream = entry.Open();
            for (int n; (n = stream.Read(buffer)) > 0;)
                if ((total += n) > UnpackedBytes) return true;
        }
        return false;
    }
}

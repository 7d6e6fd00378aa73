using System.Collections.Immutable;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>Tables of a file, as text; faults beside what could be read.</summary>
/// <param name="Tables">One for a text file, one a sheet for a workbook.</param>
/// <param name="Complaints">What could not be read.</param>
/// <param name="Remarks">What was guessed.</param>
public sealed record LooseReading(ImmutableArray<LooseTable> Tables, ImmutableArray<Complaint> Complaints, ImmutableArray<string> Remarks);

/// <summary>The front door for tables that are no book: lists of suppliers, of a drawer, of what came. CSV or XLSX, in and out.</summary>
/// <remarks>Nothing here throws for content or for what a disk cannot do. Memory is bounded: 32 MiB and 100,000 rows of a file; what is beyond is refused and what is before stands.</remarks>
public static class TableFiles
{
    /// <summary>Reads a file.</summary>
    /// <param name="path">CSV, TSV, text or .xlsx.</param>
    /// <param name="understood">How many cells of a row are known headers; decides what parts the cells.</param>
    /// <param name="stop">Cancels.</param>
    public static async Task<LooseReading> ReadAsync(string path, Func<IReadOnlyList<string>, int> understood, CancellationToken stop)
    {
        try
        {
            if (!File.Exists(path)) return Failed(new Complaint(path, "", 0, "there is no file of this name.", "Check the spelling; paths count from the folder you are in."));
            await using var file = File.OpenRead(path);
            var bytes = new byte[Math.Min(file.Length, ImportLimits.FileBytes + 1L)];
            await file.ReadExactlyAsync(bytes, stop);
            return Read(new(Path.GetFileName(path), bytes), understood);
        }
        catch (Exception e) when (BookFiles.IsDisk(e))
        {
            return Failed(BookFiles.Disk(path, e));
        }
    }

    /// <summary>Reads a file that is in memory already. Pure.</summary>
    public static LooseReading Read(NamedBytes file, Func<IReadOnlyList<string>, int> understood)
    {
        ArgumentNullException.ThrowIfNull(file);
        var form = FileSniffer.FormOf(file.Bytes);
        if (form == FileForm.Archive) return Failed(new Complaint(file.Name, "", 0, "this is a book, not a list.", "Name a CSV or .xlsx file."));
        var complaints = ImmutableArray.CreateBuilder<Complaint>();
        var bytes = file.Bytes.AsSpan();
        if (bytes.Length > ImportLimits.FileBytes)
        {
            complaints.Add(new(file.Name, "", 0, $"this file has more than {ImportLimits.FileBytes / (1024 * 1024)} MiB; what is beyond was not read.", "Take the rows that are needed into a file of their own."));
            if (form != FileForm.Text) return new([], complaints.ToImmutable(), []);
            bytes = bytes[..ImportLimits.FileBytes];
            bytes = bytes[..(bytes.LastIndexOf((byte)'\n') + 1)];
        }
        else if (FileSniffer.Refusal(file) is { } refusal) return Failed(refusal);
        if (form == FileForm.Workbook)
        {
            var (sheets, fault) = Workbook.Read(file.Bytes, file.Name, keepsGood: true);
            if (fault is not null) complaints.Add(fault);
            return new([.. sheets.Select(s => Loose(s.Grid))], complaints.ToImmutable(), []);
        }
        if (TextDecoding.Decode(bytes, file.Name, out var remark) is not { } text) return Failed(new Complaint(file.Name, "", 0, "this is not a text file.", "Save the list as CSV or .xlsx."));
        var (grid, complaint) = DelimitedText.Read(text, file.Name, understood, keepsGood: true);
        if (complaint is not null) complaints.Add(complaint);
        return new(grid is null ? [] : [Loose(grid)], complaints.ToImmutable(), remark is null ? [] : [remark]);
    }

    /// <summary>A table as CSV bytes: UTF-8, with a byte-order mark only where letters beyond ASCII need it.</summary>
    public static byte[] ToCsv(WrittenTable table) => BookFiles.Encoded(DelimitedWriter.Write(table));

    /// <summary>Tables as a workbook; words are text, so that none becomes a formula.</summary>
    public static byte[] ToXlsx(params IReadOnlyList<WrittenTable> tables)
    {
        using var stream = new MemoryStream();
        WorkbookWriter.Write(tables, stream);
        return stream.ToArray();
    }

    /// <summary>Writes bytes beside their place first, so that a full disk leaves the old file whole.</summary>
    /// <returns>Empty when written.</returns>
    public static Task<ImmutableArray<Complaint>> WriteAsync(string path, byte[] bytes, CancellationToken stop) => SafeFile.TryAsync(path, () => SafeFile.ReplaceAsync(path, bytes, stop));

    private static LooseTable Loose(Grid grid) => new(grid.Place, grid.LineWord, [.. grid.Rows.Select(r => new LooseRow(r.Line, r.Cells))]);

    private static LooseReading Failed(Complaint complaint) => new([], [complaint], []);
}

using System.IO.Compression;
using Lugbook.Store.Archive;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>A file in memory.</summary>
/// <param name="Name">Its name, which tells which table it is.</param>
/// <param name="Bytes">Its content.</param>
public sealed record NamedBytes(string Name, byte[] Bytes);

/// <summary>What a file is, told by its bytes and not by its name.</summary>
internal enum FileForm
{
    /// <summary>Separated text.</summary>
    Text,
    /// <summary>XLSX.</summary>
    Workbook,
    /// <summary>A book's archive.</summary>
    Archive,
    /// <summary>A ZIP of another sort.</summary>
    OtherZip,
    /// <summary>The workbook of spreadsheets before 2007.</summary>
    OldWorkbook,
    /// <summary>PDF.</summary>
    Pdf,
}

/// <summary>Tells forms of file apart and refuses what cannot be read, saying what to save instead.</summary>
internal static class FileSniffer
{
    public static FileForm FormOf(byte[] bytes)
    {
        if (bytes is [0xD0, 0xCF, 0x11, 0xE0, ..]) return FileForm.OldWorkbook;
        if (bytes is [(byte)'%', (byte)'P', (byte)'D', (byte)'F', ..]) return FileForm.Pdf;
        if (bytes is not [(byte)'P', (byte)'K', 3 or 5, 4 or 6, ..]) return FileForm.Text;
        try
        {
            using var zip = new ZipArchive(new MemoryStream(bytes, writable: false), ZipArchiveMode.Read);
            return zip.GetEntry("xl/workbook.xml") is not null ? FileForm.Workbook : zip.GetEntry("manifest.json") is not null ? FileForm.Archive : FileForm.OtherZip;
        }
        catch (InvalidDataException)
        {
            return FileForm.OtherZip;
        }
    }

    /// <summary>Why this file cannot be read, or null when it can be tried.</summary>
    public static Complaint? Refusal(NamedBytes file)
    {
        if (file.Bytes.Length > LimitOf(file.Name)) return TooBig(file.Name, file.Bytes.Length);
        // An archive that is damaged beyond its directory is the archive's to explain.
        if (file.Name.EndsWith(".lugbook", StringComparison.OrdinalIgnoreCase) && FormOf(file.Bytes) != FileForm.Archive) return BookArchive.Open(file.Bytes, file.Name).Complaints[0];
        return FormOf(file.Bytes) switch
        {
            FileForm.OldWorkbook => new(file.Name, "", 0, "this is a workbook of the old form (.xls), or a document that is none.", "Save it as .xlsx or as CSV."),
            FileForm.Pdf => new(file.Name, "", 0, "this is a PDF.", "Save the list as CSV or .xlsx."),
            FileForm.OtherZip => new(file.Name, "", 0, "this is neither a workbook (.xlsx) nor a book's archive (.lugbook), or it is damaged.", "Save an .ods as .xlsx; unpack another ZIP first."),
            FileForm.Text when file.Name.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase) && file.Bytes.Length == 0 => new(file.Name, "", 0, "this file is empty.", "Save the workbook again."),
            _ => null,
        };
    }

    /// <summary>Bytes that a file of this name may have.</summary>
    public static long LimitOf(string name) => name.EndsWith(".lugbook", StringComparison.OrdinalIgnoreCase) ? BookArchive.PackedBytes : ImportLimits.FileBytes;

    public static Complaint TooBig(string place, long size) =>
        new(place, "", 0, $"this file has {size / (1024 * 1024)} MiB; {LimitOf(place) / (1024 * 1024)} MiB is the limit.", "Check that it is the right file; a large chassis needs less than one.");
}

using System.Collections.Immutable;
using System.Security;
using System.Text;
using Lugbook.Store.Archive;
using Lugbook.Trade;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>The front door for books as files: CSV folders, workbooks, archives, in and out. The form is described in docs/exchange.md.</summary>
/// <remarks>Nothing here throws for content or for what a disk cannot do: that comes as complaints. Cancelling throws as usual.</remarks>
public static class BookFiles
{
    /// <summary>Reads a book from whatever the path names.</summary>
    /// <param name="path">
    /// A folder with lugs.csv, parts.csv, …; a folder with one set as radio.lugs.csv, …; a prefix (dir/radio for dir/radio.lugs.csv);
    /// one CSV file with parts; an .xlsx with sheets of those names or with one sheet of parts; a .lugbook archive.
    /// </param>
    /// <param name="stop">Cancels.</param>
    /// <returns>The book, or every complaint about every file.</returns>
    public static async Task<ImportResult> ReadAsync(string path, CancellationToken stop)
    {
        if (string.IsNullOrWhiteSpace(path) || path.Contains('\0', StringComparison.Ordinal)) return ImportResult.Failed(new Complaint("path", path ?? "", 0, "no file or folder is named.", "Name a folder, a .csv, an .xlsx or a .lugbook file."));
        try
        {
            if (File.Exists(path)) return await ReadFileAsync(path, stop);
            var isFolder = Directory.Exists(path);
            var folder = isFolder ? path : Path.GetDirectoryName(Path.GetFullPath(path));
            if (folder is null || !Directory.Exists(folder))
                return ImportResult.Failed(new Complaint(path, "", 0, "there is no file or folder of this name.", "Check the spelling; paths count from the folder you are in."));
            var remarks = new List<string>();
            var (files, complaint) = BookSources.Choose(isFolder ? path : folder, Directory.EnumerateFiles(folder).Select(f => Path.GetFileName(f)!), isFolder ? null : Path.GetFileName(path), remarks);
            if (complaint is not null) return ImportResult.Failed(isFolder ? complaint : complaint with { Place = path });
            if (files.TryGetValue("", out var whole)) return await ReadFileAsync(Path.Combine(folder, whole), stop);
            var (read, failed) = await LoadAsync(files.Values.Select(f => Path.Combine(folder, f)), stop);
            if (failed.Length > 0) return ImportResult.Failed(failed);
            var name = isFolder ? Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder))) : Path.GetFileName(path);
            var result = await PhotoFolder.WithContentAsync(Read(read, name), folder, stop);
            return result with { Remarks = result.Remarks.InsertRange(0, remarks) };
        }
        catch (Exception e) when (IsDisk(e))
        {
            return ImportResult.Failed(Disk(path, e));
        }
    }

    /// <summary>Reads a book from files that are in memory already: an upload. Pure.</summary>
    /// <param name="files">CSV tables by name, or one workbook, or one archive.</param>
    /// <param name="fallbackName">What to call the book when its facts give no name.</param>
    public static ImportResult Read(IReadOnlyList<NamedBytes> files, string fallbackName)
    {
        var tables = new Dictionary<string, Grid>();
        var complaints = new List<Complaint>();
        var remarks = new List<string>();
        foreach (var file in files)
        {
            if (FileSniffer.Refusal(file) is { } refusal) { complaints.Add(refusal); continue; }
            var form = FileSniffer.FormOf(file.Bytes);
            if (form != FileForm.Text && files.Count > 1)
            {
                complaints.Add(new(file.Name, "", 0, "a workbook or an archive is a set by itself.", "Choose it alone, or CSV files only."));
                continue;
            }
            if (form == FileForm.Archive)
            {
                var opened = BookArchive.Open(file.Bytes, file.Name);
                if (opened.Archive is not { } archive) return new(null, opened.Complaints, opened.Remarks);
                var (contents, missing) = PhotoEntries.Read(archive, file.Name);
                return new(archive.Book, [], [.. opened.Remarks, .. missing]) { Photographs = contents };
            }
            var table = BookSources.NameOf(file.Name).Table;
            if (files.Count == 1 && form == FileForm.Text && (table is null || !NameIsMeant(file, table))) table = TableByContent(file);
            if (form == FileForm.Workbook) SheetChoice.Take(file, tables, complaints, remarks);
            else if (table is null) remarks.Add($"{file.Name}: not read, because its name is none of {string.Join(", ", Shapes.All.Select(s => s.Name + ".csv"))}.");
            else if (tables.ContainsKey(table)) complaints.Add(new(file.Name, "", 0, $"there is a second file for the table {table}.", "Choose one of them."));
            else if (TakeText(file, table, remarks, complaints) is { } grid)
            {
                if (SheetChoice.IsMeant(grid, table)) tables[table] = grid;
                else remarks.Add($"{file.Name}: not read: it has the name of the table {table}, but not its columns.");
            }
        }
        if (complaints.Count == 0 && tables.Count == 0) complaints.Add(new(fallbackName, "", 0, "there is nothing to read here.", "Choose parts.csv, or the files that belong to the set."));
        // The tables that could be cut into cells are read nevertheless, so that all complaints come at once.
        var result = BookAssembly.Assemble(tables, fallbackName);
        return complaints.Count == 0
            ? result with { Remarks = result.Remarks.InsertRange(0, remarks) }
            : new(null, [.. complaints, .. result.Complaints], result.Remarks.InsertRange(0, remarks));
    }

    /// <summary>Writes a book as a folder of CSV files; files of those names are replaced, others are left alone.</summary>
    /// <returns>Empty when everything was written.</returns>
    public static Task<ImmutableArray<Complaint>> WriteFolderAsync(Book book, string folder, CancellationToken stop) => SafeFile.TryAsync(folder, async () =>
    {
        Directory.CreateDirectory(folder);
        // A list of mounts from an earlier time would contradict the lugs: once there, it is kept up.
        var tables = BookTables.Of(book, withMounts: File.Exists(Path.Combine(folder, "mounts.csv")));
        await SafeFile.ReplaceAllAsync(folder, tables.Select(t => KeyValuePair.Create(t.Name + ".csv", Encoded(DelimitedWriter.Write(t)))), stop);
    });

    /// <summary>Writes a book as a workbook with a sheet for each table.</summary>
    /// <returns>Empty when everything was written.</returns>
    public static async Task<ImmutableArray<Complaint>> WriteXlsxAsync(Book book, string path, CancellationToken stop)
    {
        using var stream = new MemoryStream();
        if (Workbook.Write(BookTables.Of(book), stream, Path.GetFileName(path)) is { } complaint) return [complaint];
        return await SafeFile.TryAsync(path, () => SafeFile.ReplaceAsync(path, stream.ToArray(), stop));
    }

    /// <summary>The workbook as bytes, for a download.</summary>
    public static (byte[] Bytes, Complaint? Complaint) ToXlsx(Book book)
    {
        using var stream = new MemoryStream();
        var complaint = Workbook.Write(BookTables.Of(book), stream, book.Name + ".xlsx");
        return complaint is null ? (stream.ToArray(), null) : ([], complaint);
    }

    /// <summary>The tables as CSV files, for a download: file name and bytes.</summary>
    public static ImmutableArray<NamedBytes> ToCsv(Book book) => [.. BookTables.Of(book).Select(t => new NamedBytes(t.Name + ".csv", Encoded(DelimitedWriter.Write(t))))];

    /// <summary>UTF-8; with a byte-order mark only where spreadsheets need it to get Ω and µ right.</summary>
    internal static byte[] Encoded(string text) => Ascii.IsValid(text) ? Encoding.ASCII.GetBytes(text) : [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text)];

    private static async Task<ImportResult> ReadFileAsync(string path, CancellationToken stop)
    {
        var (files, complaints) = await LoadAsync([path], stop);
        if (complaints.Length > 0) return ImportResult.Failed(complaints);
        var (table, prefix) = BookSources.NameOf(path);
        var result = Read(files, prefix.Length > 0 ? prefix : table is null || Path.GetDirectoryName(Path.GetFullPath(path)) is not { } folder ? Path.GetFileNameWithoutExtension(path) : Path.GetFileName(folder));
        if (table is "parts" or "lugs" && FileSniffer.FormOf(files[0].Bytes) == FileForm.Text && Siblings(path, prefix) is { Count: > 0 } siblings)
            result = result with { Remarks = result.Remarks.Insert(0, $"{path}: read alone. {string.Join(", ", siblings)} beside it belong to it; name the folder to read them all.") };
        return result;
    }

    private static List<string> Siblings(string path, string prefix) =>
        [.. Directory.EnumerateFiles(Path.GetDirectoryName(Path.GetFullPath(path))!, "*.csv").Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal)
            .Where(f => f != Path.GetFileName(path) && BookSources.NameOf(f) is { Table: not null } name && name.Prefix == prefix)];

    /// <summary>A single file whose name says nothing: parts, unless its header suits only another table.</summary>
    private static string TableByContent(NamedBytes file)
    {
        if (TextDecoding.Decode(file.Bytes, file.Name, out _) is not { } text) return Shapes.Parts.Name;
        return new[] { Shapes.Parts, Shapes.LugTable, Shapes.Wires, Shapes.Sheet, Shapes.Declared }
            .FirstOrDefault(s => DelimitedText.Read(text, "", cells => HeaderMatch.Score(cells, s)).Grid is { } grid && HeaderMatch.Suits(grid, s), Shapes.Parts).Name;
    }

    private static bool NameIsMeant(NamedBytes file, string table)
    {
        var shape = Shapes.All.First(s => s.Name == table);
        return !shape.MustSuit || TextDecoding.Decode(file.Bytes, file.Name, out _) is { } text && DelimitedText.Read(text, "", cells => HeaderMatch.Score(cells, shape)).Grid is { } grid && SheetChoice.IsMeant(grid, table);
    }

    private static Grid? TakeText(NamedBytes file, string table, List<string> remarks, List<Complaint> complaints)
    {
        if (TextDecoding.Decode(file.Bytes, file.Name, out var remark) is not { } text)
        {
            complaints.Add(new(file.Name, "", 0, "this is not a text file.", "Save the list as CSV or .xlsx."));
            return null;
        }
        if (remark is not null) remarks.Add(remark);
        var shape = Shapes.All.First(s => s.Name == table);
        var (grid, complaint) = DelimitedText.Read(text, file.Name, cells => HeaderMatch.Score(cells, shape));
        if (complaint is not null) complaints.Add(complaint);
        else if (grid!.Rows.IsEmpty && table == Shapes.Parts.Name) complaints.Add(new(file.Name, "", 0, "this file is empty.", "Put a line of column names (ref, kind, value, …) and the parts into it."));
        return grid;
    }

    private static async Task<(ImmutableArray<NamedBytes> Files, ImmutableArray<Complaint> Complaints)> LoadAsync(IEnumerable<string> paths, CancellationToken stop)
    {
        var files = ImmutableArray.CreateBuilder<NamedBytes>();
        var complaints = ImmutableArray.CreateBuilder<Complaint>();
        foreach (var path in paths)
        {
            try
            {
                var size = new FileInfo(path).Length;
                if (size > FileSniffer.LimitOf(path)) complaints.Add(FileSniffer.TooBig(path, size));
                else files.Add(new(Path.GetFileName(path), await File.ReadAllBytesAsync(path, stop)));
            }
            catch (Exception e) when (IsDisk(e))
            {
                complaints.Add(Disk(path, e));
            }
        }
        return (files.ToImmutable(), complaints.ToImmutable());
    }

    internal static bool IsDisk(Exception e) => e is IOException or UnauthorizedAccessException or SecurityException;

    internal static Complaint Disk(string path, Exception e) => new(path, "", 0, e is UnauthorizedAccessException or SecurityException
            ? "this may not be read or written by this user."
            : $"the disk refused this: {e.Message.ReplaceLineEndings(" ")}", "Check the path and its permissions, close programs that have the file open, and try again.");
}

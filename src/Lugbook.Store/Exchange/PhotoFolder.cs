using System.Collections.Immutable;
using Lugbook.Store.Archive;
using Lugbook.Store.Photographs;
using Lugbook.Trade;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>Photographs beside CSV tables: files in the folder "photographs", named by their sums.</summary>
public static class PhotoFolder
{
    /// <summary>Writes the two tables of photographs and the files that are given; the other tables are left as their owner wrote them.</summary>
    /// <param name="book">The book, with its rows of photographs.</param>
    /// <param name="contents">Files to write; those that are there already need not be given.</param>
    /// <param name="folder">The book's folder.</param>
    /// <param name="stop">Cancels.</param>
    /// <returns>Empty when everything was written.</returns>
    public static Task<ImmutableArray<Complaint>> WriteAsync(Book book, IReadOnlyList<PhotoContent> contents, string folder, CancellationToken stop) => SafeFile.TryAsync(folder, async () =>
    {
        if (contents.Count > 0)
        {
            var within = Directory.CreateDirectory(Path.Combine(folder, "photographs")).FullName;
            await SafeFile.ReplaceAllAsync(within, contents.Select(c => KeyValuePair.Create(Path.GetFileName(PhotoContent.FileName(c.Sum, c.MediaType)), c.Bytes.ToArray())), stop);
        }
        // The tables last: a row never names a file that is not there.
        await SafeFile.ReplaceAllAsync(folder, BookTables.OfPhotographs(book).Select(t => KeyValuePair.Create(t.Name + ".csv", BookFiles.Encoded(DelimitedWriter.Write(t)))), stop);
    });

    internal static async Task<ImportResult> WithContentAsync(ImportResult read, string folder, CancellationToken stop)
    {
        if (read.Book is not { Photographs.Count: > 0 } book) return read;
        var files = new Dictionary<string, byte[]>();
        foreach (var row in book.Photographs)
            // The name is made from a checked sum: nothing in a table can lead out of the folder.
            if (PhotoContent.FileName(row.Content, row.MediaType) is var name && Path.Combine(folder, name) is var path && File.Exists(path) && new FileInfo(path).Length <= PhotoIntake.MostBytes)
                files[row.Content] = await File.ReadAllBytesAsync(path, stop);
        var (contents, remarks) = PhotoEntries.Read(book, folder, row => files.TryGetValue(row.Content, out var bytes) ? bytes : null);
        return read with { Photographs = contents, Remarks = [.. read.Remarks, .. remarks] };
    }
}

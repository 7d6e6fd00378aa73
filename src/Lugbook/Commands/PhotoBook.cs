using Lugbook.Store.Archive;
using Lugbook.Store.Exchange;
using Lugbook.Store.Photographs;
using Lugbook.Trade;

namespace Lugbook.Commands;

/// <summary>A book on the disk whose photographs a command changes: a folder or an archive. Everything else in it stays as it is.</summary>
internal sealed record PhotoBook(string Path, Book Book, BookArchive? Archive)
{
    /// <summary>Opens it for writing; on trouble says so and returns null.</summary>
    public static async Task<PhotoBook?> OpenAsync(string path, TextWriter error, CancellationToken stop)
    {
        if (Directory.Exists(path))
        {
            var read = await BookFiles.ReadAsync(path, stop);
            foreach (var complaint in read.Complaints) await error.WriteLineAsync(complaint + "\n");
            if (read.Book is { } book) return new(path, book, null);
        }
        else if (File.Exists(path) && path.EndsWith(".lugbook", StringComparison.OrdinalIgnoreCase))
        {
            var opened = await BookArchive.OpenAsync(path, stop);
            foreach (var complaint in opened.Complaints) await error.WriteLineAsync(complaint + "\n");
            if (opened.Archive is { } archive) return new(path, archive.Book, archive);
        }
        else await error.WriteLineAsync(File.Exists(path) ? $"lugbook: '{path}' cannot hold photographs. 'lugbook save {path} --out NAME.lugbook' makes a book file that can." : $"lugbook: there is no folder or .lugbook file '{path}'.");
        await error.WriteLineAsync("lugbook: nothing was changed.");
        return null;
    }

    /// <summary>Writes the book's photographs and pins, and new files; true when all of it is on the disk.</summary>
    public async Task<bool> WriteAsync(Book book, IReadOnlyList<PhotoContent> added, TextWriter error, CancellationToken stop)
    {
        var complaints = Archive is null ? await PhotoFolder.WriteAsync(book, added, Path, stop)
            : await new BookArchive(book, [.. Archive.Others, .. added.Select(c => new ArchiveEntry(PhotoContent.FileName(c.Sum, c.MediaType), c.Bytes)).Where(e => Archive.Others.All(o => o.Name != e.Name))])
                .SaveAsync(Path, TimeProvider.System.GetUtcNow(), stop);
        foreach (var complaint in complaints) await error.WriteLineAsync($"{complaint}\nlugbook: nothing was changed.");
        return complaints.IsEmpty;
    }

    /// <summary>The picture without what the camera wrote beside it.</summary>
    public static PhotoContent Stripped(PhotoContent content)
    {
        byte[] bytes;
        try { bytes = PhotoStripping.Strip(content); }
        catch (InvalidDataException) { bytes = PhotoCopy.Make(content.Bytes.Span, Math.Max(content.Width, content.Height)); }
        return PhotoIntake.Check(bytes, content.Sum).Content!;
    }
}

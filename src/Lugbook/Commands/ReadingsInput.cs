using Lugbook.Store.Exchange;
using Lugbook.Trade;

namespace Lugbook.Commands;

/// <summary>Readings named on the command line besides those in the book.</summary>
internal static class ReadingsInput
{
    /// <summary>The book with the file's readings behind its own; null where a line cannot be read, with every complaint.</summary>
    public static async Task<Book?> AddAsync(Book book, FileInfo? file, TextWriter error, CancellationToken stop)
    {
        if (file is null) return book;
        if (!file.Exists)
        {
            await error.WriteLineAsync($"lugbook: there is no file {file.Name}.");
            return null;
        }
        var read = ReadingsText.Read(await File.ReadAllTextAsync(file.FullName, stop));
        foreach (var complaint in read.Complaints) await error.WriteLineAsync($"{complaint}\n");
        if (!read.Complaints.IsEmpty)
        {
            await error.WriteLineAsync("lugbook: no reading of the file was used.");
            return null;
        }
        return book with { Readings = book.Readings.AddRange(read.Rows.Select(r => r with { Id = 0 })) };
    }
}

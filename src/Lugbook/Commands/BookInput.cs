using System.Collections.Immutable;
using Lugbook.Store.Exchange;
using Lugbook.Store.Photographs;
using Lugbook.Store.Shelves;
using Lugbook.Trade;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>A book named on the command line, with the data that its answers need.</summary>
internal sealed record BookInput(Book Book, BenchData Data)
{
    /// <summary>The content of its photographs, as far as it is there.</summary>
    public ImmutableArray<PhotoContent> Photographs { get; init; } = [];
    /// <summary>Is it the bench's own, on its shelf, and no file?</summary>
    public bool OnShelf { get; init; }

    /// <summary>Opens the book without further valves.</summary>
    public static Task<BookInput?> OpenAsync(string path, TextWriter error, CancellationToken stop) => OpenAsync(path, null, error, stop);

    /// <summary>Opens the book with the user's own valves, and those of a file or folder that is named; on trouble writes every complaint and returns null.</summary>
    public static async Task<BookInput?> OpenAsync(string path, string? ownValves, TextWriter error, CancellationToken stop)
    {
        var read = await BookFiles.ReadAsync(path, stop);
        var onShelf = false;
        try
        {
            // A file of that name comes first.
            if (read.Book is null && !Path.Exists(path) && await ShelfBook.FindAsync(path, stop) is var (book, photographs))
                (read, onShelf) = (new(book, [], []) { Photographs = photographs }, true);
        }
        catch (ShelfException trouble)
        {
            await error.WriteLineAsync($"lugbook: {trouble.Message}");
            return null;
        }
        foreach (var complaint in read.Complaints) await error.WriteLineAsync(complaint + "\n");
        if (read.Book is null)
        {
            await error.WriteLineAsync("lugbook: the book was not opened; nothing was changed.");
            return null;
        }
        foreach (var remark in read.Remarks) await error.WriteLineAsync($"Note: {remark}");
        if (await DataInput.LoadAsync(ownValves, error, stop) is not { } data) return null;
        var own = data.For(read.Book);
        foreach (var complaint in own.Faults) await error.WriteLineAsync($"{path}: {complaint}\n");
        if (own.Faults.IsEmpty) return new(read.Book, own) { Photographs = read.Photographs, OnShelf = onShelf };
        await error.WriteLineAsync("lugbook: the book's own valves could not be used; nothing was done.");
        return null;
    }
}

using Lugbook.Store.Exchange;
using Lugbook.Trade;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>A book named on the command line, with the data that its answers need.</summary>
internal sealed record BookInput(Book Book, BenchData Data)
{
    /// <summary>Opens the book; on trouble writes every complaint and returns null.</summary>
    public static async Task<BookInput?> OpenAsync(string path, TextWriter error, CancellationToken stop)
    {
        var read = await BookFiles.ReadAsync(path, stop);
        foreach (var complaint in read.Complaints) await error.WriteLineAsync(complaint + "\n");
        if (read.Book is null)
        {
            await error.WriteLineAsync("lugbook: the book was not opened; nothing was changed.");
            return null;
        }
        foreach (var remark in read.Remarks) await error.WriteLineAsync($"Note: {remark}");
        return new(read.Book, await BenchData.LoadAsync(BenchOptions.UsualDataFolder(), stop));
    }
}

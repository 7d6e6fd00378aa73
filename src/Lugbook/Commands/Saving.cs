using System.Collections.Immutable;
using System.CommandLine;
using Lugbook.Store.Archive;
using Lugbook.Store.Exchange;
using Lugbook.Trade.Text;

namespace Lugbook.Commands;

/// <summary>Writing a file that the user named.</summary>
internal static class Saving
{
    /// <summary>A book as one file, as a spreadsheet or as a folder of tables, by the path's ending.</summary>
    public static Task<ImmutableArray<Complaint>> BookAsync(Trade.Book book, string path, CancellationToken stop) => Path.GetExtension(path).ToLowerInvariant() switch
    {
        ".lugbook" => new BookArchive(book, []).SaveAsync(path, TimeProvider.System.GetUtcNow(), stop),
        ".xlsx" => BookFiles.WriteXlsxAsync(book, path, stop),
        _ => BookFiles.WriteFolderAsync(book, path, stop),
    };

    /// <summary>Writes, says so, and turns what the disk refuses into a clear message.</summary>
    public static async Task<int> WriteAsync(ParseResult parsed, string path, Func<string, Task<ImmutableArray<Complaint>>> write)
    {
        try
        {
            var complaints = await write(path);
            foreach (var complaint in complaints) await parsed.InvocationConfiguration.Error.WriteLineAsync(complaint.ToString());
            if (!complaints.IsEmpty) return ExitCode.WrongInput;
            await parsed.InvocationConfiguration.Output.WriteLineAsync($"Written: {path}");
            return ExitCode.Done;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            await parsed.InvocationConfiguration.Error.WriteLineAsync($"lugbook: '{path}' could not be written: {trouble.Message}");
            return ExitCode.WrongInput;
        }
    }
}

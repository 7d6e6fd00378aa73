using System.CommandLine;
using Lugbook.Store.Archive;
using Lugbook.Store.Exchange;

namespace Lugbook.Commands;

/// <summary>"save": a book in another form.</summary>
internal static class SaveCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var to = new Option<string>("--out") { Description = "NAME.lugbook for a book file, NAME.xlsx for a spreadsheet, anything else for a folder of CSV files.", Required = true };
        var command = new BenchWord("save", "Saves a book as one file, as a spreadsheet, or as a folder of CSV tables.",
            "lugbook save data/demo/radio --out radio.lugbook",
            "lugbook save radio.lugbook --out radio-tables",
            "lugbook save my-parts.csv --out my-parts.xlsx")
        { book, to };
        command.SetAction(async (parsed, stop) =>
        {
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            return await Saving.WriteAsync(parsed, parsed.GetValue(to)!, path => Path.GetExtension(path).ToLowerInvariant() switch
            {
                ".lugbook" => new BookArchive(opened.Book, []).SaveAsync(path, TimeProvider.System.GetUtcNow(), stop),
                ".xlsx" => BookFiles.WriteXlsxAsync(opened.Book, path, stop),
                _ => BookFiles.WriteFolderAsync(opened.Book, path, stop),
            });
        });
        return command;
    }
}

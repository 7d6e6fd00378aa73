using System.Collections.Immutable;
using System.CommandLine;
using Lugbook.Store.Archive;
using Lugbook.Store.Exchange;
using Lugbook.Store.Photographs;
using Lugbook.Trade.Text;

namespace Lugbook.Commands;

/// <summary>"save": a book in another form.</summary>
internal static class SaveCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var valves = new Option<FileInfo?>("--valves") { Description = "Also put the handbook lines of this CSV file into the book, as 'lugbook valve fit' takes them; they travel with it." };
        var photographs = new Option<string>("--photographs") { Description = "How photographs go into a book file: 'stripped' (every pixel, without place, time, camera and owner), 'small' (2400 pixels, for sending) or 'originals' (byte for byte).", DefaultValueFactory = _ => "stripped" };
        photographs.AcceptOnlyFromAmong("stripped", "small", "originals");
        var to = new Option<string>("--out") { Description = "NAME.lugbook for a book file, NAME.xlsx for a spreadsheet, anything else for a folder of CSV files.", Required = true };
        var command = new BenchWord("save", "Saves a book as one file, as a spreadsheet, or as a folder of CSV tables.",
            "lugbook save data/demo/radio --out radio.lugbook",
            "lugbook save radio.lugbook --out radio-tables",
            "lugbook save my-parts.csv --out my-parts.xlsx",
            "lugbook save radio.lugbook --valves my-lines.csv --out radio.lugbook")
        { book, valves, photographs, to };
        command.SetAction(async (parsed, stop) =>
        {
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            if (await WithLines(opened, parsed.GetValue(valves), parsed.InvocationConfiguration.Error, stop) is not { } full) return ExitCode.WrongInput;
            return await Saving.WriteAsync(parsed, parsed.GetValue(to)!, path => Path.GetExtension(path).ToLowerInvariant() switch
            {
                ".lugbook" => Archive(full, opened.Photographs, Form(parsed.GetValue(photographs))).SaveAsync(path, TimeProvider.System.GetUtcNow(), stop),
                ".xlsx" => BookFiles.WriteXlsxAsync(full, path, stop),
                _ => FolderAsync(full, opened.Photographs, Form(parsed.GetValue(photographs)), path, stop),
            });
        });
        return command;
    }

    private static PhotoForm Form(string? word) => word switch { "originals" => PhotoForm.Original, "small" => PhotoForm.Small, _ => PhotoForm.Stripped };

    private static BookArchive Archive(Trade.Book book, IReadOnlyList<PhotoContent> photographs, PhotoForm form)
    {
        var (leaving, entries) = PhotoEntries.Of(book, photographs, form);
        return new(leaving, entries);
    }

    private static async Task<ImmutableArray<Complaint>> FolderAsync(Trade.Book book, IReadOnlyList<PhotoContent> photographs, PhotoForm form, string path, CancellationToken stop)
    {
        var (leaving, entries) = PhotoEntries.Of(book, photographs, form);
        var written = await BookFiles.WriteFolderAsync(leaving, path, stop);
        return !written.IsEmpty || entries.IsEmpty ? written : await PhotoFolder.WriteAsync(leaving, PhotoEntries.Read(new(leaving, entries), path).Contents, path, stop);
    }

    private static async Task<Trade.Book?> WithLines(BookInput opened, FileInfo? file, TextWriter error, CancellationToken stop)
    {
        if (file is null) return opened.Book;
        if (!file.Exists)
        {
            await error.WriteLineAsync($"lugbook: there is no file {file.Name}. Name a CSV file of handbook lines; docs/valves.md shows one.");
            return null;
        }
        var read = ValvesText.ReadLines(await File.ReadAllTextAsync(file.FullName, stop), new() { Place = file.Name });
        var full = opened.Book with { ValveLines = opened.Book.ValveLines.AddRange(read.Rows.Select(r => r with { Id = 0 })) };
        var complaints = read.Complaints.IsEmpty ? opened.Data.For(full).Faults : read.Complaints;
        foreach (var complaint in complaints) await error.WriteLineAsync($"{complaint}\n");
        if (complaints.IsEmpty) return full;
        await error.WriteLineAsync("lugbook: nothing was saved.");
        return null;
    }
}

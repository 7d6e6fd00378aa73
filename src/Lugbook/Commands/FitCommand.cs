using System.CommandLine;
using Lugbook.Output;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Map;
using Lugbook.Store.Archive;
using Lugbook.Store.Exchange;
using Lugbook.Trade;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>"fit": what do I do at the bench, lug by lug?</summary>
internal static class FitCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var json = Shared.Json();
        var print = new Option<bool>("--print") { Description = "A paper version: one line a step with a box to tick with a pencil." };
        var open = new Option<int?>("--open") { Description = "Positions that may be open at once, 1 to 6. Default: what the book says, else 1." };
        var seconds = new Option<double>("--seconds") { Description = "Time to search the best order; 0 gives the first one at once.", DefaultValueFactory = _ => 10 };
        var done = new Option<string?>("--done") { Description = "Enter steps that were ticked on paper, like 1-14,17 or by part like C6,C7, into the book." };
        var undone = new Option<string?>("--undone") { Description = "Take such ticks back." };
        open.Validators.Add(r => { if (r.GetValueOrDefault<int?>() is < 1 or > 6) r.AddError("--open is a number from 1 to 6."); });
        seconds.Validators.Add(r => { if (!(r.GetValueOrDefault<double>() is >= 0 and <= 3600)) r.AddError("--seconds is a number from 0 to 3600."); });
        var command = new BenchWord("fit", "What to do at the bench: at each lug clear or splice, how each part is formed, and the positions in the order that heats least.",
            "lugbook fit data/demo/radio",
            "lugbook fit data/demo/radio --json",
            "lugbook fit data/demo/tv --print --seconds 20",
            "lugbook fit my-set.lugbook --done 1-14,17")
        { book, json, print, open, seconds, done, undone };
        command.Validators.Add(r => { if (r.GetValue(done) is not null && r.GetValue(undone) is not null) r.AddError("Give --done or --undone, not both."); });
        command.SetAction(async (parsed, stop) =>
        {
            var path = parsed.GetValue(book)!;
            if (await BookInput.OpenAsync(path, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            var map = MapStage.Run(opened.Book, opened.Data.Handbook);
            var (choices, solved) = opened.Data.ChooseSolved(map);
            var (rules, complaints) = FitRules.Read(opened.Book.Facts.FitRules);
            foreach (var complaint in complaints) await parsed.InvocationConfiguration.Error.WriteLineAsync($"Note: {complaint}");
            if (parsed.GetValue(open) is { } most) rules = rules with { Open = most };
            var basis = new FitBasis(null, solved);
            var order = parsed.GetValue(seconds) > 0 ? FitStage.Order(map, choices, TimeSpan.FromSeconds(parsed.GetValue(seconds)), rules, basis, null, stop) : null;
            var fit = FitStage.Run(map, choices, rules, basis, order);
            if ((parsed.GetValue(done) ?? parsed.GetValue(undone)) is { } sweep) return await SweepAsync(parsed, path, opened.Book, fit, sweep, parsed.GetValue(done) is not null, stop);
            var title = opened.Book.Facts.Title;
            await parsed.InvocationConfiguration.Output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(FitShape.Of(opened.Book.Name, fit)) : parsed.GetValue(print) ? FitText.Paper(title, fit) : FitText.Screen(title, fit));
            return fit.Contradictions.IsEmpty ? ExitCode.Done : ExitCode.No;
        });
        return command;
    }

    private static async Task<int> SweepAsync(ParseResult parsed, string path, Book book, FitResult fit, string text, bool done, CancellationToken stop)
    {
        var (numbers, wrong) = StepNumbers.Read(text, [.. fit.Steps.Select(s => s.Position)]);
        FitStep[] steps = [.. numbers.Select(n => fit.Steps[n - 1])];
        if (wrong is null && done && steps.FirstOrDefault(s => s.Open is not null && !s.Done) is { } held) wrong = $"Step {held.Number}, {held.Position}, cannot be ticked: {held.Open} Nothing was entered.";
        if (wrong is not null)
        {
            await parsed.InvocationConfiguration.Error.WriteLineAsync($"lugbook: {wrong}");
            return ExitCode.WrongInput;
        }
        var swept = BookEdits.MarkSweep(book, steps.Where(s => s.Done != done).Select(s => (s.Position, s.Number)), done);
        var saved = await Saving.WriteAsync(parsed, path, file => WriteAsync(swept, file, stop));
        if (saved != ExitCode.Done) return saved;
        var list = string.Join(", ", steps.Select(s => $"{s.Number} {s.Position}"));
        await parsed.InvocationConfiguration.Output.WriteLineAsync($"{(done ? "Done" : "Not done after all")}: {list}. Take it back with --{(done ? "undone" : "done")} {text}");
        return ExitCode.Done;
    }

    // Back into the form that it came in; photographs and history of a book file stay.
    private static async Task<System.Collections.Immutable.ImmutableArray<Trade.Text.Complaint>> WriteAsync(Book book, string path, CancellationToken stop)
    {
        if (Directory.Exists(path)) return await BookFiles.WriteFolderAsync(book, path, stop);
        switch (Path.GetExtension(path).ToLowerInvariant())
        {
            case ".xlsx": return await BookFiles.WriteXlsxAsync(book, path, stop);
            case ".lugbook":
                var opening = await BookArchive.OpenAsync(path, stop);
                return opening.Archive is { } archive ? await (archive with { Book = book }).SaveAsync(path, TimeProvider.System.GetUtcNow(), stop) : opening.Complaints;
            default: return [new(path, "", 0, "ticks cannot be kept in this form.", "Save the list as a book first: lugbook save LIST.csv --out my-set.lugbook")];
        }
    }
}

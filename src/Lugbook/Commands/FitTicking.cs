using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using Lugbook.Output;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Store.Archive;
using Lugbook.Store.Exchange;
using Lugbook.Store.Shelves;
using Lugbook.Trade;
using Lugbook.Trade.Text;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>What "fit --done" or "--undone" was given.</summary>
/// <param name="Text">Steps or parts: "1-14,17", "C6,C7".</param>
/// <param name="Done">Done, or not done after all.</param>
/// <param name="BookTo">Where the book goes; null: it stays on the bench's shelf.</param>
/// <param name="DrawerFrom">The drawer; null to count nothing.</param>
/// <param name="DrawerTo">Where the drawer goes.</param>
internal sealed record Sweep(string Text, bool Done, string? BookTo, string? DrawerFrom, string? DrawerTo);

/// <summary>Enters ticks from paper and keeps the drawer's count; book and drawer are written when all of it is right, or neither.</summary>
internal static class FitTicking
{
    public static async Task<int> RunAsync(ParseResult parsed, BookInput opened, ChooseResult choices, FitResult fit, Sweep sweep, CancellationToken stop)
    {
        var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
        async Task<int> Refuse(string why)
        {
            await error.WriteLineAsync($"lugbook: {why} Nothing was written.");
            return ExitCode.WrongInput;
        }
        if (sweep.DrawerFrom is null != sweep.DrawerTo is null) return await Refuse("--drawer and --drawer-out go together: the count changes. Both may name the same file.");
        if (sweep.DrawerTo is { } csv && !csv.EndsWith(".csv", StringComparison.OrdinalIgnoreCase)) return await Refuse($"the drawer is written as CSV, and '{csv}' does not end so.");
        var (numbers, wrong) = StepNumbers.Read(sweep.Text, [.. fit.Steps.Select(s => s.Position)]);
        FitStep[] steps = [.. numbers.Select(n => fit.Steps[n - 1])];
        if (wrong is null && sweep.Done && steps.FirstOrDefault(s => s.Open is not null && !s.Done) is { } held) wrong = $"step {held.Number}, {held.Position}, cannot be ticked: {held.Open}";
        if (wrong is not null) return await Refuse(wrong);
        var drawer = Drawer.Empty;
        if (sweep.DrawerFrom is { } file)
        {
            if (await SupplyInput.ReadAsync(file, [], opened.Data.Policy.Catalogue, error, stop) is not { } supply) return ExitCode.WrongInput;
            drawer = supply.Drawer;
        }
        var book = BookEdits.MarkSweep(opened.Book, steps.Where(s => s.Done != sweep.Done).Select(s => (s.Position, s.Number)), sweep.Done);
        var told = new List<string>();
        if (sweep.DrawerFrom is not null)
        {
            foreach (var step in steps)
            {
                (drawer, var said) = sweep.Done ? Taken(opened, choices, drawer, step) : Returned(opened, drawer, step);
                told.Add(said);
            }
        }
        if (sweep.DrawerTo is { } drawerTo)
        {
            var written = await Saving.WriteAsync(parsed, drawerTo, path => TableFiles.WriteAsync(path, Encoding.UTF8.GetBytes(drawer.ToCsv()), CancellationToken.None));
            if (written != ExitCode.Done) return written;
        }
        var code = sweep.BookTo is { } to ? await Saving.WriteAsync(parsed, to, path => WriteAsync(book, path, stop)) : await ShelveAsync(opened, steps, sweep.Done, error, stop);
        if (code != ExitCode.Done) return code;
        foreach (var sentence in told) await output.WriteLineAsync(sentence);
        var list = string.Join(", ", steps.Select(s => $"{s.Number} {s.Position}"));
        await output.WriteLineAsync($"{(sweep.Done ? "Done" : "Not done after all")}: {list}. Take it back with --{(sweep.Done ? "undone" : "done")} {sweep.Text}");
        return ExitCode.Done;
    }

    private static (Drawer Drawer, string Said) Taken(BookInput opened, ChooseResult choices, Drawer drawer, FitStep step)
    {
        var place = $"{opened.Book.Name}/{step.Position}";
        if (drawer.FittedAt(place) is { } before) return (drawer.Fit(place, before), $"{step.Position} done; it was counted down already ({before.Part.Text}).");
        if (OrderStage.InDrawer(choices.For(step.Position)!, drawer, opened.Data.Policy.Catalogue).FirstOrDefault() is not { } line)
            return (drawer, $"{step.Position} done; nothing in the drawer may stand there, so nothing was counted.");
        var after = drawer.Fit(place, line);
        return (after, $"{step.Position} done with {line.Part.Text} from the drawer{(line.Where is null ? "" : $", {line.Where}")}: {after.FittedAt(place)!.Count} left.");
    }

    private static (Drawer Drawer, string Said) Returned(BookInput opened, Drawer drawer, FitStep step)
    {
        var place = $"{opened.Book.Name}/{step.Position}";
        var line = drawer.FittedAt(place);
        return (drawer.Forget(place), $"{step.Position} not done after all{(line is null ? "; nothing goes back into the drawer" : $"; {line.Part.Text} goes back into the drawer")}.");
    }

    // As a page would: the newest content is edited, the history names it, open pages follow.
    private static async Task<int> ShelveAsync(BookInput opened, FitStep[] steps, bool done, TextWriter error, CancellationToken stop)
    {
        var changed = steps.Where(s => s.Done != done).Select(s => (s.Position, s.Number)).ToArray();
        var list = string.Join(", ", changed.Select(c => c.Position));
        try
        {
            await ShelfBook.EditAsync(opened.Book.Name, done ? $"{list} exchanged, by the command" : $"{list} not exchanged after all, by the command", book => BookEdits.MarkSweep(book, changed, done), stop);
            return ExitCode.Done;
        }
        catch (ShelfException trouble)
        {
            await error.WriteLineAsync($"lugbook: {trouble.Message}");
            return ExitCode.WrongInput;
        }
    }

    // Into the form that its name says; photographs and history of a book file stay.
    private static async Task<ImmutableArray<Complaint>> WriteAsync(Book book, string path, CancellationToken stop)
    {
        if (path.EndsWith(".lugbook", StringComparison.OrdinalIgnoreCase) && File.Exists(path))
        {
            var opening = await BookArchive.OpenAsync(path, stop);
            return opening.Archive is { } archive ? await (archive with { Book = book }).SaveAsync(path, TimeProvider.System.GetUtcNow(), stop) : opening.Complaints;
        }
        if (File.Exists(path) && !path.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase))
            return [new(path, "", 0, "ticks cannot be kept in this form.", "Say with --out where the book goes: --out my-set.lugbook")];
        return await Saving.BookAsync(book, path, stop);
    }
}

using System.CommandLine;
using System.Text;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Store.Exchange;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>What "fit --done" and "--undone" were given.</summary>
internal sealed record Ticks(string[] Done, string[] Undone, string? BookTo, string? DrawerFrom, string? DrawerTo);

/// <summary>Ticks positions off and keeps the drawer's count; book and drawer are written when all of it is right, or neither.</summary>
internal static class FitTicking
{
    public static async Task<int> RunAsync(ParseResult parsed, BookInput opened, ChooseResult choices, FitResult fit, Ticks ticks, CancellationToken stop)
    {
        var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
        async Task<int> Refuse(string why)
        {
            await error.WriteLineAsync($"lugbook: {why} Nothing was written.");
            return ExitCode.WrongInput;
        }
        if (ticks.BookTo is null) return await Refuse("--done and --undone change the book. Say with --out where it goes; that may be the file it came from.");
        if (ticks.DrawerFrom is null != ticks.DrawerTo is null) return await Refuse("--drawer and --drawer-out go together: the count changes. Both may name the same file.");
        if (ticks.DrawerTo is { } csv && !csv.EndsWith(".csv", StringComparison.OrdinalIgnoreCase)) return await Refuse($"the drawer is written as CSV, and '{csv}' does not end so.");
        if (ticks.Done.Intersect(ticks.Undone, StringComparer.OrdinalIgnoreCase).FirstOrDefault() is { } both) return await Refuse($"{both} cannot be done and not done.");
        var drawer = Drawer.Empty;
        if (ticks.DrawerFrom is { } file)
        {
            if (await SupplyInput.ReadAsync(file, [], opened.Data.Policy.Catalogue, error, stop) is not { } supply) return ExitCode.WrongInput;
            drawer = supply.Drawer;
        }
        var (book, told) = (opened.Book, new List<string>());
        foreach (var (position, done) in ticks.Done.Select(p => (p, true)).Concat(ticks.Undone.Select(p => (p, false))))
        {
            if (fit.Steps.FirstOrDefault(s => string.Equals(s.Position, position, StringComparison.OrdinalIgnoreCase)) is not { } step)
                return await Refuse(fit.NotOnSheet.FirstOrDefault(n => string.Equals(n.Position, position, StringComparison.OrdinalIgnoreCase)) is { } none ? $"{none.Position} is not on the sheet: {none.Reason}" : $"'{position}' is not on the sheet: no such position goes. 'lugbook fit' lists those that do.");
            if (done && step.Open is { } open) return await Refuse($"{step.Position} cannot be ticked: {open}");
            var place = $"{book.Name}/{step.Position}";
            book = BookEdits.MarkDone(book, step.Position, done);
            if (ticks.DrawerFrom is null) told.Add($"{step.Position} {(done ? "done" : "not done after all")}.");
            else if (done)
            {
                var before = drawer.FittedAt(place);
                var line = before ?? OrderStage.InDrawer(choices.For(step.Position)!, drawer, opened.Data.Policy.Catalogue).FirstOrDefault();
                if (line is not null) drawer = drawer.Fit(place, line);
                told.Add(before is not null ? $"{step.Position} done; it was counted down already ({before.Part.Text})."
                    : line is null ? $"{step.Position} done; nothing in the drawer may stand there, so nothing was counted."
                    : $"{step.Position} done with {line.Part.Text} from the drawer{(line.Where is null ? "" : $", {line.Where}")}: {drawer.FittedAt(place)!.Count} left.");
            }
            else
            {
                var line = drawer.FittedAt(place);
                drawer = drawer.Forget(place);
                told.Add($"{step.Position} not done after all{(line is null ? "; nothing goes back into the drawer" : $"; {line.Part.Text} goes back into the drawer")}.");
            }
        }
        if (ticks.DrawerTo is { } drawerTo)
        {
            var written = await Saving.WriteAsync(parsed, drawerTo, path => TableFiles.WriteAsync(path, Encoding.UTF8.GetBytes(drawer.ToCsv()), CancellationToken.None));
            if (written != ExitCode.Done) return written;
        }
        var code = await Saving.WriteAsync(parsed, ticks.BookTo, path => Saving.BookAsync(book, path, stop));
        foreach (var sentence in told) await output.WriteLineAsync(sentence);
        return code;
    }
}

using System.CommandLine;
using Lugbook.Output;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Map;

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
        var done = new Option<string[]>("--done") { Description = "Enter steps that were ticked on paper, like 1-14,17 or by part like C6,C7, into the book.", AllowMultipleArgumentsPerToken = true };
        var undone = new Option<string[]>("--undone") { Description = "Take such ticks back.", AllowMultipleArgumentsPerToken = true };
        var to = new Option<string?>("--out") { Description = "With --done and --undone: where the book goes (as for 'save'); else back to where it came from." };
        var drawer = new Option<string?>("--drawer") { Description = "With --done and --undone: what you have, counted; what fits there is taken from it, or goes back." };
        var drawerTo = new Option<string?>("--drawer-out") { Description = "Where the drawer goes, FILE.csv; it may be the same file." };
        var position = new Option<string?>("--position") { Description = "One position instead: what to read right after it is soldered, and which slips that shows." };
        var meter = new Option<string?>("--meter") { Description = "The meter of that check; the book's own unless named." };
        var capacitanceMeter = new Option<string?>("--capacitance-meter") { Description = "The meter that reads capacitance there, when it is another one." };
        open.Validators.Add(r => { if (r.GetValueOrDefault<int?>() is < 1 or > 6) r.AddError("--open is a number from 1 to 6."); });
        seconds.Validators.Add(r => { if (!(r.GetValueOrDefault<double>() is >= 0 and <= 3600)) r.AddError("--seconds is a number from 0 to 3600."); });
        var command = new BenchWord("fit", "What to do at the bench: at each lug clear or splice, how each part is formed, and the positions in the order that heats least.",
            "lugbook fit data/demo/radio",
            "lugbook fit data/demo/radio --json",
            "lugbook fit data/demo/tv --print --seconds 20",
            "lugbook fit data/demo/radio --position C10",
            "lugbook fit my-set.lugbook --done 1-14,17",
            "lugbook fit radio --done 1-14,17      (the book on the bench's shelf)",
            "lugbook fit data/demo/amp --done C3 C4 --out amp.lugbook --drawer data/lists/drawer.csv --drawer-out drawer.csv")
        { book, position, meter, capacitanceMeter, json, print, open, seconds, done, undone, to, drawer, drawerTo };
        command.Validators.Add(r => { if (r.GetValue(done) is { Length: > 0 } && r.GetValue(undone) is { Length: > 0 }) r.AddError("Give --done or --undone, not both."); });
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
            if (parsed.GetValue(position) is { } wanted)
                return await FitCheck.RunAsync(opened, map, fit, choices, new(wanted, parsed.GetValue(meter), parsed.GetValue(capacitanceMeter), parsed.GetValue(json)), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            string[] ticked = parsed.GetValue(done) ?? [], cleared = parsed.GetValue(undone) ?? [];
            if (ticked.Length + cleared.Length > 0)
            {
                var sweep = new Sweep(string.Join(',', [.. ticked, .. cleared]), ticked.Length > 0, parsed.GetValue(to) ?? (opened.OnShelf ? null : path), parsed.GetValue(drawer), parsed.GetValue(drawerTo));
                return await FitTicking.RunAsync(parsed, opened, choices, fit, sweep, stop);
            }
            if ((parsed.GetValue(to) ?? parsed.GetValue(drawer) ?? parsed.GetValue(drawerTo)) is not null)
            {
                await parsed.InvocationConfiguration.Error.WriteLineAsync("lugbook: --out, --drawer and --drawer-out go with --done or --undone: name the positions.");
                return ExitCode.WrongInput;
            }
            var title = opened.Book.Facts.Title;
            await parsed.InvocationConfiguration.Output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(FitShape.Of(opened.Book.Name, fit)) : parsed.GetValue(print) ? FitText.Paper(title, fit) : FitText.Screen(title, fit));
            return fit.Contradictions.IsEmpty ? ExitCode.Done : ExitCode.No;
        });
        return command;
    }
}

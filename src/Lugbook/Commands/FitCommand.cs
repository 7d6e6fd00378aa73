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
        var done = new Option<string[]>("--done") { Description = "Positions that are exchanged now.", AllowMultipleArgumentsPerToken = true };
        var undone = new Option<string[]>("--undone") { Description = "Positions that are not exchanged after all.", AllowMultipleArgumentsPerToken = true };
        var to = new Option<string?>("--out") { Description = "With --done and --undone: where the book goes (as for 'save'); it may be the book's own file." };
        var drawer = new Option<string?>("--drawer") { Description = "With --done and --undone: what you have, counted; what fits there is taken from it, or goes back." };
        var drawerTo = new Option<string?>("--drawer-out") { Description = "Where the drawer goes, FILE.csv; it may be the same file." };
        var command = new BenchWord("fit", "What to do at the bench: at each lug clear or splice, and the positions in their order.",
            "lugbook fit data/demo/radio",
            "lugbook fit data/demo/radio --json",
            "lugbook fit data/demo/amp --done C3 C4 --out amp.lugbook --drawer data/lists/drawer.csv --drawer-out drawer.csv",
            "lugbook fit amp.lugbook --undone C4 --out amp.lugbook --drawer drawer.csv --drawer-out drawer.csv")
        { book, json, done, undone, to, drawer, drawerTo };
        command.SetAction(async (parsed, stop) =>
        {
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            var map = MapStage.Run(opened.Book, opened.Data.Handbook);
            var choices = opened.Data.Choose(map);
            var fit = FitStage.Run(map, choices);
            string[] ticked = parsed.GetValue(done) ?? [], cleared = parsed.GetValue(undone) ?? [];
            if (ticked.Length + cleared.Length > 0)
                return await FitTicking.RunAsync(parsed, opened, choices, fit, new(ticked, cleared, parsed.GetValue(to), parsed.GetValue(drawer), parsed.GetValue(drawerTo)), stop);
            if ((parsed.GetValue(to) ?? parsed.GetValue(drawer) ?? parsed.GetValue(drawerTo)) is not null)
            {
                await parsed.InvocationConfiguration.Error.WriteLineAsync("lugbook: --out, --drawer and --drawer-out go with --done or --undone: name the positions.");
                return ExitCode.WrongInput;
            }
            await parsed.InvocationConfiguration.Output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(Shape(opened.Book.Name, fit)) : Sentences(opened.Book.Facts.Title, fit));
            return fit.Contradictions.IsEmpty ? ExitCode.Done : ExitCode.No;
        });
        return command;
    }

    private static object Shape(string book, FitResult fit) => new
    {
        Book = book,
        Cautions = fit.Cautions.Select(ChooseShape.Of),
        fit.DoneCount,
        fit.StepCount,
        fit.Next,
        fit.OrderRule,
        Contradictions = fit.Contradictions.Select(c => new { c.Rule, c.Place, c.Sentence, c.Remedy }),
        Lugs = fit.Lugs.Select(l => new
        {
            l.Lug, l.Mount, l.Function, l.Verdict, l.Sentence,
            Off = l.Off.Select(Lead), Stay = l.Stay.Select(Lead), l.Wires, l.HeatSensitive, l.Steps,
        }),
        Steps = fit.Steps.Select(s => new
        {
            s.Number, s.Position, s.Old, s.New, s.Turn,
            Off = s.Off.Select(Work), On = s.On.Select(Work), s.SpanMm, s.Forming, s.Polarity, s.Alike, s.Open,
            Cautions = s.Cautions.Select(ChooseShape.Of), s.Done,
        }),
        fit.NotOnSheet,
    };

    private static object Lead(FitLead lead) => new { lead.Position, Lead = lead.Letter.ToString(), lead.Lug };

    private static object Work(LeadWork work) => new { Lead = work.Letter.ToString(), work.Lug, work.Verdict, work.How };

    private static string Sentences(string title, FitResult fit)
    {
        var lugs = new TextTable("lug", "what to do", "comes off", "stays");
        foreach (var lug in fit.Lugs)
        {
            lugs.Add(lug.Lug, FitWords.Verdict(lug.Verdict), string.Join(" ", lug.Off.Select(o => $"{o.Position}.{o.Letter}")),
                string.Join(" ", lug.Stay.Select(s => $"{s.Position}.{s.Letter}").Concat(lug.Wires.Select(w => w.Bond ? "bond" : w.Wire))));
        }
        var steps = fit.Steps.Select(s =>
            $"{s.Number,3}. [{(s.Done ? "x" : " ")}] {s.Position}: {s.Old} -> {s.New ?? "none chosen yet"}\n       {s.Turn}\n" +
            string.Concat(s.Cautions.Select(c => $"       Caution: {c.Sentence}\n")) +
            string.Concat(s.Off.Select(l => $"       off {l.Lug} ({l.Letter}): {l.How}\n")) +
            string.Concat(s.On.Select(l => $"       on  {l.Lug} ({l.Letter}): {l.How}\n")) +
            $"       {s.Forming}\n" + (s.Polarity is null ? "" : $"       {s.Polarity}\n") + (s.Alike is null ? "" : $"       {s.Alike}\n") + (s.Open is null ? "" : $"       OPEN: {s.Open}\n"));
        var none = string.Concat(fit.NotOnSheet.Select(n => $"  {n.Position}: {n.Reason}\n"));
        var disputed = fit.Contradictions.IsEmpty ? "" : $"\n{ContradictionWords.Banner(fit.Contradictions)}\n";
        return $"{title}\n{disputed}\n{string.Concat(fit.Cautions.Select(c => $"Caution: {c.Sentence}\n"))}\nLugs\n{lugs}\nSteps ({fit.DoneCount} of {fit.StepCount} done). {fit.OrderRule}\n{string.Concat(steps)}{(none.Length == 0 ? "" : $"\nNot on the sheet:\n{none}")}";
    }
}

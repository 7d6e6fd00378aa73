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
        var position = new Option<string?>("--position") { Description = "One position instead: what to read right after it is soldered, and which slips that shows." };
        var meter = new Option<string?>("--meter") { Description = "The meter of that check; the book's own unless named." };
        var capacitanceMeter = new Option<string?>("--capacitance-meter") { Description = "The meter that reads capacitance there, when it is another one." };
        var command = new BenchWord("fit", "What to do at the bench: at each lug clear or splice, and the positions in their order.",
            "lugbook fit data/demo/radio",
            "lugbook fit data/demo/radio --json",
            "lugbook fit data/demo/radio --position C10")
        { book, position, meter, capacitanceMeter, json };
        command.SetAction(async (parsed, stop) =>
        {
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            var map = MapStage.Run(opened.Book, opened.Data.Handbook);
            var choices = opened.Data.Choose(map);
            var fit = FitStage.Run(map, choices);
            if (parsed.GetValue(position) is { } wanted)
                return await FitCheck.RunAsync(opened, map, fit, choices, new(wanted, parsed.GetValue(meter), parsed.GetValue(capacitanceMeter), parsed.GetValue(json)), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
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

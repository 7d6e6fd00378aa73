using System.CommandLine;
using Lugbook.Output;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Work;

namespace Lugbook.Commands;

/// <summary>"choose": what goes in its place?</summary>
internal static class ChooseCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var json = Shared.Json();
        var command = new BenchWord("choose", "What goes in place of each part, and why?",
            "lugbook choose data/demo/radio",
            "lugbook choose my-parts.csv --json")
        { book, json };
        command.SetAction(async (parsed, stop) =>
        {
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            var map = MapStage.Run(opened.Book, opened.Data.Handbook);
            var disputed = map.Contradictions.Where(c => c.Weight == Weight.Contradiction).ToArray();
            if (disputed.Length > 0) await parsed.InvocationConfiguration.Error.WriteLineAsync(ContradictionWords.Banner(disputed));
            var result = opened.Data.Choose(map);
            await parsed.InvocationConfiguration.Output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(ChooseShape.Of(opened.Book, result)) : Sentences(opened.Book.Facts.Title, result));
            return disputed.Length > 0 || result.Choices.Any(c => c.Decision == Decision.Goes && c.New is null) ? ExitCode.No : ExitCode.Done;
        });
        return command;
    }

    private static string Sentences(string title, ChooseResult result)
    {
        var table = new TextTable("position", "old part", "role", "decision", "in its place", "why");
        foreach (var choice in result.Choices)
        {
            table.Add(choice.Position, ChoiceWords.Old(choice), ChooseStage.WordsOf(choice.Role.Role), DecisionWords.Of(choice.Decision),
                (choice.New ?? "-") + (choice.Requirement.SafetyClass == SafetyClass.None ? "" : $" [class {choice.Requirement.SafetyClass}]"),
                string.Join(" ", new[] { choice.Explanation, choice.Candidates.Length > 1 && choice.UserReplacement is null ? $"Not {choice.Candidates[1].Text}: {choice.Candidates[1].WhyNot}" : null, choice.Effect is { } effect ? $"In the circuit: {effect}" : null, choice.Dressing, choice.Question is { } question ? $"ASK: {question}" : null }.OfType<string>()));
        }
        var cans = string.Concat(result.SharedBodies.Select(b => $"{b.Sentence}\n{string.Concat(b.Ways.Select((w, i) => $"  {ChoiceWords.Way(w, i == 0)}\n"))}"));
        var cautions = string.Concat(result.Cautions.Select(c => $"Caution: {c.Sentence}\n"));
        var others = string.Concat(result.NotChosen.Select(n => $"  {n.Position} ({n.Kind}): {n.Reason}\n"));
        var basis = result.Unsolved is { } reason ? $"By wiring, markings and practice alone; stresses are not computed. {reason}" : $"Stresses and effects are computed from the solved circuit. {result.Together}";
        return $"{title}\n\n{cautions}\n{result.Line.Sentence}\n{basis.TrimEnd()}\n\n{table}\n{(cans.Length == 0 ? "" : $"Cans and other shared bodies\n{cans}\n")}Not chosen here:\n{others}";
    }
}

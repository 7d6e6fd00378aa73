using System.CommandLine;
using System.Globalization;
using Lugbook.Output;
using Lugbook.Trade;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;

namespace Lugbook.Commands;

/// <summary>"read": what was this part?</summary>
internal static class ReadCommand
{
    public static Command Create()
    {
        var marking = new Argument<string[]>("MARKING")
        {
            Description = "What is printed on the part, or its colours in order; '?' stands for what cannot be read.",
            Arity = ArgumentArity.OneOrMore,
        };
        var kind = new Option<string?>("--kind") { Description = "What sort of part it is: resistor, paper, mica, ceramic, electrolytic ..." };
        var thousand = new Option<bool>("--m-is-thousand") { Description = "On this sheet M means thousand and MEG million." };
        var million = new Option<bool>("--m-is-million") { Description = "On this sheet M means million." };
        var year = new Option<int?>("--year") { Description = "About which year the set was made." };
        var code = new Option<string?>("--code") { Description = "Read by this colour code only, e.g. mica-rma-6." };
        var json = Shared.Json();
        var command = new BenchWord("read", "What was this part? Reads printed values and colour codes, likeliest meaning first.",
            "lugbook read \".005 MFD 600V\"",
            "lugbook read brown black orange silver",
            "lugbook read 473J 630 --json",
            "lugbook read 250M --m-is-thousand",
            "lugbook read red green brown yellow silver red --kind mica",
            "lugbook read \"4?K 10%\"")
        { marking, kind, thousand, million, year, code, json };
        command.SetAction(parsed =>
        {
            var writer = parsed.InvocationConfiguration.Output;
            var text = string.Join(' ', parsed.GetValue(marking) ?? []);
            var written = parsed.GetValue(kind);
            if (written is not null && PartKinds.Of(written) == PartKind.Other)
            {
                parsed.InvocationConfiguration.Error.WriteLine(
                    $"lugbook: '{written}' is no kind of part that is known. Known kinds: {string.Join(", ", PartKinds.Known.Order(StringComparer.Ordinal))}.");
                return ExitCode.WrongInput;
            }
            var context = new MarkingContext
            {
                Kind = written is null ? null : PartKinds.Of(written),
                MegHabit = parsed.GetValue(thousand) ? MegHabit.Thousand : parsed.GetValue(million) ? MegHabit.Million : MegHabit.Unknown,
                Year = parsed.GetValue(year),
                ColourCode = parsed.GetValue(code),
            };
            var result = MarkingReader.Read(text, context);
            if (parsed.GetValue(json)) writer.WriteLine(Json.Write(MarkingShape.Of(text, result)));
            else if (result.Complaint is { } complaint) parsed.InvocationConfiguration.Error.WriteLine(complaint.ToString());
            else writer.Write(Sentences(text, result));
            return result.Complaint is null ? ExitCode.Done : ExitCode.WrongInput;
        });
        return command;
    }

    private static string Sentences(string marking, MarkingResult result)
    {
        var table = new TextTable("", "value", "tolerance", "rating", "share", "read by", "why");
        foreach (var (meaning, i) in result.Meanings.Select((m, i) => (m, i)))
        {
            table.Add(
                (i + 1).ToString(CultureInfo.InvariantCulture),
                MeaningWords.Value(meaning), MeaningWords.Tolerance(meaning), MeaningWords.Rating(meaning),
                MeaningWords.Share(meaning), meaning.Code, meaning.Reason);
        }
        var doubts = result.Meanings.SelectMany(m => m.Doubts).Distinct().Select(d => $"Note: {d}\n");
        return $"{marking}\n\n{table}\n{string.Concat(doubts)}";
    }
}

using System.CommandLine;
using System.Globalization;
using Lugbook.Output;
using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Sheet;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;
using Lugbook.Trade.Work;

namespace Lugbook.Commands;

/// <summary>"judge": may it stay?</summary>
internal static class JudgeCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var json = Shared.Json();
        var valves = DataInput.Valves();
        var readings = new Option<FileInfo?>("--readings") { Description = "A CSV file of readings besides those in the book: ref, quantity, value, lifted, meter, test_v." };
        var meter = new Option<string?>("--meter") { Description = $"The meter of readings that name none: {string.Join(", ", MeterShelf.All.Select(m => m.Name))}, or one of the book's own." };
        var policy = new Option<string?>("--policy") { Description = "What becomes of families: \"paper: stays; resistor: measure first\"." };
        var command = new BenchWord("judge", "May each part stay? What readings prove, and what to measure next.",
            "lugbook judge data/demo/radio",
            "lugbook judge data/demo/amp --readings my-readings.csv",
            "lugbook judge data/demo/radio --policy \"paper: measure first\" --json")
        { book, readings, meter, policy, valves, json };
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.GetValue(valves), error, stop) is not { } opened) return ExitCode.WrongInput;
            var own = parsed.GetValue(meter) ?? opened.Book.Facts.Meter;
            if (own is not null && BookMeters.Named(opened.Book, own) is null)
            {
                await error.WriteLineAsync($"lugbook: {BookMeters.Unknown(opened.Book, own)}");
                return ExitCode.WrongInput;
            }
            var (families, wrong) = FamilyPolicy.Read(parsed.GetValue(policy) ?? opened.Book.Facts.Policy);
            foreach (var sentence in wrong) await error.WriteLineAsync($"lugbook: {sentence}");
            if (!wrong.IsEmpty) return ExitCode.WrongInput;
            if (await ReadingsInput.AddAsync(opened.Book, parsed.GetValue(readings), error, stop) is not { } full) return ExitCode.WrongInput;
            var solved = opened.Data.Solve(MapStage.Run(full, opened.Data.Handbook));
            var instrument = BookMeters.Named(opened.Book, own) ?? MeterShelf.All[0];
            var sheet = new Lazy<SheetResult>(() => opened.Data.Sheet(solved, full with { Facts = full.Facts with { Meter = instrument.Name } }));
            var result = JudgeStage.Run(full, new(solved, BoundsStage.Run(solved), instrument.OhmsTestVolts, sheet), families, instrument);
            await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(JudgeShape.Of(full, result)) : Sentences(full.Facts.Title, result));
            return result.Parts.SelectMany(p => p.Judgements).Concat(result.Volts.SelectMany(v => v.Judgements)).Any(j => j.Verdict == Verdict.Outside) ? ExitCode.No : ExitCode.Done;
        });
        return command;
    }


    private static string Sentences(string title, JudgeResult result)
    {
        var text = new StringWriter { NewLine = "\n" };
        text.WriteLine($"{title}\n\nCaution: {JudgeWords.Caution}\n\nPolicy: {result.Policy}");
        if (result.Unsolved is { } unsolved) text.WriteLine($"\nIn place nothing can be told: {unsolved}");
        var judged = result.Parts.Where(p => !p.Judgements.IsEmpty).ToArray();
        if (judged.Length > 0)
        {
            text.WriteLine("\nReadings");
            foreach (var p in judged)
                foreach (var j in p.Judgements)
                    text.WriteLine($"  {p.Position,-6} {ReadingWords.Of(j.Reading.Kind)} {JudgeWords.How(j.Reading)}: {JudgeWords.Of(j.Verdict)}. {j.Sentence}{(j.Instead is null ? "" : $" {j.Instead}")}");
        }
        if (!result.Volts.IsEmpty)
        {
            text.WriteLine("\nVolts");
            foreach (var v in result.Volts)
            {
                foreach (var j in v.Judgements) text.WriteLine($"  {v.Lug,-6} {JudgeWords.OfVolts(j.Verdict)}. {j.Sentence}{(j.Instead is null ? "" : $" {j.Instead}")}");
                foreach (var passed in v.Passed) text.WriteLine($"         {passed}");
            }
        }
        var table = new TextTable("part", "decision", "why");
        foreach (var p in result.Parts.OrderBy(p => p.Decision switch { Decision.Goes => 0, Decision.MeasureFirst => 1, _ => 2 })) table.Add(p.Position, DecisionWords.Of(p.Decision), p.Reason);
        text.WriteLine($"\nDecisions\n{table}");
        var grave = result.Parts.Where(p => p.Stake.Score >= 2).OrderByDescending(p => p.Stake.Score).ToArray();
        if (grave.Length > 0) text.WriteLine($"What a bad part would destroy, worst first: these protect the set\n{string.Join("\n", grave.Select(p => $"  {p.Position}: {p.Stake.Sentence}"))}\n");
        if (!result.Round.IsEmpty)
        {
            text.WriteLine("Measuring round");
            foreach (var s in result.Round) text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {s.Number,3}. {(s.ChangesMeter ? "[change the meter] " : "")}{s.LugA}/{s.LugB}: {s.How.Sentence}"));
        }
        foreach (var remark in result.Remarks) text.WriteLine($"Note: {remark}");
        return text.ToString().TrimEnd();
    }
}

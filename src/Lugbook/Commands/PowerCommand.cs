using System.CommandLine;
using System.Globalization;
using Lugbook.Output;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Power;
using Lugbook.Restoration.Sheet;

namespace Lugbook.Commands;

/// <summary>"power": what the supply bears, silicon in it, and today's line.</summary>
internal static class PowerCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var json = Shared.Json();
        var valves = DataInput.Valves();
        var line = new Option<double?>("--line") { Description = "Line voltage today, V; else as the book says, or as the set was made for." };
        var command = new BenchWord("power", "What do rectifier and first capacitor bear, what would silicon do, and what does today's line?",
            "lugbook power data/demo/amp",
            "lugbook power data/demo/radio --line 125",
            "lugbook power data/demo/tv --json")
        { book, line, valves, json };
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            if (parsed.GetValue(line) is { } volts && volts is not (>= 50 and <= 300))
            {
                await error.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"lugbook: a line of {volts} V is not one that sets are made for; give 50 to 300."));
                return ExitCode.WrongInput;
            }
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.GetValue(valves), error, stop) is not { } opened) return ExitCode.WrongInput;
            var facts = opened.Book.Facts with { TodayLineVolts = parsed.GetValue(line) ?? opened.Book.Facts.TodayLineVolts };
            var solved = opened.Data.Solve(MapStage.Run(opened.Book, opened.Data.Handbook));
            var power = PowerStage.Run(solved, SheetConditions.Of(facts, opened.Data.Handbook), opened.Data.Policy.RectifierLimits, stop);
            await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(PowerShape.Of(opened.Book, power)) : Sentences(opened.Book.Facts.Title, power));
            return power.Reason is null && !power.Rectifiers.Any(r => r.Checks.Any(c => c.Passed == true)) ? ExitCode.Done : ExitCode.No;
        });
        return command;
    }

    private static string Sentences(string title, PowerResult power)
    {
        var text = new StringWriter { NewLine = "\n" };
        text.WriteLine($"{title}\n");
        foreach (var caution in power.Cautions) text.WriteLine($"Caution: {caution}");
        text.WriteLine();
        if (power.Reason is { } reason) text.WriteLine(reason);
        foreach (var r in power.Rectifiers)
        {
            text.WriteLine($"{r.Position} {r.Type}: {PowerWords.Amount(r.OutputVolts, "V")} at its output\n");
            var table = new TextTable("", "line 10 % high", "handbook", "");
            foreach (var c in r.Checks) table.Add(c.What, PowerWords.Amount(c.Amount, c.Unit), PowerWords.Limit(c), PowerWords.Verdict(c));
            text.WriteLine(table.ToString());
            if (!r.Sizes.IsEmpty)
            {
                var sizes = new TextTable("first capacitor", "volts", "hum p-p", "peak of a plate");
                foreach (var s in r.Sizes) sizes.Add(PowerWords.Amount(s.Farads, "F"), PowerWords.Amount(s.DirectVolts, "V"), PowerWords.Hum(s.HumVolts), PowerWords.Amount(s.PeakAmperes, "A"));
                text.WriteLine(sizes.ToString());
            }
            text.WriteLine($"{r.Sentence}\n");
        }
        if (power.Silicon is { } silicon) text.WriteLine($"Silicon in place of {string.Join(", ", silicon.Positions)}:\n{string.Concat(silicon.Sentences.Select(s => $"  {s}\n"))}");
        if (power.Line is { } line) text.WriteLine($"Today's line:\n{string.Concat(line.Sentences.Select(s => $"  {s}\n"))}");
        else if (power.Reason is null) text.WriteLine("Today's line is taken as the set's own: give another with --line.");
        return text.ToString().TrimEnd();
    }
}

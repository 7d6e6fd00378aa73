using System.CommandLine;
using Lugbook.Output;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Trace;
using Lugbook.Trade.Meters;

namespace Lugbook.Commands;

/// <summary>"trace": what is still wrong?</summary>
internal static class TraceCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var json = Shared.Json();
        var valves = DataInput.Valves();
        var readings = new Option<FileInfo?>("--readings") { Description = "A CSV file of readings besides those in the book: ref (a lug; volts and ohms to common), quantity, value, from_lug, to_lug, meter." };
        var meter = new Option<string?>("--meter") { Description = "The meter for volts and ohms; the book's own unless named." };
        var capacitance = new Option<string?>("--capacitance-meter") { Description = "The meter that reads capacitance, when it is another one." };
        var line = new Option<double?>("--line") { Description = "Line volts as read while the set runs." };
        var touched = new Option<string[]>("--touched") { Description = "Parts that were worked at, besides those ticked as done: \"C3 C4\".", AllowMultipleArgumentsPerToken = true };
        var symptoms = new Option<string[]>("--symptom") { Description = $"What it does: {string.Join(", ", Symptoms.Known.Select(k => k.Word))}." };
        var priors = new Option<FileInfo?>("--priors") { Description = "A file of lines family,fault,weight,why that replace those of the table." };
        var cold = new Option<bool>("--cold") { Description = "Propose readings with the plug out only." };
        var confidence = new Option<double>("--confidence") { Description = "From which probability on a suspect is named, 0.5 to 0.999.", DefaultValueFactory = _ => 0.9 };
        var next = new Option<int>("--next") { Description = "How many readings to propose, 1 to 20.", DefaultValueFactory = _ => 3 };
        var command = new BenchWord("trace", "What is still wrong? Readings against every fault the set can have, ranked, and the reading that tells most next.",
            "lugbook trace data/demo/amp",
            "lugbook trace data/demo/amp --readings my-readings.csv --line 121",
            "lugbook trace data/demo/radio --symptom hum --cold --json")
        { book, readings, meter, capacitance, line, touched, symptoms, priors, cold, confidence, next, valves, json };
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.GetValue(valves), error, stop) is not { } opened) return ExitCode.WrongInput;
            if (await ProveCommand.MetersAsync(opened, parsed.GetValue(meter), parsed.GetValue(capacitance), error) is not { } meters) return ExitCode.WrongInput;
            if (await ReadingsInput.AddAsync(opened.Book, parsed.GetValue(readings), error, stop) is not { } full) return ExitCode.WrongInput;
            var words = parsed.GetValue(symptoms) ?? [];
            string? Wrong() => Symptoms.Unknown(words) is { IsEmpty: false } unknown ? $"\"{unknown[0]}\" is no symptom that is known. Known: {string.Join(", ", Symptoms.Known.Select(k => k.Word))}."
                : parsed.GetValue(line) is { } v && !(v is > 10 and < 500) ? $"--line {v} is no line voltage. Write volts: --line 121."
                : parsed.GetValue(confidence) is not (>= 0.5 and <= 0.999) ? "--confidence lies between 0.5 and 0.999."
                : parsed.GetValue(next) is not (>= 1 and <= 20) ? "--next lies between 1 and 20." : null;
            if (Wrong() is { } wrong)
            {
                await error.WriteLineAsync($"lugbook: {wrong}");
                return ExitCode.WrongInput;
            }
            if (await PriorsAsync(parsed.GetValue(priors), error, stop) is not { } table) return ExitCode.WrongInput;
            var solved = opened.Data.Solve(MapStage.Run(full, opened.Data.Handbook));
            var usual = TraceSettings.Of(full);
            string[] named = [.. (parsed.GetValue(touched) ?? []).SelectMany(t => t.Split([' ', ',', ';'], StringSplitOptions.RemoveEmptyEntries))];
            if (named.FirstOrDefault(n => full.Parts.Named(n) is null) is { } nobody)
            {
                await error.WriteLineAsync($"lugbook: --touched names {nobody}, which is no part of this book.");
                return ExitCode.WrongInput;
            }
            // What was read on the line, else what the book says of today's; else it is left open.
            double? share = (parsed.GetValue(line) ?? full.Facts.TodayLineVolts) is { } today && full.Facts.LineVolts is { } made and > 0 ? today / made : null;
            var settings = usual with
            {
                Volts = parsed.GetValue(meter) is { } own && BookMeters.Named(full, own) is { Volts.Ranges.IsEmpty: false } chosen ? chosen : usual.Volts, Meters = meters, Touched = usual.Touched.Union(named), Priors = table,
                Symptoms = [.. words], MayRun = !parsed.GetValue(cold), Confidence = parsed.GetValue(confidence), LineShare = share ?? 1,
            };
            var model = TraceStage.Prepare(solved, settings, null, stop);
            var result = model is null ? TraceStage.Without(solved) : TraceStage.Run(model, full.Readings, parsed.GetValue(next), share is null ? null : 1);
            await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(TraceShape.Of(full, result)) : TraceText.Screen(full.Facts.Title, result));
            return result.Verdict is TraceVerdict.Healthy or TraceVerdict.Open ? ExitCode.Done : ExitCode.No;
        });
        return command;
    }

    private static async Task<PriorTable?> PriorsAsync(FileInfo? file, TextWriter error, CancellationToken stop)
    {
        if (file is null) return PriorTable.Usual;
        if (!file.Exists)
        {
            await error.WriteLineAsync($"lugbook: there is no file {file.Name}.");
            return null;
        }
        var (table, complaints) = PriorTable.Usual.With(await File.ReadAllTextAsync(file.FullName, stop));
        foreach (var complaint in complaints) await error.WriteLineAsync($"{file.Name}, {complaint}");
        return complaints.IsEmpty ? table : null;
    }
}

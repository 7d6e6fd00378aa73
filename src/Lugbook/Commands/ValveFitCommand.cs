using System.CommandLine;
using Lugbook.Circuit.Valves;
using Lugbook.Output;

namespace Lugbook.Commands;

/// <summary>"valve fit": a law from lines that the user typed.</summary>
internal static class ValveFitCommand
{
    private static readonly (string Word, ValveClass Class)[] Classes =
    [
        ("triode", ValveClass.Triode), ("sharp-pentode", ValveClass.SharpPentode), ("remote-pentode", ValveClass.RemotePentode),
        ("output-pentode", ValveClass.OutputPentode), ("beam", ValveClass.Beam), ("converter", ValveClass.Converter),
    ];

    public static Command Create()
    {
        var lines = new Argument<string>("LINES.csv") { Description = "Handbook lines: type, plate_v, screen_v, grid1_v or cathode_ohm, plate_ma, screen_ma, gm_umho, rp_ohm, mu, source." };
        var valveClass = new Option<string?>("--class") { Description = $"What the valve is: {string.Join(", ", Classes.Select(c => c.Word))}; else as its lines look." };
        var plot = ValveCommand.PlotOption();
        var json = Shared.Json();
        var command = new BenchWord("fit", "Fits a law to handbook lines that you typed, and says how well it meets them and what is weak.",
            "lugbook valve fit my-lines.csv",
            "lugbook valve fit my-lines.csv --class beam --plot curves.svg",
            "lugbook valve fit my-lines.csv --json")
        { lines, valveClass, plot, json };
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            ValveClass? known = null;
            if (parsed.GetValue(valveClass) is { } word)
            {
                foreach (var (name, value) in Classes)
                    if (string.Equals(name, word, StringComparison.OrdinalIgnoreCase)) known = value;
                if (known is null)
                {
                    await error.WriteLineAsync($"lugbook: '{word}' is not a class. Write one of {string.Join(", ", Classes.Select(c => c.Word))}.");
                    return ExitCode.WrongInput;
                }
            }
            var file = parsed.GetValue(lines)!;
            string text;
            try
            {
                text = await File.ReadAllTextAsync(file, stop);
            }
            catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
            {
                await error.WriteLineAsync($"lugbook: '{file}' could not be read: {trouble.Message} Name a CSV file of handbook lines; docs/valves.md shows one.");
                return ExitCode.WrongInput;
            }
            if (await DataInput.LoadAsync(null, error, stop) is not { } data) return ExitCode.WrongInput;
            var fitted = TypedLines.Fit(text, data.Laws, known);
            foreach (var fault in fitted.Faults) await error.WriteLineAsync($"{file}, {fault}\n");
            if (!fitted.Faults.IsEmpty)
            {
                await error.WriteLineAsync("lugbook: nothing was fitted.");
                return ExitCode.WrongInput;
            }
            var types = fitted.Types.Select(t => (Pins: data.Handbook.Find(t.Type), Laws: t)).ToArray();
            if (await ValveCommand.PlotAsync(parsed, parsed.GetValue(plot), types.Select(t => (t.Pins, (FittedValve?)t.Laws)), stop) is not ExitCode.Done and var failed) return failed;
            await output.WriteLineAsync(parsed.GetValue(json)
                ? Json.Write(new { Types = types.Select(t => ValveShape.Of(t.Laws.Type, t.Pins, t.Laws)) })
                : string.Join("\n\n", types.Select(t => ValveWords.Sentences(t.Laws.Type, t.Pins, t.Laws))));
            return ExitCode.Done;
        });
        return command;
    }
}

using System.CommandLine;
using Lugbook.Circuit.Valves;
using Lugbook.Drawing.Plots;
using Lugbook.Output;
using Lugbook.Trade.Valves;

namespace Lugbook.Commands;

/// <summary>"valve": pins, limits, and how well the fitted law meets each handbook line; "valve fit" and "valve check" stand below it.</summary>
internal static class ValveCommand
{
    public static Command Create()
    {
        var type = new Argument<string?>("TYPE") { Description = "A valve type or an equivalent of it: 6V6GT, ECC83.", Arity = ArgumentArity.ZeroOrOne };
        var plot = PlotOption();
        var json = Shared.Json();
        var valves = DataInput.Valves();
        var command = new BenchWord("valve", "A valve type: pins, limits, curves, and how well the fitted law meets each handbook line.",
            "lugbook valve 6V6GT",
            "lugbook valve 6V6GT --plot 6v6gt.svg",
            "lugbook valve ECC83 --json",
            "lugbook valve fit my-lines.csv",
            "lugbook valve check")
        { type, plot, valves, json };
        command.Subcommands.Add(ValveFitCommand.Create());
        command.Subcommands.Add(ValveCheckCommand.Create());
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            if (parsed.GetValue(type) is not { } asked || string.IsNullOrWhiteSpace(asked))
            {
                await error.WriteLineAsync("lugbook: no valve type is named. Write one, as in 'lugbook valve 6V6GT', or 'lugbook valve --help'.");
                return ExitCode.WrongInput;
            }
            if (await DataInput.LoadAsync(parsed.GetValue(valves), error, stop) is not { } data) return ExitCode.WrongInput;
            var (pins, laws) = (data.Handbook.Find(asked), data.Laws.Find(asked));
            if (pins is null && laws is null)
            {
                await error.WriteLineAsync($"lugbook: no valve '{asked}' is in data/valves. Types known: {string.Join(", ", data.Laws.Types)}. Lines of its data sheet can be fitted with 'lugbook valve fit LINES.csv'.");
                return ExitCode.WrongInput;
            }
            if (await PlotAsync(parsed, parsed.GetValue(plot), [(pins, laws)], stop) is not ExitCode.Done and var failed) return failed;
            await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(ValveShape.Of(asked, pins, laws)) : ValveWords.Sentences(asked, pins, laws));
            return ExitCode.Done;
        });
        return command;
    }

    public static Option<string?> PlotOption() => new("--plot") { Description = "Also draw the curves into this SVG file." };

    /// <summary>Draws the curves where a file is named; the exit code, Done also when none is.</summary>
    public static async Task<int> PlotAsync(ParseResult parsed, string? file, IEnumerable<(ValveType? Pins, FittedValve? Laws)> types, CancellationToken stop)
    {
        if (file is null) return ExitCode.Done;
        var error = parsed.InvocationConfiguration.Error;
        var plots = types.Where(t => t.Laws is not null).SelectMany(t => ValvePlot.Of(t.Laws!, t.Pins)).ToArray();
        if (plots.Length == 0)
        {
            await error.WriteLineAsync("lugbook: there is no curve to draw: no characteristic line of this type is known. Nothing was written.");
            return ExitCode.WrongInput;
        }
        try
        {
            await File.WriteAllTextAsync(file, PlotWriter.Write(plots), stop);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            await error.WriteLineAsync($"lugbook: '{file}' could not be written: {trouble.Message}");
            return ExitCode.WrongInput;
        }
        // Said on the error stream, so that --json stays readable by programs.
        await error.WriteLineAsync($"Written: {file}");
        return ExitCode.Done;
    }
}

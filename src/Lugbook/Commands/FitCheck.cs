using Lugbook.Output;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Slips;

namespace Lugbook.Commands;

/// <summary>"fit --position": what to read right after that position is soldered.</summary>
internal static class FitCheck
{
    /// <summary>Writes the check of one position.</summary>
    /// <returns>The exit code: 1 where what was entered is not as expected.</returns>
    public static async Task<int> RunAsync(BookInput opened, MapResult map, FitResult fit, ChooseResult choices, FitCheckOptions options, TextWriter output, TextWriter error)
    {
        if (await ProveCommand.MetersAsync(opened, options.Meter, options.CapacitanceMeter, error) is not { } meters) return ExitCode.WrongInput;
        var work = SlipsStage.WorkOf(fit, choices);
        var check = SlipsStage.CheckOf(NetlistStage.Run(map, opened.Data.Handbook, opened.Data.Laws), work, options.Position, meters);
        if (check is null)
        {
            await error.WriteLineAsync($"lugbook: {options.Position} is not on the job sheet. On it are: {(work.IsEmpty ? "none" : string.Join(", ", work.Select(w => w.Position)))}.");
            return ExitCode.WrongInput;
        }
        var outcome = SlipsStage.Judge(check, opened.Book.Readings);
        await output.WriteLineAsync(options.Json ? Json.Write(CheckShape.Of(check, outcome)) : CheckText.Of(check, outcome).TrimEnd());
        return outcome.Verdict is CheckVerdict.LooksLike or CheckVerdict.Neither ? ExitCode.No : ExitCode.Done;
    }
}

/// <summary>What was asked for on the command line.</summary>
internal sealed record FitCheckOptions(string Position, string? Meter, string? CapacitanceMeter, bool Json);

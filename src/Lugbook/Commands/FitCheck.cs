using Lugbook.Output;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Slips;
using Lugbook.Trade.Meters;

namespace Lugbook.Commands;

/// <summary>"fit --position": what to read right after that position is soldered.</summary>
internal static class FitCheck
{
    /// <summary>Writes the check of one position.</summary>
    /// <returns>The exit code: 1 where what was entered is not as expected.</returns>
    public static async Task<int> RunAsync(BookInput opened, MapResult map, FitResult fit, ChooseResult choices, FitCheckOptions options, TextWriter output, TextWriter error)
    {
        foreach (var name in new[] { options.Meter, options.CapacitanceMeter })
        {
            if (name is null || BookMeters.Named(opened.Book, name) is not null) continue;
            await error.WriteLineAsync($"lugbook: {BookMeters.Unknown(opened.Book, name)}");
            return ExitCode.WrongInput;
        }
        var usual = SlipsStage.MetersOf(opened.Book);
        var ohms = BookMeters.Named(opened.Book, options.Meter) ?? usual.Ohms;
        var farads = BookMeters.Named(opened.Book, options.CapacitanceMeter) ?? (options.Meter is null || ohms.Farads is null ? usual.Farads : ohms);
        if (ohms.OhmsTop <= 0 || farads is { Farads: null })
        {
            await error.WriteLineAsync($"lugbook: {(ohms.OhmsTop <= 0 ? $"{ohms.Name} reads no ohms" : $"{farads!.Name} reads no capacitance")}. Name another meter.");
            return ExitCode.WrongInput;
        }
        var work = SlipsStage.WorkOf(fit, choices);
        var check = SlipsStage.CheckOf(NetlistStage.Run(map, opened.Data.Handbook, opened.Data.Laws), work, options.Position, new(ohms, farads));
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

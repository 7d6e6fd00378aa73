using System.CommandLine;
using Lugbook.Output;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Prove;
using Lugbook.Restoration.Slips;
using Lugbook.Trade.Meters;

namespace Lugbook.Commands;

/// <summary>"prove": is the work right, before a volt is on it?</summary>
internal static class ProveCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var json = Shared.Json();
        var valves = DataInput.Valves();
        var meter = new Option<string?>("--meter") { Description = "The ohmmeter; the book's own unless named." };
        var capacitance = new Option<string?>("--capacitance-meter") { Description = "The meter that reads capacitance, when it is another one." };
        var chart = new Option<bool>("--chart") { Description = "The ohms of every valve pin as well." };
        var print = new Option<bool>("--print") { Description = "A paper version: one line a reading with a place for the figure." };
        var command = new BenchWord("prove", "Is the work right, before a volt is on it? The fewest cold readings for dangerous shorts and for slips, and what only the eye sees.",
            "lugbook prove data/demo/amp",
            "lugbook prove data/demo/radio --meter pointer-20k --capacitance-meter lcr-bridge --chart",
            "lugbook prove data/demo/tv --print")
        { book, meter, capacitance, chart, print, valves, json };
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.GetValue(valves), error, stop) is not { } opened) return ExitCode.WrongInput;
            if (await MetersAsync(opened, parsed.GetValue(meter), parsed.GetValue(capacitance), error) is not { } meters) return ExitCode.WrongInput;
            var map = MapStage.Run(opened.Book, opened.Data.Handbook);
            var (choices, solved) = opened.Data.ChooseSolved(map);
            var fit = FitStage.Run(map, choices, FitRules.Read(opened.Book.Facts.FitRules).Rules, new FitBasis(null, solved));
            var proof = ProveStage.Run(solved, SlipsStage.WorkOf(fit, choices), meters, null, stop);
            var outcome = ProveStage.Judge(proof, opened.Book.Readings);
            var pins = parsed.GetValue(chart) ? opened.Data.Sheet(solved, opened.Book with { Facts = opened.Book.Facts with { Meter = meters.Ohms.Name } }) : null;
            var title = opened.Book.Facts.Title;
            await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(ProveShape.Of(opened.Book, proof, outcome, pins))
                : parsed.GetValue(print) ? ProveText.Paper(title, proof) : ProveText.Screen(title, proof, outcome, pins));
            return proof.Reason is null && outcome.Verdict is CheckVerdict.Open or CheckVerdict.AsExpected ? ExitCode.Done : ExitCode.No;
        });
        return command;
    }

    /// <summary>The meters that were named, or the book's; null with a complaint.</summary>
    public static async Task<BenchMeters?> MetersAsync(BookInput opened, string? meter, string? capacitance, TextWriter error)
    {
        foreach (var name in new[] { meter, capacitance })
        {
            if (name is null || BookMeters.Named(opened.Book, name) is not null) continue;
            await error.WriteLineAsync($"lugbook: {BookMeters.Unknown(opened.Book, name)}");
            return null;
        }
        var usual = SlipsStage.MetersOf(opened.Book);
        var ohms = BookMeters.Named(opened.Book, meter) ?? usual.Ohms;
        var farads = BookMeters.Named(opened.Book, capacitance) ?? (meter is null || ohms.Farads is null ? usual.Farads : ohms);
        if (ohms.OhmsTop > 0 && farads is not { Farads: null }) return new(ohms, farads);
        await error.WriteLineAsync($"lugbook: {(ohms.OhmsTop <= 0 ? $"{ohms.Name} reads no ohms" : $"{farads!.Name} reads no capacitance")}. Name another meter.");
        return null;
    }
}

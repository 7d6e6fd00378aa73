using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Lugbook.Drawing.Plots;
using Lugbook.Output;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Wake;
using Lugbook.Trade.Quantities;

namespace Lugbook.Commands;

/// <summary>"wake": how to apply power for the first time, with the numbers of this set on this limiter.</summary>
internal static class WakeCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var json = Shared.Json();
        var valves = DataInput.Valves();
        var lamp = new Option<double[]>("--lamp") { Description = "Limiter lamps at hand, W at the line's volts: --lamp 40 --lamp 100, or --lamp 40 100.", AllowMultipleArgumentsPerToken = true };
        var variac = new Option<bool>("--variac") { Description = "A variable transformer is at hand." };
        var isolation = new Option<double?>("--isolation") { Description = "Rating of the isolating transformer, VA." };
        var bleeder = new Option<double?>("--bleeder") { Description = "Resistor to drain capacitors with, ohms; 2200 unless given." };
        var line = new Option<double?>("--line") { Description = "Line voltage today, V; else as the book says." };
        var samples = new Option<int>("--samples") { Description = "Healthy sets that the spread is taken from; 24 unless given.", DefaultValueFactory = _ => 24 };
        var reform = new Option<string?>("--reform") { Description = "How to re-form this electrolytic, instead of the first power." };
        var supply = new Option<double?>("--supply") { Description = "With --reform: direct volts of the supply; else the volts at its place in the circuit." };
        var resistor = new Option<string[]>("--resistor") { Description = "With --reform: resistors at hand, 100k 220k.", AllowMultipleArgumentsPerToken = true };
        var months = new Option<double?>("--months") { Description = "With --reform: months without voltage; 600 unless given." };
        var plot = new Option<string?>("--plot") { Description = "Writes volts and current against time to this SVG file." };
        var command = new BenchWord("wake", "How do I apply power for the first time, and where must I stop?",
            "lugbook wake data/demo/amp --lamp 60",
            "lugbook wake data/demo/radio --lamp 40 60 100 --isolation 150 --plot warming.svg",
            "lugbook wake data/demo/amp --lamp 60 --variac --json",
            "lugbook wake data/demo/amp --reform C10A --supply 350 --resistor 220k")
        { book, lamp, variac, isolation, bleeder, line, samples, reform, supply, resistor, months, plot, valves, json };
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            string? fault = null;
            void Within(double? value, double low, double high, string what)
            {
                if (value is { } v && !(v >= low && v <= high)) fault ??= string.Create(CultureInfo.InvariantCulture, $"lugbook: {what} of {v} is not possible; give {low} to {high}.");
            }
            foreach (var w in parsed.GetValue(lamp) ?? []) Within(w, 5, 1000, "a lamp (W)");
            Within(parsed.GetValue(isolation), 10, 10_000, "an isolating transformer (VA)");
            Within(parsed.GetValue(bleeder), 100, 1e6, "a bleeder (ohms)");
            Within(parsed.GetValue(line), 50, 300, "a line (V)");
            Within(parsed.GetValue(samples), 8, 5000, "a number of samples");
            Within(parsed.GetValue(supply), 5, 1000, "a supply (V)");
            Within(parsed.GetValue(months), 0, 1500, "a number of months");
            var ohms = ImmutableArray.CreateBuilder<double>();
            foreach (var r in parsed.GetValue(resistor) ?? [])
            {
                if (Notation.TryParse(r, Unit.Ohm, out var value, out var complaint) && value is >= 1e3 and <= 10e6) ohms.Add(value);
                else fault ??= complaint is null ? $"lugbook: a resistor of {r} is not possible; give 1k to 10M." : $"lugbook: {complaint}";
            }
            if (fault is not null)
            {
                await error.WriteLineAsync(fault);
                return ExitCode.WrongInput;
            }
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.GetValue(valves), error, stop) is not { } opened) return ExitCode.WrongInput;
            var usual = new WakeEquipment();
            var equipment = usual with
            {
                LampWatts = parsed.GetValue(lamp) is { Length: > 0 } lamps ? [.. lamps] : usual.LampWatts,
                VariableTransformer = parsed.GetValue(variac),
                IsolationVoltAmperes = parsed.GetValue(isolation),
                BleederOhms = parsed.GetValue(bleeder) ?? usual.BleederOhms,
                LineVolts = parsed.GetValue(line) ?? opened.Book.Facts.TodayLineVolts,
                Samples = parsed.GetValue(samples),
            };
            var solved = opened.Data.Solve(MapStage.Run(opened.Book, opened.Data.Handbook));
            if (parsed.GetValue(reform) is { } position)
            {
                var with = new ReformingWith { SupplyVolts = parsed.GetValue(supply) };
                if (ohms.Count > 0) with = with with { Ohms = ohms.ToImmutable() };
                if (parsed.GetValue(months) is { } lain) with = with with { Months = lain };
                var plan = WakeStage.Reform(solved, position, with);
                await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(plan) : WakeText.Of(plan));
                return plan.Reason is null ? ExitCode.Done : ExitCode.No;
            }
            var wake = WakeStage.Run(solved, equipment, null, stop);
            if (parsed.GetValue(plot) is { } file)
            {
                var written = await Saving.WriteAsync(parsed, file, async path =>
                {
                    await File.WriteAllTextAsync(path, WarmingPlot.Write(opened.Book.Facts.Title, wake), stop);
                    return [];
                });
                if (written != ExitCode.Done) return written;
            }
            await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(WakeShape.Of(opened.Book, wake)) : WakeText.Of(opened.Book.Facts.Title, wake));
            return wake.Reason is null ? ExitCode.Done : ExitCode.No;
        });
        return command;
    }
}

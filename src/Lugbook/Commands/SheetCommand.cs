using System.CommandLine;
using System.Globalization;
using Lugbook.Output;
using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Sheet;
using Lugbook.Trade.Meters;

namespace Lugbook.Commands;

/// <summary>"sheet": what every pin should read, and what every part bears.</summary>
internal static class SheetCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var json = Shared.Json();
        var valves = DataInput.Valves();
        var meter = new Option<string?>("--meter") { Description = $"The meter at the bench: {string.Join(", ", MeterShelf.All.Select(m => m.Name))}, or one of the book's own." };
        var line = new Option<double?>("--line") { Description = "Line voltage today, V; else as the set was made for." };
        var stress = new Option<bool>("--stress") { Description = "Also volts and watts of every part at their worst moment." };
        var bears = new Option<bool>("--bears") { Description = "Also how much leakage and drift every position bears before a limit is passed." };
        var command = new BenchWord("sheet", "What should a meter show at every pin, and how far may a healthy set differ?",
            "lugbook sheet data/demo/radio",
            "lugbook sheet data/demo/amp --meter pointer-20k --line 122",
            "lugbook sheet data/demo/amp --stress",
            "lugbook sheet data/demo/amp --bears",
            "lugbook sheet data/demo/tv --json")
        { book, meter, line, stress, bears, valves, json };
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            if (parsed.GetValue(line) is { } volts && volts is not (>= 50 and <= 300))
            {
                await error.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"lugbook: a line of {volts} V is not one that sets are made for; give 50 to 300."));
                return ExitCode.WrongInput;
            }
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.GetValue(valves), error, stop) is not { } opened) return ExitCode.WrongInput;
            if (parsed.GetValue(meter) is { } asked && BookMeters.Named(opened.Book, asked) is null)
            {
                await error.WriteLineAsync($"lugbook: {BookMeters.Unknown(opened.Book, asked)}");
                return ExitCode.WrongInput;
            }
            var facts = opened.Book.Facts with
            {
                Meter = parsed.GetValue(meter) ?? opened.Book.Facts.Meter, TodayLineVolts = parsed.GetValue(line) ?? opened.Book.Facts.TodayLineVolts,
            };
            var solved = opened.Data.Solve(MapStage.Run(opened.Book, opened.Data.Handbook));
            var sheet = SheetStage.Run(solved, SheetConditions.Of(opened.Book with { Facts = facts }, opened.Data.Handbook));
            var bounds = parsed.GetValue(bears) ? BoundsStage.Run(solved) : null;
            await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(SheetShape.Of(opened.Book, sheet, bounds)) : Sentences(opened.Book.Facts.Title, sheet, bounds, parsed.GetValue(stress)));
            return sheet.Reason is null ? ExitCode.Done : ExitCode.No;
        });
        return command;
    }

    private static string Sentences(string title, SheetResult sheet, BoundsResult? bounds, bool stress)
    {
        var text = new StringWriter { NewLine = "\n" };
        text.WriteLine($"{title}\n");
        if (sheet.Reason is { } reason)
        {
            text.WriteLine(reason);
            Unknowns(text, sheet);
            return text.ToString().TrimEnd();
        }
        text.WriteLine($"{SheetWords.Conditions(sheet)}\n");
        text.WriteLine($"{SheetWords.BeforeVolts}\n{SheetWords.BeforeOhms}\n");
        var table = new TextTable("lug", "", "volts", "healthy sets", "meter shows", "chart", "", "ohms", "healthy sets", "chart", "", "remark");
        foreach (var line in sheet.Lines.Where(l => l.What != "no connection" && l.What != "internal connection"))
        {
            table.Add(line.Lug, line.What, line.Volts is null || line.Unpredictable is not null ? "?" : $"{Figures.Volts(line.Volts)}{(line.IsAc ? " ~" : "")}", line.Unpredictable is null ? Figures.Between(line.Low, line.High) : "",
                line.Unpredictable is null ? Figures.Volts(line.Meter?.Shown) : "", Figures.Volts(line.ChartVolts), SheetWords.Of(line.VoltsAgreement),
                Figures.Ohms(line.Ohms), line.Ohms is { } o && double.IsFinite(o) && o > 0.05 ? $"{Figures.Ohms(line.OhmsLow)}–{Figures.Ohms(line.OhmsHigh)}" : "", Figures.Ohms(line.ChartOhms), SheetWords.Of(line.OhmsAgreement), SheetWords.Remark(line));
        }
        text.Write(table);
        if (stress) Stress(text, sheet);
        var over = sheet.Parts.Where(p => p.Over is not null).Select(p => $"  {p.Position}: {p.Over}").Concat(sheet.Valves.Where(v => v.Over is not null).Select(v => $"  {v.Valve}{(v.Section.Length > 0 ? $" ({v.Section})" : "")}: {v.Over}")).ToArray();
        if (over.Length > 0) text.WriteLine($"\nAbove what is marked or allowed, at the worst moment\n{string.Join("\n", over)}");
        if (bounds is not null) text.WriteLine($"\nWhat every position bears\n{string.Join("\n", bounds.Positions.Select(p => $"  {p.Sentence}"))}");
        foreach (var remark in sheet.Remarks) text.WriteLine($"\nNote: {remark}");
        Unknowns(text, sheet);
        return text.ToString().TrimEnd();
    }

    private static void Stress(StringWriter text, SheetResult sheet)
    {
        var parts = new TextTable("part", "volts", "worst", "when", "watts", "worst", "when", "ripple");
        foreach (var p in sheet.Parts)
            parts.Add(p.Position, Figures.Volts(p.Volts?.Normal), Figures.Volts(p.Volts?.Worst), p.Volts?.Moment, Figures.Watts(p.Watts?.Normal), Figures.Watts(p.Watts?.Worst), p.Watts?.Moment, Figures.Amperes(p.RippleAmperes));
        var valves = new TextTable("valve", "", "normal", "worst", "when", "limit");
        foreach (var v in sheet.Valves)
        {
            string Amount(double? x) => v.Unit switch { "W" => Figures.Watts(x), "V" => x is { } volts ? Figures.VoltsWithUnit(volts) : "", _ => Figures.Amperes(x) };
            valves.Add(v.Section.Length > 0 ? $"{v.Valve} ({v.Section})" : v.Valve, v.Electrode, Amount(v.Amount.Normal), Amount(v.Amount.Worst), v.Amount.Moment, Amount(v.Limit));
        }
        text.WriteLine($"\nWhat every part bears, hum included\n{parts}\nWhat every valve bears\n{valves}");
    }

    private static void Unknowns(StringWriter text, SheetResult sheet)
    {
        if (!sheet.Unknowns.IsEmpty) text.WriteLine($"\nNot known\n{string.Join("\n", sheet.Unknowns.Select(u => $"  {u}"))}");
    }
}

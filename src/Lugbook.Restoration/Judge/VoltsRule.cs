using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Sheet;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Judge;

/// <summary>Judges volts at a lug against the sheet: what healthy sets show on that meter.</summary>
/// <remarks>
/// The band is that of 95 of 100 healthy sets, pulled down by the meter's load and widened on both sides by what the meter may be off. Outside it no such set would be read, so outside is told; inside it, a fault may still hide.
/// Another meter than the sheet's pulls by the same source resistance: R = Rm·(V/shown − 1) of the sheet's own line (a source behind a resistance; Thévenin), so nothing is solved anew.
/// </remarks>
internal static class VoltsRule
{
    public static ImmutableArray<VoltsVerdict> Of(Book book, JudgeBasis basis, Func<Reading, Meter> meterOf)
    {
        var map = basis.Solved.Netlist.Map;
        var read = book.Readings.Where(r => r.Kind == ReadingKind.Volts && book.Parts.Named(r.Name) is null && map.NodeOf(r.Name) is not null).GroupBy(r => r.Name, StringComparer.OrdinalIgnoreCase).ToArray();
        if (read.Length == 0) return [];
        var sheet = basis.Sheet?.Value;
        return [.. read.Select(g =>
        {
            var line = LineAt(sheet, map, g.Key);
            return new VoltsVerdict(g.Key, line?.What, [.. g.Reverse().Select(r => Judge(JudgeStage.Topped(r, meterOf(r)), meterOf(r), sheet, line))], Passed(sheet, map, line));
        })];
    }

    /// <summary>The sheet's line at this lug, or at another lug of its node.</summary>
    private static SheetLine? LineAt(SheetResult? sheet, MapResult map, string lug) =>
        sheet?.Lines.FirstOrDefault(l => string.Equals(l.Lug, lug, StringComparison.OrdinalIgnoreCase)) ?? sheet?.Lines.FirstOrDefault(l => l.Node == map.NodeOf(lug)?.Index);

    private static Judgement Judge(Reading reading, Meter meter, SheetResult? sheet, SheetLine? line)
    {
        Judgement No(string why, string? instead) => ValueRule.Told(reading, 0, Verdict.CannotTell, why, instead);
        if (sheet is null || sheet.Reason is not null) return No($"What it should be is not solved: {sheet?.Reason ?? "there is no sheet."}", "See the sheet for what is missing.");
        if (line is null) return No($"The sheet has no line at {reading.Name}: it has the pins of valves and the supply.", "Measure at a pin or at the + of a supply electrolytic.");
        if (line.Unpredictable is { } why) return No($"{Volts(reading.Value)} at {Named(line)} cannot be held against anything: it {why}.", "Enter what is missing.");
        if (line is not { Volts: { } nominal, Low: { } low, High: { } high }) return No($"What {Named(line)} should read is not known.", null);
        var scale = line.IsAc ? meter.AcVolts : meter.Volts;
        if (scale.Ranges.IsEmpty) return No($"{meter.Name} has no range of {(line.IsAc ? "alternating" : "direct")} volts.", "Name the meter that it was read with.");
        var ac = line.IsAc ? " (alternating)" : "";
        var a = Finite(scale.Uncertainty(reading.Value), reading.Value);
        var (load, across) = line.IsAc ? (1, "") : Load(sheet.Meter, meter, nominal, line);
        var shown = new Interval(Math.Min(low * load, high * load), Math.Max(low * load, high * load));
        var band = new Interval(shown.Low - a, shown.High + a);
        var at = string.Equals(reading.Name, line.Lug, StringComparison.OrdinalIgnoreCase) ? Named(line) : $"{reading.Name}, joined to {Named(line)}";
        var says = $"{Say.Of(ReadingKind.Volts, reading.Value)}{ac} at {at} on {meter.Name}{across}";
        var healthy = $"healthy sets show {Volts(shown.Low)} to {Volts(shown.High)}, and the meter may be off by {Say.Error(ReadingKind.Volts, a)}";
        if (reading.IsOver)
            return reading.Value > band.High ? ValueRule.Told(reading, a, Verdict.Outside, $"Over {says}: {healthy}. It is too high.", null) with { Intact = shown } : No($"Over {says} says nothing: {healthy}.", "Take a higher range.");
        var verdict = reading.Value < band.Low || reading.Value > band.High ? Verdict.Outside : Verdict.Within;
        return ValueRule.Told(reading, a, verdict, $"{says}: {healthy}. {Outcome(reading.Value, band, nominal)}", null) with { Intact = shown, True = new(reading.Value - a, reading.Value + a) };
    }

    private static string Outcome(double value, Interval band, double nominal)
    {
        if (value >= band.Low && value <= band.High) return "It is within.";
        // Of a negative bias "low" would be read both ways.
        var by = value < band.Low ? band.Low - value : value - band.High;
        return $"It is outside by {Volts(by)}, too {(nominal >= 0 ? value < band.Low ? "low" : "high" : value < band.Low ? "far below common" : "near to common or above it")}.";
    }

    /// <summary>What the meter makes of a volt, and in words what it puts across.</summary>
    private static (double Share, string Across) Load(Meter ofSheet, Meter meter, double nominal, SheetLine line)
    {
        var ohms = meter.LoadOhms(nominal);
        var known = ofSheet.LoadOhms(nominal);
        var share = line.Meter is { } seen && Math.Abs(nominal) > 1e-3 ? Math.Clamp(seen.Shown / nominal, 1e-6, 1) : 1;
        var source = double.IsFinite(known) ? known * (1 / share - 1) : 0;
        var pulled = double.IsFinite(ohms) ? ohms / (ohms + source) : 1;
        return (pulled, pulled > 0.995 ? "" : string.Create(CultureInfo.InvariantCulture, $" (its {Say.Ohms(ohms)} pull it down by {100 * (1 - pulled):0.#} %)"));
    }

    private static ImmutableArray<string> Passed(SheetResult? sheet, MapResult map, SheetLine? line)
    {
        if (sheet is null || line is null) return [];
        var valves = sheet.Valves.Where(v => v.Over is not null && v.Valve == line.Valve && line.What.Contains(v.Electrode.Split(' ')[0], StringComparison.Ordinal)).Select(v => $"As solved, {v.Valve}{(v.Section.Length > 0 ? $" (section {v.Section})" : "")} passes a limit: {v.Over}.");
        var parts = sheet.Parts.Where(p => p.Over is not null && map.Book.Parts.Named(p.Position) is { } part && part.Leads.Any(l => map.NodeOf(l.Lug)?.Index == line.Node) && line.Node != map.Common.Node?.Index)
            .Select(p => $"As solved, {p.Position} bears more than is marked: {p.Over}.");
        return [.. valves, .. parts];
    }

    private static double Finite(double a, double value) => double.IsFinite(a) ? a : 0.03 * Math.Abs(value);
    private static string Named(SheetLine line) => $"{line.Lug} ({line.What})";
    // Three figures: nobody reads a band more finely.
    private static string Volts(double volts) => volts == 0 ? "0 V" : Notation.Print(Math.Round(volts, 3), Unit.Volt, figures: 3);
}

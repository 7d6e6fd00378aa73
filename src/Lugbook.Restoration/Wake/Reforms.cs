using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Solve;
using Lugbook.Trade;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Wake;

/// <summary>Re-forming: oxide grown back through a resistor.</summary>
/// <remarks>
/// The model is ours and simple: current at the supply's volts falls exponentially from what halves them to what a new part leaks, three time constants in the time of the published rule
/// (5 minutes and 1 for each month of storage at about 30 kΩ, an hour at most), longer as the resistor is larger, since the oxide asks for the same charge. docs/wake.md.
/// </remarks>
internal static class Reforms
{
    // Published surplus note: 5 min plus 1 min a month, about 30 k, out when a tenth of the volts is left across the resistor after an hour.
    private const double RuleOhms = 30e3, RuleMinutes = 5, MinutesPerMonth = 1, MostRuleMinutes = 60, RuleShare = 0.1;
    // Common practice, no source: at most 0.2 W in an inch-size can; old parts under 0.5 mA per 10 µF.
    private const double MostWatts = 0.2, AmperesPerFarad = 0.5e-3 / 10e-6;
    // Beyond half the volts across the resistor the capacitor is not at its work.
    private const double MostPassShare = 0.5;
    private const double LeastVolts = 5;

    /// <summary>Electrolytics that were decided to stay.</summary>
    public static IEnumerable<string> Staying(Book book) =>
        book.Parts.Where(p => p.Kind == PartKind.Electrolytic && book.Work.Named(p.Name)?.Decision == Decision.Stays).Select(p => p.Name);

    public static Reforming Of(SolveResult solved, string position, ReformingWith with)
    {
        var book = solved.Netlist.Map.Book;
        Reforming None(string reason) => new() { Position = position, Reason = reason };
        if (book.Parts.Named(position) is not { } part) return None($"The book has no part {position}. Look at its name on the parts page.");
        if (part.Kind != PartKind.Electrolytic) return None($"{position} is no electrolytic: only electrolytics are re-formed.");
        if (part is not { Value: > 0 and var farads, Unit: Unit.Farad }) return None($"{position} has no capacitance: enter what is marked on it.");
        if (part.RatedVolts is not > 0) return None($"{position} has no rated voltage: enter what is marked on it; without it no supply is safe.");
        var rated = part.RatedVolts.Value;
        var supply = with.SupplyVolts ?? Math.Min(rated, WorkingVolts(solved, part) is > LeastVolts and var at ? at : rated);
        if (supply > rated) return None(string.Create(CultureInfo.InvariantCulture, $"A supply of {supply:0} V is above the {rated:0} V that {part.Name} is rated for: set it to {rated:0} V or less."));
        if (supply <= LeastVolts) return None(string.Create(CultureInfo.InvariantCulture, $"A supply of {supply:0.#} V re-forms nothing: give more than {LeastVolts:0} V."));
        double[] hand = [.. with.Ohms.Where(r => r > 0).Order()];
        if (hand.Length == 0) return None("No resistor is given: enter at least one.");
        double Short(double r) => supply * supply / r;
        var (suits, ohms) = hand.FirstOrDefault(r => Short(r) / 4 <= MostWatts && Short(r) <= with.ResistorWatts) is > 0 and var good ? (true, good) : (false, hand[^1]);
        var cautions = ImmutableArray.CreateBuilder<string>();
        cautions.Add("The supply kills. Isolated from the line, fused, everything covered; plus to plus; one lead of the capacitor off its lug; local codes and licensed practice first.");
        cautions.Add("It may vent: cover it, eyes protected, stay beside it. A body that warms, swells or smells: switch off, it goes.");
        if (!suits)
        {
            var least = Math.Max(supply * supply / (4 * MostWatts), supply * supply / with.ResistorWatts);
            cautions.Add(string.Create(CultureInfo.InvariantCulture, $"This resistor is too small or too weak here: {Short(ohms) / 4:0.##} W could heat the capacitor and {Short(ohms):0.#} W the resistor. Take {Math.Ceiling(least / 1e3):0} kΩ or more."));
        }
        var passAmperes = Math.Min(AmperesPerFarad * farads, RuleShare * supply / RuleOhms);
        if (passAmperes * ohms > MostPassShare * supply)
        {
            passAmperes = MostPassShare * supply / ohms;
            cautions.Add("Through so large a resistor the capacitor stays far below the supply's volts even when it passes: go on with a smaller one at the end.");
        }
        var minutes = Math.Clamp(RuleMinutes + MinutesPerMonth * with.Months, RuleMinutes, MostRuleMinutes) * Math.Max(1, ohms / RuleOhms);
        return new()
        {
            Position = part.Name, Farads = farads, RatedVolts = rated, SupplyVolts = supply, Ohms = ohms, ShortWatts = Short(ohms), MostCapacitorWatts = Short(ohms) / 4,
            PassVolts = passAmperes * ohms, PassAmperes = passAmperes, GiveUpMinutes = minutes, DischargeSeconds = ohms * farads * Math.Log(supply / LeastVolts),
            Course = [.. new[] { 0.02, 0.1, 0.25, 0.5, 0.75, 1 }.Select(share => At(share, minutes, supply, ohms, farads, rated, passAmperes))],
            Cautions = cautions.ToImmutable(),
        };
    }

    private static ReformingMoment At(double share, double minutes, double supply, double ohms, double farads, double rated, double passAmperes)
    {
        var begin = supply / ohms;
        var last = Math.Min(NewLeakage(farads, rated), passAmperes);
        var leak = last + (begin - last) * Math.Exp(-3 * share);
        // Leakage in proportion to the volts that are there: V = Vs / (1 + R·I/Vs); charging adds its own.
        var volts = supply / (1 + ohms * leak / supply) * (1 - Math.Exp(-share * minutes * 60 / (ohms * farads)));
        var across = supply - volts;
        return new(share * minutes, volts, across, across / ohms, Slowest(share, supply, passAmperes * ohms));
    }

    /// <summary>Volts across the resistor of one that passes at the last moment: all of them at first, then falling by equal shares.</summary>
    private static double Slowest(double share, double supply, double pass) => supply * Math.Pow(pass / supply, Math.Clamp(share, 0, 1));

    /// <summary>Leakage that the sheet of a general series allows a new part, A; from µF and V.</summary>
    private static double NewLeakage(double farads, double volts)
    {
        var cv = farads * 1e6 * volts;
        return 1e-6 * (volts <= 100 ? Math.Max(0.01 * cv, 3) : cv <= 1000 ? 0.03 * cv + 15 : 0.02 * cv + 25);
    }

    public static ImmutableArray<ReformingReading> Judged(Reforming plan, ImmutableArray<(double Minutes, double Volts)> readings)
    {
        var judged = ImmutableArray.CreateBuilder<ReformingReading>();
        double? before = null;
        foreach (var (minutes, volts) in readings.OrderBy(r => r.Minutes))
        {
            var watts = Math.Max(plan.SupplyVolts - volts, 0) * volts / plan.Ohms;
            var (verdict, why) = Verdict(plan, minutes, volts, watts, before);
            judged.Add(new(minutes, volts, volts / plan.Ohms, watts, verdict, why));
            before = volts;
        }
        return judged.ToImmutable();
    }

    private static (ReformingVerdict, string) Verdict(Reforming plan, double minutes, double volts, double watts, double? before)
    {
        if (volts > 1.1 * plan.SupplyVolts) return (ReformingVerdict.Stop, "More than the supply gives: read again, and look at the supply.");
        if (watts > MostWatts) return (ReformingVerdict.Stop, string.Create(CultureInfo.InvariantCulture, $"{watts:0.00} W heat the capacitor, above {MostWatts} W: switch off, take a larger resistor or fewer volts."));
        // Ten time constants, and a few minutes for the oxide.
        var charged = Math.Max(10 * plan.Ohms * plan.Farads / 60, 0.1 * plan.GiveUpMinutes);
        if (minutes >= charged && volts > 0.9 * plan.SupplyVolts) return (ReformingVerdict.Stop, "Nearly all of the volts are still across the resistor: it is a short, or joined the wrong way round.");
        if (before is { } b && volts > 1.1 * b && volts > plan.PassVolts) return (ReformingVerdict.Stop, "The current rises; it must fall steadily.");
        if (volts <= plan.PassVolts && minutes >= RuleMinutes && minutes >= 10 * plan.Ohms * plan.Farads / 60) return (ReformingVerdict.Passes, "The leakage is low enough: leave it so for an hour, then measure capacitance and series resistance.");
        if (minutes >= plan.GiveUpMinutes) return (ReformingVerdict.GiveUp, "Time is up and the leakage is too high: it goes.");
        var most = Slowest(minutes / plan.GiveUpMinutes, plan.SupplyVolts, plan.PassVolts);
        return volts > most
            ? (ReformingVerdict.Slow, string.Create(CultureInfo.InvariantCulture, $"Slower than may pass in time (at most {most:0} V now): watch it closely."))
            : (ReformingVerdict.GoOn, "As expected: go on.");
    }

    private static double? WorkingVolts(SolveResult solved, Part part)
    {
        var nodes = part.Leads.Select(l => solved.Netlist.Map.NodeOf(l.Lug)?.Index).OfType<int>().ToArray();
        if (nodes.Length < 2) return null;
        double? Of(int n) => solved.Cycle is { } cycle ? cycle.Nodes[n].Average : solved.Point?.Volts[n];
        return Of(nodes[0]) is { } a && Of(nodes[1]) is { } b ? Math.Abs(a - b) : null;
    }
}

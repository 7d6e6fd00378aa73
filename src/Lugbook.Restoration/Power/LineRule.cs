using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Sheet;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Power;

/// <summary>What today's higher line does, and the resistor or bucking winding that mends it.</summary>
/// <remarks>
/// The dropper is (today − made for)/I with I the line's rms current, then corrected once so that the mean heater power is as made. A bucking transformer's secondary in series against the line takes its volts off
/// with next to no heat. Secondaries on sale: common practice, no source.
/// </remarks>
internal static class LineRule
{
    // On sale, V and W: common practice, no source.
    private static readonly double[] Secondaries = [5, 6.3, 9, 10, 12, 12.6, 15, 18, 24, 30];
    private static readonly double[] Ratings = [5, 10, 25, 50, 100];

    /// <param name="runs">The supply.</param>
    /// <param name="share">Today's line over the set's.</param>
    /// <param name="made">Stresses at the set's own line.</param>
    /// <param name="today">Stresses at today's.</param>
    public static LineMend? Of(Runs runs, double share, SheetResult made, SheetResult today)
    {
        if (share <= 1.005 || runs.Solved.Cycle is not { } before || runs.Cycle(runs.AtLine(share)) is not { } now) return null;
        var amperes = now.Currents.TryGetValue(runs.Line.Name, out var c) ? c.Rms : 0;
        if (amperes <= 0) return null;
        var output = runs.Last?.Cathode ?? runs.Network.Reference;
        var extra = runs.Line.VoltsRms * (share - 1);
        var filaments = runs.Network.Elements.OfType<Filament>().ToArray();
        var ohms = extra / amperes;
        var dropped = runs.Cycle(runs.AtLine(share, ohms));
        if (dropped is not null && filaments.Length > 0 && Warmth(dropped, filaments) is var warmth && Math.Abs(warmth / Warmth(before, filaments) - 1) > 0.005)
        {
            // Heater volts go with what the resistor leaves: correct by the share that is missing or too much.
            var left = Math.Sqrt(warmth / Warmth(before, filaments)) - 1;
            ohms = Math.Max(0, ohms + left * runs.Line.VoltsRms / amperes);
        }
        ohms = PreferredValues.Nearest(ohms, PreferredSeries.E12);
        dropped = runs.Cycle(runs.AtLine(share, ohms));
        var draws = dropped?.Currents.TryGetValue(runs.Line.Name, out var d) == true ? d.Rms : amperes;
        var bucking = Secondaries.MinBy(s => Math.Abs(s - extra));
        var newly = today.Parts.Where(p => p.Over is not null && made.Parts.FirstOrDefault(m => m.Position == p.Position)?.Over is null).Select(p => $"{p.Position}: {p.Over}")
            .Concat(today.Valves.Where(v => v.Over is not null && made.Valves.FirstOrDefault(m => (m.Valve, m.Section, m.Electrode) == (v.Valve, v.Section, v.Electrode))?.Over is null).Select(v => $"{v.Valve}: {v.Over}"));
        var mend = new LineMend
        {
            MadeForVolts = runs.Line.VoltsRms,
            TodayVolts = runs.Line.VoltsRms * share,
            LineAmperes = amperes,
            Heaters = [.. filaments.Select(f => (f.Name, Rms(now, f) / f.RatedVolts))],
            Passes = [.. newly],
            DropperOhms = ohms,
            DropperWatts = Ratings.FirstOrDefault(w => w >= 2 * draws * draws * ohms, Ratings[^1]),
            OutputVolts = (before.Nodes[output].Average, now.Nodes[output].Average, dropped?.Nodes[output].Average ?? double.NaN),
            BuckingVolts = bucking,
            BuckingAmperes = Math.Ceiling(amperes * 12.5) / 10,
            Sentences = [],
        };
        return mend with { Sentences = [.. Sentences(mend, draws)] };
    }

    private static double Rms(SupplyState cycle, Filament f) => Math.Sqrt(cycle.Cycle.Volts.Skip(1).Average(v => (v[f.A] - v[f.B]) * (v[f.A] - v[f.B])));

    private static double Warmth(SupplyState cycle, Filament[] filaments) => filaments.Sum(f => Math.Pow(Rms(cycle, f), 2) / f.RatedVolts * f.RatedAmperes);

    private static IEnumerable<string> Sentences(LineMend m, double draws)
    {
        string Say(FormattableString f) => f.ToString(CultureInfo.InvariantCulture);
        yield return Say($"At {m.TodayVolts:0.#} V in place of {m.MadeForVolts:0.#} V the set draws {m.LineAmperes:0.00} A and its supply stands at {m.OutputVolts.Today:0} V in place of {m.OutputVolts.Made:0} V.");
        var hot = m.Heaters.Where(h => h.Share > 1.1).ToArray();
        if (hot.Length > 0) yield return Say($"Heaters more than 10 % over their mark: {string.Join(", ", hot.Select(h => Say($"{h.Heater} {100 * (h.Share - 1):0} %")))}. That costs valves their life (10 %: common practice, no source).");
        yield return m.Passes.IsEmpty ? "No further limit is passed that the set keeps at its own line." : $"Passed at today's line only: {string.Join("; ", m.Passes)}.";
        yield return Say($"A dropper of {Notation.Print(m.DropperOhms, Unit.Ohm)} {m.DropperWatts:0} W in the line, behind switch and fuse, brings the supply to {m.OutputVolts.Dropped:0} V; it turns {draws * draws * m.DropperOhms:0} W to heat and needs air.");
        yield return Say($"Cooler: a transformer with a secondary of {m.BuckingVolts:0.#} V, {m.BuckingAmperes:0.0} A or more, its secondary in series against the line: {m.TodayVolts - m.BuckingVolts:0.#} V are left. Its primary lies across the line; wired the wrong way round it adds, so measure before the set is joined.");
    }
}

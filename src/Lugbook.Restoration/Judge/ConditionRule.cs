using System.Globalization;
using Lugbook.Restoration.Bounds;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Judge;

/// <summary>Judges what a part's condition tells beside its value: insulation, leakage, series resistance, loss.</summary>
internal static class ConditionRule
{
    // An insulation below twice what the position bears is too near: it falls with warmth and years. Common practice, no source.
    private const double Margin = 2;

    public static Judgement Insulation(Part part, Reading reading, Meter meter, PositionBound? bound, double workingVolts)
    {
        var a = ValueRule.Uncertainty(reading, meter);
        var guard = GuardBand.Of(a);
        if (part.Kind == PartKind.Electrolytic && reading.Value > 0)
            return Leakage(part, reading with { Kind = ReadingKind.Leakage, Value = (reading.TestVolts ?? workingVolts) / reading.Value }, meter, workingVolts);
        var (family, rule) = FamilyLimits.Insulation(part) ?? (100e6, "100 MΩ at least");
        var here = bound?.LeakOhms is { } leak ? Margin * leak : 0;
        var needed = Math.Max(family, here);
        var why = here > family ? $"this position bears {Say.Ohms(bound!.LeakOhms!.Value)}, and twice that is asked ({bound.LeakLimit!.Sentence})" : $"the family's rule is {rule}";
        var low = reading.TestVolts is { } volts && workingVolts > 0 && volts < 0.7 * workingVolts
            ? string.Create(CultureInfo.InvariantCulture, $" At {volts:0} V this says little: the part works at {workingVolts:0} V.") : "";
        if (reading.IsOver || reading.Value - guard >= needed)
        {
            if (reading.IsOver && reading.Value < needed) return ValueRule.Told(reading, a, Verdict.CannotTell, $"Over {Say.Ohms(reading.Value)}, but {Say.Ohms(needed)} is needed: {why}.", "Use an insulation tester, or a series voltmeter at the working voltage.");
            return low.Length > 0
                ? ValueRule.Told(reading, a, Verdict.Undecided, $"{ValueRule.Shown(reading)} of insulation is enough ({Say.Ohms(needed)} is needed: {why}).{low}", string.Create(CultureInfo.InvariantCulture, $"Test it at {workingVolts:0} V."))
                : ValueRule.Told(reading, a, Verdict.Within, $"{ValueRule.Shown(reading)} of insulation is above the {Say.Ohms(needed)} that is needed: {why}.", null);
        }
        if (!reading.IsLifted)
            return ValueRule.Told(reading, a, Verdict.CannotTell, $"{ValueRule.Shown(reading)} in place may be the part's leak or any other path; {Say.Ohms(needed)} is needed: {why}.", ValueRule.LiftOne);
        return reading.Value + guard < needed
            ? ValueRule.Told(reading, a, Verdict.Outside, $"{ValueRule.Shown(reading)} of insulation is below the {Say.Ohms(needed)} that is needed: {why}.{low}", null)
            : ValueRule.Told(reading, a, Verdict.Undecided, $"{ValueRule.Shown(reading)} of insulation lies within the meter's error of the {Say.Ohms(needed)} that is needed: {why}.", "Let it go: insulation only falls.");
    }

    public static Judgement Leakage(Part part, Reading reading, Meter meter, double workingVolts)
    {
        var a = 0.05 * reading.Value;
        var volts = reading.TestVolts ?? workingVolts;
        if (part.Kind != PartKind.Electrolytic)
            return volts > 0 && reading.Value > 0
                ? Insulation(part, reading with { Kind = ReadingKind.Insulation, Value = volts / reading.Value, TestVolts = volts }, meter, null, workingVolts) with { Reading = reading }
                : ValueRule.Told(reading, a, Verdict.CannotTell, "At which voltage the leakage was measured is not noted.", "Note the test voltage.");
        if (part.Value is not { } farads || volts <= 0) return ValueRule.Told(reading, a, Verdict.CannotTell, "Its value, or the voltage of the test, is not entered.", "Enter them.");
        var allowed = FamilyLimits.Leakage(farads, volts);
        var verdict = reading.Value + a <= allowed ? Verdict.Within : reading.Value - a >= allowed ? Verdict.Outside : Verdict.Undecided;
        var text = $"{Say.Of(ReadingKind.Leakage, reading.Value)} at {volts.ToString("0", CultureInfo.InvariantCulture)} V; an old {Say.Farads(farads)} may leak {Say.Of(ReadingKind.Leakage, allowed)} once formed";
        return ValueRule.Told(reading, a, verdict, verdict switch { Verdict.Within => $"{text}: good.", Verdict.Outside => $"{text}: too much.", _ => $"{text}: at the limit." },
            verdict == Verdict.Within ? null : "If it falls while it is being formed, wait; if it does not, it goes.");
    }

    public static Judgement SeriesOhms(Part part, Reading reading)
    {
        var a = 0.1 * reading.Value;
        if (part.Kind != PartKind.Electrolytic || part.Value is not { } farads) return ValueRule.Told(reading, a, Verdict.CannotTell, "Series resistance is judged for electrolytics with an entered value.", "Measure insulation instead.");
        var most = FamilyLimits.SeriesOhms(farads, part.RatedVolts ?? 450);
        var verdict = reading.Value + a <= most ? Verdict.Within : reading.Value - a >= most ? Verdict.Outside : Verdict.Undecided;
        return ValueRule.Told(reading, a, verdict, $"{Say.Ohms(reading.Value)} of series resistance; {Say.Ohms(most)} at 120 Hz is twice that of a new {Say.Farads(farads)} {part.RatedVolts ?? 450:0} V: {(verdict == Verdict.Within ? "good" : verdict == Verdict.Outside ? "dried out" : "at the limit")}.",
            verdict == Verdict.Undecided ? "Let it go: it only rises." : null);
    }

    public static Judgement Loss(Part part, Reading reading)
    {
        var most = FamilyLimits.Loss(part.Kind);
        var a = 0.1 * reading.Value + 0.0005;
        var verdict = reading.Value + a <= most ? Verdict.Within : reading.Value - a >= most ? Verdict.Outside : Verdict.Undecided;
        return ValueRule.Told(reading, a, verdict, string.Create(CultureInfo.InvariantCulture, $"A loss of {reading.Value:0.####} against {most:0.####} for its kind: {(verdict == Verdict.Within ? "good" : verdict == Verdict.Outside ? "damp or worn out" : "at the limit")}."), null);
    }
}

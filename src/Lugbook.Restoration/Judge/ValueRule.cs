using Lugbook.Restoration.Bounds;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Judge;

/// <summary>Judges the value of a resistor, winding or capacitor against its mark.</summary>
internal static class ValueRule
{
    /// <summary>What to do in general; <see cref="JudgeStage"/> names the lead.</summary>
    internal const string LiftOne = "Lift one lead and measure again.";

    /// <summary>Out of circuit, or with a lead lifted.</summary>
    public static Judgement Lifted(Part part, Reading reading, Meter meter, PositionBound? bound)
    {
        var a = Uncertainty(reading, meter);
        if (FamilyLimits.OfMark(part) is not var (low, high, tolerance, usual))
            return Told(reading, a, Verdict.CannotTell, $"{part.Name} reads {Shown(reading)}, but what it should be is not entered.", "Enter its marked value.");
        var limits = new Interval(low, high);
        var mark = $"{Say.Of(reading.Kind, part.Value!.Value)} {Say.Tolerance(tolerance)}{(usual ? " (usual for its kind)" : "")}";
        if (reading.IsOver) return Over(part, reading, a, limits, mark);
        var verdict = GuardBand.Decide(reading.Value, a, low, high);
        var off = Say.Deviation(reading.Value, part.Value.Value);
        var bears = Bears(reading, bound);
        var judged = new Judgement
        {
            Reading = reading, Verdict = verdict, Uncertainty = a, Intact = limits, True = new(Math.Max(reading.Value - a, 0), reading.Value + a),
            Probability = GuardBand.Conformance(reading.Value, a, low, high),
            Sentence = verdict switch
            {
                Verdict.Within => $"{Shown(reading)} is within {mark} ({off}), the meter's ±{Say.Error(reading.Kind, a)} included.{bears}",
                Verdict.Outside => $"{Shown(reading)} is outside {mark} ({off}), even with the meter's ±{Say.Error(reading.Kind, a)} in its favour.{bears}",
                _ => $"{Shown(reading)} lies so near the limit of {mark} that the meter's ±{Say.Error(reading.Kind, a)} decides nothing.{bears}",
            },
            Instead = verdict == Verdict.Undecided ? "Measure again with a better meter, or let it go: nobody misses a part at its limit." : null,
        };
        return reading.Kind == ReadingKind.Farads && part.Kind is PartKind.Paper && reading.Value > high ? judged with { Sentence = judged.Sentence + " Leaky paper reads high." } : judged;
    }

    /// <summary>Where it sits, with whatever is in parallel.</summary>
    public static Judgement Resistance(Part part, Reading reading, Meter meter, Rest? rest, PositionBound? bound)
    {
        var a = Uncertainty(reading, meter);
        if (FamilyLimits.OfMark(part) is not var (low, high, tolerance, _)) return Lifted(part, reading, meter, bound);
        var mark = $"{Say.Ohms(part.Value!.Value)} {Say.Tolerance(tolerance)}";
        var guard = GuardBand.Of(a);
        if (reading.IsOver)
        {
            return reading.Value - guard > high
                ? Told(reading, a, Verdict.Outside, $"The meter shows over {Say.Ohms(reading.Value)}: whatever lies in parallel could only lower it, so {part.Name} ({mark}) is open or far too high.", null)
                : Told(reading, a, Verdict.CannotTell, $"Over {Say.Ohms(reading.Value)} says nothing about {mark}: the range ends too soon.", "Use a meter that reads higher.");
        }
        if (reading.Value >= high + guard)
            return Told(reading, a, Verdict.Outside, $"{Shown(reading)} in place is above the upper limit of {mark} ({Say.Deviation(reading.Value, part.Value.Value)}): other paths can only lower a reading, so it has drifted up.{Bears(reading, bound)}", null) with { True = new(reading.Value - guard, double.PositiveInfinity), Intact = rest is null ? null : Seen(low, high, rest) };
        if (rest is null)
            return Told(reading, a, Verdict.CannotTell, $"{Shown(reading)} in place: what lies in parallel is not known, because not all leads are entered.", LiftOne) with { True = new(reading.Value - guard, double.PositiveInfinity) };
        var place = Place(reading);
        var (from, to) = (Apart(reading.Value - guard, rest.High), Apart(reading.Value + guard, rest.Low));
        var intact = Seen(low, high, rest);
        var basis = double.IsInfinity(rest.Low) ? "nothing else connects its lugs" : $"{Say.Between(ReadingKind.Ohms, new(rest.Low, rest.High))} lies in parallel";
        var caveat = rest.Leakers.IsEmpty ? "" : $" This holds unless {string.Join(" or ", rest.Leakers)} leaks.";
        var judged = new Judgement { Reading = reading, Verdict = Verdict.CannotTell, Uncertainty = a, Intact = intact, True = new(Math.Max(from, 0), to), Sentence = "" };
        if (from >= low && to <= high)
            return judged with { Verdict = Verdict.Within, Sentence = $"{Shown(reading)} {place}, where {basis}, means {Say.Between(ReadingKind.Ohms, judged.True!.Value)}: within {mark}.{caveat}" };
        var expected = $"an intact one reads {Say.Between(ReadingKind.Ohms, intact)} here";
        var likely = from > high ? "probably too high" : to < low ? "either too low or bridged by another path" : "not decided";
        return judged with
        {
            Sentence = $"{Shown(reading)} {place}, where {basis} ({expected}), allows {Say.Between(ReadingKind.Ohms, judged.True!.Value)} against {mark}: {likely}.",
            Instead = LiftOne,
        };
    }

    private static string Place(Reading reading) => reading.LiftedPart is { } other ? $"in place, with {other}'s lead lifted" : "in place";

    /// <summary>Capacitance where it sits.</summary>
    public static Judgement Capacitance(Part part, Reading reading, Meter meter, RestAt? rest, PositionBound? bound)
    {
        var a = Uncertainty(reading, meter);
        if (FamilyLimits.OfMark(part) is not var (low, high, tolerance, _)) return Lifted(part, reading, meter, bound);
        var mark = $"{Say.Farads(part.Value!.Value)} {Say.Tolerance(tolerance)}";
        if (rest is null || reading.IsOver)
            return Told(reading, a, Verdict.CannotTell, $"{Shown(reading)} in place: what lies in parallel is not known.", LiftOne);
        if (rest.Shunted)
            return Told(reading, a, Verdict.CannotTell, $"{Shown(reading)} in place means nothing: {Say.Ohms(rest.Ohms)} or a coil lies across {part.Name} at {meter.FaradsHertz:0} Hz.", LiftOne);
        var guard = GuardBand.Of(a);
        var (from, to) = (reading.Value - guard - rest.High, reading.Value + guard - rest.Low);
        var intact = new Interval(low + rest.Low, high + rest.High);
        var truth = new Interval(Math.Max(from, 0), Math.Max(to, 0));
        var basis = rest.High < 0.005 * part.Value.Value ? "next to nothing lies in parallel" : $"{Say.Farads(rest.Low)} to {Say.Farads(rest.High)} lies in parallel";
        var judged = new Judgement { Reading = reading, Verdict = Verdict.CannotTell, Uncertainty = a, Intact = intact, True = truth, Sentence = "" };
        if (from >= low && to <= high)
            return judged with { Verdict = Verdict.Within, Sentence = $"{Shown(reading)} {Place(reading)}, where {basis}, means {Say.Between(ReadingKind.Farads, truth)}: within {mark}. Capacitance says nothing of leakage." };
        if (to <= low)
            return judged with { Verdict = Verdict.Outside, Sentence = $"{Shown(reading)} in place is less than even the lower limit of {mark}: other parts could only add to it." };
        return judged with { Sentence = $"{Shown(reading)} {Place(reading)}, where {basis}, allows {Say.Between(ReadingKind.Farads, truth)} against {mark}: not decided.", Instead = LiftOne };
    }

    /// <summary>The meter's error at a reading, in its unit.</summary>
    public static double Uncertainty(Reading reading, Meter meter) => reading.Kind switch
    {
        ReadingKind.Ohms => Finite(meter.OhmsUncertainty(reading.Value), 0.03 * reading.Value),
        ReadingKind.Farads => Finite(meter.Farads?.Uncertainty(reading.Value), 0.05 * reading.Value),
        ReadingKind.Insulation => Finite(meter.Insulation?.Uncertainty(reading.Value), 0.1 * reading.Value),
        ReadingKind.Volts => Finite(meter.Volts.Uncertainty(reading.Value), 0.03 * Math.Abs(reading.Value)),
        _ => 0.1 * reading.Value,
    };

    // A reading that the profile has no range for: a tenth to a thirtieth of it, as such instruments go (common practice, no source).
    private static double Finite(double? stated, double otherwise) => stated is { } a && double.IsFinite(a) ? a : otherwise;

    private static Judgement Over(Part part, Reading reading, double a, Interval limits, string mark)
    {
        if (reading.Value > limits.High) return Told(reading, a, Verdict.Outside, $"The meter shows over {Say.Of(reading.Kind, reading.Value)}, and {mark} ends at {Say.Of(reading.Kind, limits.High)}: {part.Name} is open or far too high.", null) with { Intact = limits };
        return Told(reading, a, Verdict.CannotTell, $"Over {Say.Of(reading.Kind, reading.Value)} is what an intact {mark} shows on this meter too: the range ends too soon.", "Use a meter that reads higher, or a series voltmeter.") with { Intact = limits };
    }

    internal static Judgement Told(Reading reading, double a, Verdict verdict, string sentence, string? instead) => new() { Reading = reading, Verdict = verdict, Uncertainty = a, Sentence = sentence, Instead = instead };

    internal static string Shown(Reading reading) => $"{(reading.IsOver ? "over " : "")}{Say.Of(reading.Kind, reading.Value)}";

    private static string Bears(Reading reading, PositionBound? bound)
    {
        if (reading.Kind != ReadingKind.Ohms || bound is null) return "";
        if (bound.Up is { } up && reading.Value > up.Ohms) return $" Here already {Say.Ohms(up.Ohms)} would be too much: {up.Limit.Sentence}.";
        if (bound.Down is { } down && reading.Value < down.Ohms) return $" Here already {Say.Ohms(down.Ohms)} would be too little: {down.Limit.Sentence}.";
        return "";
    }

    /// <summary>What a part from low to high reads beside a rest.</summary>
    internal static Interval Seen(double low, double high, Rest rest) => new(Together(low, rest.Low), Together(high, rest.High));

    /// <summary>Two resistances in parallel.</summary>
    internal static double Together(double r, double p) => double.IsInfinity(p) ? r : double.IsInfinity(r) ? p : p <= 0 ? 0 : r * p / (r + p);

    /// <summary>What is left of a reading when a parallel path is taken away; infinite where the path alone explains it.</summary>
    internal static double Apart(double reading, double path)
    {
        if (reading <= 0) return 0;
        var siemens = 1 / reading - (double.IsInfinity(path) ? 0 : 1 / path);
        return siemens <= 0 ? double.PositiveInfinity : 1 / siemens;
    }
}

using System.Collections.Immutable;
using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Solve;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Judge;

/// <summary>May it stay? Every reading becomes a verdict with a reason, every part a decision.</summary>
public static class JudgeStage
{
    /// <summary>Pure: the same book, basis and policy, the same verdicts. Works from values alone; what lugs would tell is then named.</summary>
    /// <param name="book">The book with its readings and decisions.</param>
    /// <param name="basis">What was computed of its parts.</param>
    /// <param name="policy">What becomes of families.</param>
    /// <param name="meter">The meter of readings that name none.</param>
    public static JudgeResult Run(Book book, JudgeBasis basis, FamilyPolicy policy, Meter meter)
    {
        // What was read between two lugs right after soldering is judged there.
        book = book with { Readings = Table<Reading>.Of(book.Readings.Where(r => !r.IsBetweenLugs)) };
        var map = basis.Solved.Netlist.Map;
        var remarks = ImmutableArray.CreateBuilder<string>();
        foreach (var reading in book.Readings)
            if (book.Parts.Named(reading.Name) is null && (reading.Kind != ReadingKind.Volts || map.NodeOf(reading.Name) is null))
                remarks.Add($"A reading names {reading.Name}, which is {(reading.Kind == ReadingKind.Volts ? "no lug" : "no part")} of this book; it is kept and not judged.");
        var meters = BookMeters.Of(book);
        foreach (var unknown in book.Readings.Where(r => r.Meter is not null && NamedIn(meters, r.Meter) is null).GroupBy(r => r.Meter!.Trim(), StringComparer.OrdinalIgnoreCase))
            remarks.Add($"No meter is called {unknown.Key}, which read {string.Join(", ", unknown.Select(r => r.Name).Distinct())}; judged by the figures of {meter.Name}. Enter that meter to judge by its own.");
        var byPart = book.Readings.ToLookup(r => r.Name, StringComparer.OrdinalIgnoreCase);
        // What lies in parallel with a part is a solution of its own: all cores.
        var parts = book.Parts.Where(p => FamilyPolicy.FamilyOf(p.Kind) is not null).AsParallel().AsOrdered().Select(p => Judged(p, [.. byPart[p.Name]], book, basis, policy, meter, meters)).ToImmutableArray();
        var volts = VoltsRule.Of(book, basis, r => NamedIn(meters, r.Meter) ?? meter);
        return new() { Parts = parts, Volts = volts, Remarks = remarks.ToImmutable(), Round = MeasuringRound.Of(book, parts), Policy = policy.InWords(), Unsolved = basis.Solved.Reason };
    }

    private static Meter? NamedIn(ImmutableArray<Meter> meters, string? name) => name is null ? null : meters.FirstOrDefault(m => string.Equals(m.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));

    private static PartVerdict Judged(Part part, ImmutableArray<Reading> readings, Book book, JudgeBasis basis, FamilyPolicy policy, Meter meter, ImmutableArray<Meter> meters)
    {
        var bound = basis.Bounds.Of(part.Name);
        var volts = WorkingVolts(part, basis.Solved);
        var judgements = readings.Reverse().Select(r => Judge(part, Topped(r, NamedIn(meters, r.Meter) ?? meter), NamedIn(meters, r.Meter) ?? meter, book, basis.Place, bound, volts)).ToImmutableArray();
        judgements = Advised(part, judgements, basis, meter, volts);
        var (decision, reason, byUser) = Decide(part, book.Work.Named(part.Name), judgements, policy, [.. PolicyPlace.Of(part, basis.Solved.Netlist.Map), .. policy.Places.Select(p => p.Place).Where(p => PolicyPlace.IsTrueOf(p, book.Facts.Year))]);
        var next = decision == Decision.MeasureFirst ? Next(part, judgements, basis, meter, volts) : null;
        return new() { Position = part.Name, Decision = decision, Reason = reason, ByUser = byUser, Judgements = judgements, Next = next, Stake = basis.StakeOf(part.Name), Bears = bound?.Sentence };
    }

    // What was tried in place and told nothing is next tried with a lead lifted; what lies at its limit lifted too will not tell more.
    private static HowToMeasure? Next(Part part, ImmutableArray<Judgement> judgements, JudgeBasis basis, Meter meter, double volts)
    {
        var kind = Wanted(part, judgements, meter);
        var tried = judgements.FirstOrDefault(j => j.Reading.Kind == kind);
        // Another meter may tell what the last one could not.
        if (tried?.Reading.Meter is { } with && !string.Equals(with, meter.Name, StringComparison.OrdinalIgnoreCase)) tried = null;
        if (tried is { Verdict: Verdict.Undecided, Reading.IsLifted: true }) return null;
        return Measuring.Of(part, kind, basis.Place, meter, basis.Solved.Netlist.Map, volts, tried is { Reading.IsLifted: false }, tried?.Reading.LiftedPart is not null);
    }

    // The newest reading of a kind that told nothing in place is answered with the lead that is best lifted.
    private static ImmutableArray<Judgement> Advised(Part part, ImmutableArray<Judgement> judgements, JudgeBasis basis, Meter meter, double volts)
    {
        var kinds = new HashSet<ReadingKind>();
        return [.. judgements.Select(j => kinds.Add(j.Reading.Kind) && j is { Verdict: Verdict.CannotTell, Instead: ValueRule.LiftOne } ? Advised(part, j, j.Reading, basis, meter, volts) : j)];
    }

    private static Judgement Advised(Part part, Judgement judgement, Reading reading, JudgeBasis basis, Meter meter, double volts) =>
        judgement with { Instead = Measuring.Of(part, reading.Kind, basis.Place, meter, basis.Solved.Netlist.Map, volts, tried: true, onlyOwn: reading.LiftedPart is not null)?.Sentence ?? $"A finer meter than {meter.Name} is needed, lifted or not." };

    /// <summary>A bare "over" is above the top of the meter that showed it.</summary>
    internal static Reading Topped(Reading reading, Meter meter) => reading is { IsOver: true, Value: 0 } ? reading with { Value = meter.TopOf(reading.Kind) } : reading;

    // A capacitor that was exchanged since is no suspect of a low reading.
    private static Rest? Beside(Part part, Reading reading, Book book, InPlace? place) =>
        place?.Without(part, reading.LiftedPart) is { } rest ? rest with { Leakers = [.. rest.Leakers.Where(l => book.Work.Named(l)?.Done != true)] } : null;

    private static Judgement Judge(Part part, Reading reading, Meter meter, Book book, InPlace? place, PositionBound? bound, double volts) => reading.Kind switch
    {
        _ when reading is { IsOver: true, Value: 0 } => ValueRule.Told(reading, 0, Verdict.CannotTell, $"{meter.Name} has no range of {ReadingWords.Of(reading.Kind)}, so \"over\" says nothing.", "Name the meter that it was read with, or write what it is over: over 20M."),
        ReadingKind.Ohms when part.Kind.IsCapacitor() => ConditionRule.Insulation(part, reading with { Kind = ReadingKind.Insulation, TestVolts = meter.OhmsTestVolts }, meter, bound, volts) with { Reading = reading },
        ReadingKind.Ohms when reading.IsLifted => ValueRule.Lifted(part, reading, meter, bound),
        ReadingKind.Ohms => ValueRule.Resistance(part, reading, meter, Beside(part, reading, book, place), bound),
        ReadingKind.Farads when !part.Kind.IsCapacitor() => ValueRule.Told(reading, 0, Verdict.CannotTell, $"{part.Name} is a {part.KindAsWritten}: capacitance says nothing about it.", "Measure ohms."),
        ReadingKind.Farads when reading.IsLifted => ValueRule.Lifted(part, reading, meter, bound),
        ReadingKind.Farads => ValueRule.Capacitance(part, reading, meter, place?.At(part, meter.FaradsHertz, reading.LiftedPart), bound),
        ReadingKind.Insulation => ConditionRule.Insulation(part, reading, meter, bound, volts),
        ReadingKind.Leakage => ConditionRule.Leakage(part, reading, meter, volts),
        ReadingKind.SeriesOhms => ConditionRule.SeriesOhms(part, reading),
        ReadingKind.Dissipation => ConditionRule.Loss(part, reading),
        _ => ValueRule.Told(reading, 0, Verdict.CannotTell, $"Volts are judged at a lug; {part.Name} is a part.", "Name the lug: V3-6."),
    };

    private static (Decision, string, bool) Decide(Part part, PositionWork? work, ImmutableArray<Judgement> judgements, FamilyPolicy policy, string[] places)
    {
        if (work is { Decision: not Decision.Undecided }) return (work.Decision, work.Reason is { Length: > 0 } r ? r : "Decided by the user; no reason written.", true);
        // The newest reading of each kind counts; a lifted one more than one in place.
        var counting = judgements.GroupBy(j => j.Reading.Kind).Select(g => g.FirstOrDefault(j => j.Reading.IsLifted && j.Verdict != Verdict.CannotTell) ?? g.FirstOrDefault(j => j.Verdict != Verdict.CannotTell) ?? g.First()).ToArray();
        if (counting.FirstOrDefault(j => j.Verdict == Verdict.Outside) is { } bad) return (Decision.Goes, bad.Sentence, false);
        var (decision, why) = policy.For(part.Kind, places)!.Value;
        if (decision == Decision.Goes) return (decision, counting.Any(j => j.Verdict == Verdict.Within) ? $"{why} What it measured does not change that: set the policy of this book to measure first to keep it." : why, false);
        var proved = Proofs(part).All(kinds => counting.Any(j => kinds.Contains(j.Reading.Kind) && j.Verdict == Verdict.Within));
        if (proved) return (Decision.Stays, string.Join(" ", counting.Where(j => j.Verdict == Verdict.Within).Select(j => j.Sentence)), false);
        if (decision == Decision.Stays) return (decision, why, false);
        var open = counting.FirstOrDefault(j => j.Verdict is Verdict.Undecided or Verdict.CannotTell);
        if (open is { Verdict: Verdict.Undecided } && part.Kind == PartKind.Resistor) return (Decision.MeasureFirst, open.Sentence, false);
        return (Decision.MeasureFirst, open is null ? why : $"{open.Sentence} {open.Instead}".TrimEnd(), false);
    }

    /// <summary>What must be proved for a part to stay: one kind of reading out of each group.</summary>
    private static ReadingKind[][] Proofs(Part part) => part.Kind switch
    {
        PartKind.Electrolytic => [[ReadingKind.Leakage, ReadingKind.Insulation], [ReadingKind.SeriesOhms, ReadingKind.Farads]],
        var k when k.IsCapacitor() => [[ReadingKind.Insulation, ReadingKind.Leakage]],
        _ => [[ReadingKind.Ohms]],
    };

    private static ReadingKind Wanted(Part part, ImmutableArray<Judgement> judgements, Meter meter)
    {
        foreach (var kinds in Proofs(part))
            if (!judgements.Any(j => kinds.Contains(j.Reading.Kind) && j.Verdict == Verdict.Within))
                return kinds.Contains(ReadingKind.Farads) && meter.Farads is not null ? ReadingKind.Farads : kinds[0];
        return Proofs(part)[0][0];
    }

    /// <summary>Direct volts across the part in the solved set, or its marked volts.</summary>
    private static double WorkingVolts(Part part, SolveResult solved)
    {
        var map = solved.Netlist.Map;
        if (solved.Point is { } point && map.NodeOf(part.LeadA) is { } a && map.NodeOf(part.LeadB) is { } b)
            return Math.Round(Math.Abs(point.Volts[a.Index] - point.Volts[b.Index]));
        return part.RatedVolts ?? 0;
    }
}

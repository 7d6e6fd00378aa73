using System.Collections.Immutable;
using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Judge;

/// <summary>May it stay? Every reading becomes a verdict with a reason, every part a decision.</summary>
public static class JudgeStage
{
    /// <summary>Pure: the same solved set, bounds and policy, the same verdicts. Works from values alone; what lugs would tell is then named.</summary>
    /// <param name="solved">The set, solved or not.</param>
    /// <param name="bounds">What the positions bear.</param>
    /// <param name="policy">What becomes of families.</param>
    /// <param name="meter">The meter of readings that name none.</param>
    public static JudgeResult Run(SolveResult solved, BoundsResult bounds, FamilyPolicy policy, Meter meter)
    {
        var book = solved.Netlist.Map.Book;
        var place = solved.Netlist.Network is null ? null : new InPlace(solved.Netlist, meter.OhmsTestVolts);
        var stakes = Stakes.Of(solved);
        var remarks = ImmutableArray.CreateBuilder<string>();
        foreach (var reading in book.Readings)
            if (book.Parts.Named(reading.Name) is null && (reading.Kind != ReadingKind.Volts || solved.Netlist.Map.NodeOf(reading.Name) is null))
                remarks.Add($"A reading names {reading.Name}, which is {(reading.Kind == ReadingKind.Volts ? "no lug" : "no part")} of this book; it is kept and not judged.");
        var parts = book.Parts.Where(p => FamilyPolicy.FamilyOf(p.Kind) is not null)
            .Select(p => Judged(p, solved, bounds, policy, meter, place, stakes.GetValueOrDefault(p.Name) ?? new(0, null))).ToImmutableArray();
        return new() { Parts = parts, Remarks = remarks.ToImmutable(), Round = MeasuringRound.Of(book, parts), Policy = policy.InWords(), Unsolved = solved.Reason };
    }

    private static PartVerdict Judged(Part part, SolveResult solved, BoundsResult bounds, FamilyPolicy policy, Meter meter, InPlace? place, Stake stake)
    {
        var book = solved.Netlist.Map.Book;
        var bound = bounds.Of(part.Name);
        var volts = WorkingVolts(part, solved);
        RestAt? restAt = null;
        RestAt? At() => restAt ??= place is null || !part.Kind.IsCapacitor() ? null : RestAt.Of(solved.Netlist, place.Cold, part, meter.FaradsHertz);
        var judgements = book.Readings.Where(r => string.Equals(r.Name, part.Name, StringComparison.OrdinalIgnoreCase)).Reverse()
            .Select(r => Judge(part, r, (r.Meter is { } m ? MeterShelf.Named(m) : null) ?? meter, place, At, bound, volts)).ToImmutableArray();
        var (decision, reason, byUser) = Decide(part, book.Work.Named(part.Name), judgements, policy);
        var next = decision == Decision.MeasureFirst ? Measuring.Of(part, Wanted(part, judgements, meter), place, part.Kind.IsCapacitor() ? At() : null, meter, solved.Netlist.Map, volts) : null;
        return new() { Position = part.Name, Decision = decision, Reason = reason, ByUser = byUser, Judgements = judgements, Next = next, Stake = stake, Bears = bound?.Sentence };
    }

    private static Judgement Judge(Part part, Reading reading, Meter meter, InPlace? place, Func<RestAt?> restAt, PositionBound? bound, double volts) => reading.Kind switch
    {
        ReadingKind.Ohms when part.Kind.IsCapacitor() => ConditionRule.Insulation(part, reading with { Kind = ReadingKind.Insulation, TestVolts = meter.OhmsTestVolts }, meter, bound, volts) with { Reading = reading },
        ReadingKind.Ohms when reading.IsLifted => ValueRule.Lifted(part, reading, meter, bound),
        ReadingKind.Ohms => ValueRule.Resistance(part, reading, meter, place?.Of(part), bound),
        ReadingKind.Farads when !part.Kind.IsCapacitor() => ValueRule.Told(reading, 0, Verdict.CannotTell, $"{part.Name} is a {part.KindAsWritten}: capacitance says nothing about it.", "Measure ohms."),
        ReadingKind.Farads when reading.IsLifted => ValueRule.Lifted(part, reading, meter, bound),
        ReadingKind.Farads => ValueRule.Capacitance(part, reading, meter, restAt(), bound),
        ReadingKind.Insulation => ConditionRule.Insulation(part, reading, meter, bound, volts),
        ReadingKind.Leakage => ConditionRule.Leakage(part, reading, meter, volts),
        ReadingKind.SeriesOhms => ConditionRule.SeriesOhms(part, reading),
        ReadingKind.Dissipation => ConditionRule.Loss(part, reading),
        _ => ValueRule.Told(reading, 0, Verdict.CannotTell, "Volts are judged on the sheet, lug by lug.", null),
    };

    private static (Decision, string, bool) Decide(Part part, PositionWork? work, ImmutableArray<Judgement> judgements, FamilyPolicy policy)
    {
        if (work is { Decision: not Decision.Undecided }) return (work.Decision, work.Reason is { Length: > 0 } r ? r : "Decided by the user; no reason written.", true);
        // The newest reading of each kind counts; a lifted one more than one in place.
        var counting = judgements.GroupBy(j => j.Reading.Kind).Select(g => g.FirstOrDefault(j => j.Reading.IsLifted && j.Verdict != Verdict.CannotTell) ?? g.FirstOrDefault(j => j.Verdict != Verdict.CannotTell) ?? g.First()).ToArray();
        if (counting.FirstOrDefault(j => j.Verdict == Verdict.Outside) is { } bad) return (Decision.Goes, bad.Sentence, false);
        var (decision, why) = policy.For(part.Kind)!.Value;
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

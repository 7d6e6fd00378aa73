using System.Collections.Immutable;
using Lugbook.Trade.Readings;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Judge;

/// <summary>What a reading proves.</summary>
public enum Verdict
{
    /// <summary>The part is within its limits, even with the meter's error against it.</summary>
    Within,
    /// <summary>It is outside, even with the meter's error in its favour.</summary>
    Outside,
    /// <summary>The limit lies inside the meter's uncertainty.</summary>
    Undecided,
    /// <summary>It cannot be told like this: other paths, or a range that ends too soon.</summary>
    CannotTell,
}

/// <summary>A range of true values, in the reading's unit.</summary>
/// <param name="Low">Lowest.</param>
/// <param name="High">Highest; may be infinite.</param>
public readonly record struct Interval(double Low, double High);

/// <summary>One reading, judged.</summary>
public sealed record Judgement
{
    /// <summary>The reading.</summary>
    public required Reading Reading { get; init; }
    /// <summary>What it proves.</summary>
    public required Verdict Verdict { get; init; }
    /// <summary>Why, with the numbers.</summary>
    public required string Sentence { get; init; }
    /// <summary>What to do instead, where it cannot be told or is not decided; null otherwise.</summary>
    public string? Instead { get; init; }
    /// <summary>What an intact part would have read here; null where it is not known.</summary>
    public Interval? Intact { get; init; }
    /// <summary>True values that the reading allows.</summary>
    public Interval? True { get; init; }
    /// <summary>How far the meter may be off, in the reading's unit.</summary>
    public required double Uncertainty { get; init; }
    /// <summary>Probability that the part is within its limits, from the meter's error alone; null where paths decide.</summary>
    public double? Probability { get; init; }
}

/// <summary>How a part is best measured.</summary>
/// <param name="Kind">What to measure.</param>
/// <param name="InPlace">True where it can be told without lifting a lead.</param>
/// <param name="LiftPart">The part of which a lead is best lifted; null in place.</param>
/// <param name="LiftLug">The lug at which it is lifted.</param>
/// <param name="Intact">What an intact part reads: in place, or lifted its own limits.</param>
/// <param name="WaitSeconds">How long until the reading stands, s.</param>
/// <param name="Polarity">Which lead takes the meter's +, as a sentence; null where it does not matter.</param>
/// <param name="Sentence">All of it in words.</param>
public sealed record HowToMeasure(ReadingKind Kind, bool InPlace, string? LiftPart, string? LiftLug, Interval? Intact, double WaitSeconds, string? Polarity, string Sentence);

/// <summary>What a bad part here would do.</summary>
/// <param name="Score">Higher is worse: 3 and more can destroy what is not made any more.</param>
/// <param name="Sentence">In words with figures; null when nothing suffers.</param>
public sealed record Stake(double Score, string? Sentence);

/// <summary>A part and everything that is known for and against it.</summary>
public sealed record PartVerdict
{
    /// <summary>The part.</summary>
    public required string Position { get; init; }
    /// <summary>Does it stay?</summary>
    public required Decision Decision { get; init; }
    /// <summary>Why, in a sentence.</summary>
    public required string Reason { get; init; }
    /// <summary>The user decided.</summary>
    public bool ByUser { get; init; }
    /// <summary>Its readings, newest first, judged.</summary>
    public required ImmutableArray<Judgement> Judgements { get; init; }
    /// <summary>What should still be measured; null when nothing is needed.</summary>
    public HowToMeasure? Next { get; init; }
    /// <summary>What a bad part here would destroy.</summary>
    public required Stake Stake { get; init; }
    /// <summary>What this position bears, in words; null where it is not solved.</summary>
    public string? Bears { get; init; }
}

/// <summary>Volts at a lug, judged against the sheet.</summary>
/// <param name="Lug">The lug, as the reading names it.</param>
/// <param name="What">Valve's electrode or supply in words; null where the sheet has no line there.</param>
/// <param name="Judgements">Its readings, newest first.</param>
/// <param name="Passed">Limits that the valve there, or a part on that node, passes in the set as solved, as sentences.</param>
public sealed record VoltsVerdict(string Lug, string? What, ImmutableArray<Judgement> Judgements, ImmutableArray<string> Passed);

/// <summary>One step of the measuring round.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Position">The part.</param>
/// <param name="How">How to measure it.</param>
/// <param name="LugA">Where the probes go.</param>
/// <param name="LugB">And the other.</param>
/// <param name="ChangesMeter">The meter's function changes with this step.</param>
public sealed record RoundStep(int Number, string Position, HowToMeasure How, string? LugA, string? LugB, bool ChangesMeter);

/// <summary>Everything judged.</summary>
public sealed record JudgeResult
{
    /// <summary>Parts, in the order of the book.</summary>
    public required ImmutableArray<PartVerdict> Parts { get; init; }
    /// <summary>Volts, lug by lug, in the order in which they were first read.</summary>
    public ImmutableArray<VoltsVerdict> Volts { get; init; } = [];
    /// <summary>Readings that belong to no part, or make no sense, as sentences.</summary>
    public required ImmutableArray<string> Remarks { get; init; }
    /// <summary>What to measure, in an order of few probe moves and meter changes; what protects the set first.</summary>
    public required ImmutableArray<RoundStep> Round { get; init; }
    /// <summary>The policy in words.</summary>
    public required string Policy { get; init; }
    /// <summary>Why nothing could be told of parts where they sit; null when it could.</summary>
    public string? Unsolved { get; init; }

    /// <summary>A part's verdict, or null.</summary>
    public PartVerdict? Of(string position) => Parts.FirstOrDefault(p => string.Equals(p.Position, position, StringComparison.OrdinalIgnoreCase));
}

using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Judge;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Slips;

/// <summary>What a slip would make of a reading.</summary>
/// <param name="Slip">The slip.</param>
/// <param name="Shown">What the meter may then show, in the reading's unit: one stretch of figures or several; infinite at the top is "over".</param>
/// <param name="Sentence">The same in words: "next to nothing, 416 pF at most, or over 2 mF".</param>
/// <param name="Exposed">Can no healthy chassis show any of that?</param>
public sealed record SlipShown(Slip Slip, ImmutableArray<Interval> Shown, string Sentence, bool Exposed);

/// <summary>One reading of an after-check.</summary>
public sealed record CheckReading
{
    /// <summary>From 1.</summary>
    public required int Number { get; init; }
    /// <summary>Ohms or capacitance.</summary>
    public required ReadingKind Kind { get; init; }
    /// <summary>Lug of the red lead.</summary>
    public required string From { get; init; }
    /// <summary>Lug of the black lead.</summary>
    public required string To { get; init; }
    /// <summary>The meter's name.</summary>
    public required string Meter { get; init; }
    /// <summary>What the meter may show on a chassis that is as it should be at this moment, its own error included; infinite at the top is "over".</summary>
    public required Interval Expected { get; init; }
    /// <summary>About what it shows with every part at its nominal value; infinite for "over".</summary>
    public required double About { get; init; }
    /// <summary>Until it stands, s; 0 for at once, infinite where it creeps upwards for as long as one looks.</summary>
    public double Seconds { get; init; }
    /// <summary>In words: where the leads go and what is expected.</summary>
    public required string Sentence { get; init; }
    /// <summary>How long to wait and which way round, where it matters; null where it does not.</summary>
    public string? Hint { get; init; }
    /// <summary>What every slip would make of it.</summary>
    public required ImmutableArray<SlipShown> Slips { get; init; }
}

/// <summary>A slip and how far the check tells it.</summary>
/// <param name="Slip">The slip.</param>
/// <param name="Exposed">Does a reading of the check expose it?</param>
/// <param name="AlikeWith">Exposed slips that give readings which this one may give too: only the eye tells them apart.</param>
public sealed record SlipTold(Slip Slip, bool Exposed, ImmutableArray<string> AlikeWith)
{
    /// <summary>Exposed, and no other slip could have given the same readings.</summary>
    public bool ToldApart => Exposed && AlikeWith.IsEmpty;
}

/// <summary>What to read right after a position is soldered, and what that tells.</summary>
public sealed record AfterCheck
{
    /// <summary>The position.</summary>
    public required string Position { get; init; }
    /// <summary>The readings, the one that exposes most first; empty when no reading exposes anything.</summary>
    public required ImmutableArray<CheckReading> Readings { get; init; }
    /// <summary>Every slip that can happen here.</summary>
    public required ImmutableArray<SlipTold> Slips { get; init; }
    /// <summary>What only the eye sees, each as an imperative.</summary>
    public required ImmutableArray<string> LookAt { get; init; }
    /// <summary>Why it is these readings, and that no fewer do.</summary>
    public required string Why { get; init; }
    /// <summary>Is it proven that no fewer readings expose as many slips?</summary>
    public required bool IsProven { get; init; }
    /// <summary>Why there is no check; null when there is one.</summary>
    public string? Reason { get; init; }
    /// <summary>Positions taken as exchanged at that moment.</summary>
    public ImmutableArray<string> Exchanged { get; init; } = [];
    /// <summary>Dangers of taking the readings.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }
    /// <summary>How many slips the readings from single lugs to common show together, all of them taken, ohms only.</summary>
    public int ShownByOhmsToCommon { get; init; }
    /// <summary>How many the best single reading shows.</summary>
    public int ShownBySingleBest { get; init; }
}

/// <summary>What readings say after soldering.</summary>
public enum CheckVerdict
{
    /// <summary>Nothing is entered yet.</summary>
    Open,
    /// <summary>All that was entered is as expected.</summary>
    AsExpected,
    /// <summary>Not as expected, and a slip explains it.</summary>
    LooksLike,
    /// <summary>Not as expected, and no single slip explains it.</summary>
    Neither,
}

/// <summary>The readings of a check, judged together.</summary>
public sealed record CheckOutcome
{
    /// <summary>The verdict.</summary>
    public required CheckVerdict Verdict { get; init; }
    /// <summary>Slips that agree with all that was entered; empty unless something is not as expected.</summary>
    public required ImmutableArray<Slip> Suspects { get; init; }
    /// <summary>Numbers of the readings that are not as expected.</summary>
    public required ImmutableArray<int> Off { get; init; }
    /// <summary>Readings still to take.</summary>
    public required int Left { get; init; }
    /// <summary>In words.</summary>
    public required string Sentence { get; init; }
}

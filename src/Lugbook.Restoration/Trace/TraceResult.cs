using System.Collections.Immutable;
using Lugbook.Restoration.Choose;

namespace Lugbook.Restoration.Trace;

/// <summary>One reading beside what the set should show, in the reading's unit.</summary>
/// <param name="Place">Where.</param>
/// <param name="Value">What the meter showed.</param>
/// <param name="IsOver">It showed "over".</param>
/// <param name="Healthy">What a healthy set shows.</param>
/// <param name="HealthyLow">95 of 100 healthy sets show more.</param>
/// <param name="HealthyHigh">And less than this.</param>
/// <param name="Mistyped">Probability that it was mistyped or taken elsewhere, 0 to 1.</param>
public sealed record TraceReading(ProbePlace Place, double Value, bool IsOver, double Healthy, double HealthyLow, double HealthyHigh, double Mistyped);

/// <summary>A reading as one suspect explains it.</summary>
/// <param name="Place">Where.</param>
/// <param name="Value">What the meter showed.</param>
/// <param name="Expected">What it should show with this fault.</param>
/// <param name="Low">95 of 100 such sets show more.</param>
/// <param name="High">And less than this.</param>
/// <param name="Speaks">How much more (or, below 0, less) likely this reading alone is with the fault than in a healthy set, as a natural logarithm.</param>
public sealed record Evidence(ProbePlace Place, double Value, double Expected, double Low, double High, double Speaks);

/// <summary>One explanation, with what speaks for it.</summary>
public sealed record Suspect
{
    /// <summary>Stable word for programs.</summary>
    public required string Id { get; init; }
    /// <summary>Which sort.</summary>
    public required FaultKind Kind { get; init; }
    /// <summary>The part or valve; empty for none.</summary>
    public required string Position { get; init; }
    /// <summary>In words.</summary>
    public required string Words { get; init; }
    /// <summary>Its most probable size in words; empty where it has none.</summary>
    public required string Size { get; init; }
    /// <summary>Probability, 0 to 1.</summary>
    public required double Probability { get; init; }
    /// <summary>Number of the group that no reading at the bench divides, from 1.</summary>
    public required int Group { get; init; }
    /// <summary>What settles it.</summary>
    public required string Act { get; init; }
    /// <summary>Why it is thought of at all.</summary>
    public required string Why { get; init; }
    /// <summary>Every reading as it explains it.</summary>
    public required ImmutableArray<Evidence> Evidence { get; init; }
    /// <summary>What would change its mind, in a sentence.</summary>
    public required string MindChanger { get; init; }
}

/// <summary>A reading proposed.</summary>
/// <param name="Place">Where.</param>
/// <param name="Part">The part across which it is; null for a lug to common.</param>
/// <param name="Meter">With which meter.</param>
/// <param name="Bits">Information that it brings on average, bits.</param>
/// <param name="Cost">Effort and danger beside ohms with the plug out.</param>
/// <param name="Healthy">What a healthy set shows.</param>
/// <param name="Each">What it would show under the leading suspects.</param>
/// <param name="Sentence">In words.</param>
public sealed record Proposal(ProbePlace Place, string? Part, string Meter, double Bits, double Cost, double Healthy, ImmutableArray<(string Suspect, double Shows)> Each, string Sentence);

/// <summary>How far the search is.</summary>
public enum TraceVerdict
{
    /// <summary>Nothing can be said: no network.</summary>
    Unsolved,
    /// <summary>More readings are needed.</summary>
    Open,
    /// <summary>One suspect, or one group that no reading divides, passes the confidence asked for.</summary>
    Found,
    /// <summary>The readings are those of a healthy set.</summary>
    Healthy,
    /// <summary>Nothing in the list explains the readings.</summary>
    Strange,
    /// <summary>No reading at the bench would tell more: something must be lifted or exchanged.</summary>
    Exhausted,
}

/// <summary>What is still wrong?</summary>
public sealed record TraceResult
{
    /// <summary>Why there is no answer; null when there is one.</summary>
    public string? Reason { get; init; }
    /// <summary>How far the search is.</summary>
    public required TraceVerdict Verdict { get; init; }
    /// <summary>The verdict in a sentence or two.</summary>
    public required string Sentence { get; init; }
    /// <summary>Probability that nothing is wrong.</summary>
    public required double Healthy { get; init; }
    /// <summary>Probability of something that is not modelled.</summary>
    public required double NotModelled { get; init; }
    /// <summary>Suspects, most probable first; those below a thousandth are left out.</summary>
    public required ImmutableArray<Suspect> Suspects { get; init; }
    /// <summary>Readings as entered, beside the healthy set.</summary>
    public required ImmutableArray<TraceReading> Readings { get; init; }
    /// <summary>What to read next, best first.</summary>
    public required ImmutableArray<Proposal> Next { get; init; }
    /// <summary>What must be minded.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }
    /// <summary>What the answer rests on.</summary>
    public required ImmutableArray<string> Remarks { get; init; }
    /// <summary>Readings that the search cannot use, with the reason.</summary>
    public ImmutableArray<string> Unused { get; init; } = [];
}

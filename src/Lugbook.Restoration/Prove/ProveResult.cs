using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Slips;

namespace Lugbook.Restoration.Prove;

/// <summary>What a dangerous short would do.</summary>
public enum ShortKind
{
    /// <summary>A supply, or the winding that feeds it, on common or chassis.</summary>
    Supply,
    /// <summary>A heater winding or string on common, chassis or a supply, or shorted itself.</summary>
    Heater,
    /// <summary>The line on chassis, common or earth.</summary>
    LineToMetal,
    /// <summary>The two sides of the line on each other.</summary>
    AcrossLine,
    /// <summary>Common on a chassis that is another node.</summary>
    CommonToChassis,
}

/// <summary>A dangerous short and how far the readings tell it.</summary>
/// <param name="Slip">The short, as a change of the network: 0 to 10 Ω between two nodes.</param>
/// <param name="Kind">Which.</param>
/// <param name="By">Numbers of the readings that tell it; empty when none can.</param>
/// <param name="WhyNot">Why no reading can tell it; null when one does.</param>
public sealed record ShortTold(Slip Slip, ShortKind Kind, ImmutableArray<int> By, string? WhyNot)
{
    /// <summary>Does a reading tell it?</summary>
    public bool IsTold => !By.IsEmpty;
}

/// <summary>Leads to look at beside one lug, because no reading tells.</summary>
/// <param name="Lug">The lug.</param>
/// <param name="LookAt">What to look at, each an imperative.</param>
public sealed record LugLook(string Lug, ImmutableArray<string> LookAt);

/// <summary>Something to be looked at before power, with what was computed of it.</summary>
/// <param name="Place">Part or lug.</param>
/// <param name="LookAt">What to look at.</param>
/// <param name="Evidence">What the solved set says of it, with figures.</param>
/// <param name="IsWrong">Does the book itself contradict the solved set here?</param>
public sealed record ProofLook(string Place, string LookAt, string Evidence, bool IsWrong);

/// <summary>How many slips a set of readings shows, and whether fewer would do.</summary>
/// <param name="Seen">Slips that it shows.</param>
/// <param name="All">Slips there are.</param>
/// <param name="Candidates">Readings it was chosen from.</param>
/// <param name="LeastFurther">No set of fewer further readings shows as many.</param>
/// <param name="IsProven">Is the number found also the least?</param>
public sealed record ProofCover(int Seen, int All, int Candidates, int LeastFurther, bool IsProven);

/// <summary>The cold proof: what to read and look at before power.</summary>
public sealed record ProveResult
{
    /// <summary>Why there is none; null when there is.</summary>
    public string? Reason { get; init; }
    /// <summary>First the readings for the dangerous shorts, then those for the slips.</summary>
    public required ImmutableArray<CheckReading> Readings { get; init; }
    /// <summary>How many of the readings are for the shorts.</summary>
    public required int ShortReadings { get; init; }
    /// <summary>Every dangerous short, told or not.</summary>
    public required ImmutableArray<ShortTold> Shorts { get; init; }
    /// <summary>Why it is these readings for the shorts, and that no fewer do.</summary>
    public required string WhyShorts { get; init; }
    /// <summary>Why it is these further readings, with proof or bound and the restriction under which it holds.</summary>
    public required string WhySlips { get; init; }
    /// <summary>The cover of the slips.</summary>
    public required ProofCover Cover { get; init; }
    /// <summary>Slips that stay unseen, by lug.</summary>
    public required ImmutableArray<LugLook> Unseen { get; init; }
    /// <summary>Polarity, speaker, lamps, common and chassis.</summary>
    public required ImmutableArray<ProofLook> Looks { get; init; }
    /// <summary>Positions that the proof is about; empty: the whole book, because nothing is exchanged or planned.</summary>
    public required ImmutableArray<string> Touched { get; init; }
    /// <summary>Dangers of taking the readings, and of what comes after.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }
}

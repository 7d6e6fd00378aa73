using System.Collections.Immutable;

namespace Lugbook.Restoration.Fit;

/// <summary>How the new body is mounted.</summary>
public enum Mounting
{
    /// <summary>Distance or body is not known.</summary>
    Unknown,
    /// <summary>On the line between its lugs.</summary>
    Between,
    /// <summary>Beside that line: the leads leave the body, turn and come back to their lugs.</summary>
    DogLeg,
    /// <summary>On end over one lug: one lead is short, the other comes back down along the body.</summary>
    Standing,
    /// <summary>Both leads leave on one side: a disc or a box.</summary>
    Upright,
}

/// <summary>How one new lead is formed.</summary>
public sealed record LeadPlan
{
    /// <summary>'a', 'b' or 'c'.</summary>
    public required char Letter { get; init; }
    /// <summary>The lug.</summary>
    public required string Lug { get; init; }
    /// <summary>1: soldered first.</summary>
    public required int Turn { get; init; }
    /// <summary>Sleeve over it, mm; 0: none is needed; null: hold it against the lugs.</summary>
    public double? SleeveMm { get; init; }
    /// <summary>Why it is sleeved, or why not, as a sentence.</summary>
    public required string SleeveWhy { get; init; }
    /// <summary>From the body to the lug along the lead, mm; null when not known.</summary>
    public double? LengthMm { get; init; }
    /// <summary>Round the lug, or round the old tail, mm.</summary>
    public required double WrapMm { get; init; }
    /// <summary>Where it is cut: from the body, mm; null when not known.</summary>
    public double? CutMm { get; init; }
    /// <summary>Bends, each by its distance from the body along the lead, mm.</summary>
    public ImmutableArray<double> BendsMm { get; init; } = [];
}

/// <summary>How a new part is formed and mounted.</summary>
public sealed record PartPlan
{
    /// <summary>How its body stands or lies.</summary>
    public required Mounting Mounting { get; init; }
    /// <summary>That in a sentence, with the figures.</summary>
    public required string Sentence { get; init; }
    /// <summary>Length of the new body, mm, by its series and value; null when not known.</summary>
    public double? BodyMm { get; init; }
    /// <summary>Diameter of its leads, mm.</summary>
    public double? LeadDiameterMm { get; init; }
    /// <summary>Its leads by letter.</summary>
    public ImmutableArray<LeadPlan> Leads { get; init; } = [];
    /// <summary>Which lead is soldered first, and why.</summary>
    public required string First { get; init; }
    /// <summary>Where the end goes that the maker marks as outer foil, and why; null when it does not matter or is not known.</summary>
    public string? MarkedEnd { get; init; }
}

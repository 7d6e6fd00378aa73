using System.Collections.Immutable;

namespace Lugbook.Restoration.Compare;

/// <summary>How chassis and sheet differ at one reference.</summary>
public enum DifferenceKind
{
    /// <summary>On the sheet, not on the chassis.</summary>
    Missing,
    /// <summary>On the chassis, not on the sheet.</summary>
    Extra,
    /// <summary>The value is outside the tolerance.</summary>
    Value,
    /// <summary>The values differ by a thousand because M means thousand on one side and million on the other.</summary>
    MegHabit,
    /// <summary>Another nominal value inside the tolerance, such as .022 for .02.</summary>
    NearValue,
    /// <summary>The chassis part bears less voltage or power than the sheet asks.</summary>
    LowerRating,
    /// <summary>Another kind of part.</summary>
    Kind,
    /// <summary>Another valve type.</summary>
    Type,
}

/// <summary>One difference between sheet and chassis.</summary>
/// <param name="Name">Reference.</param>
/// <param name="Kind">What differs.</param>
/// <param name="Sheet">What the sheet says; null for an extra part.</param>
/// <param name="Chassis">What is on the chassis; null for a missing part.</param>
/// <param name="Sentence">Both in one plain sentence.</param>
/// <param name="Remedy">What to look at.</param>
public sealed record Difference(string Name, DifferenceKind Kind, string? Sheet, string? Chassis, string Sentence, string Remedy);

/// <summary>A part that somebody has probably fitted later.</summary>
/// <param name="Name">Reference.</param>
/// <param name="Reasons">Why it looks so, each a sentence; at least one.</param>
public sealed record LikelyRepair(string Name, ImmutableArray<string> Reasons);

/// <summary>The chassis held against the service sheet.</summary>
public sealed record CompareResult
{
    /// <summary>Differences, by reference.</summary>
    public required ImmutableArray<Difference> Differences { get; init; }
    /// <summary>Likely former repairs, by reference; found from the chassis even when no sheet is entered.</summary>
    public required ImmutableArray<LikelyRepair> Repairs { get; init; }
    /// <summary>How many sheet parts were held against a chassis part.</summary>
    public required int Compared { get; init; }
}

using System.Collections.Immutable;

namespace Lugbook.Restoration.Choose;

/// <summary>How several parts make one.</summary>
public enum Joining
{
    /// <summary>One part.</summary>
    Alone,
    /// <summary>One after the other.</summary>
    Series,
    /// <summary>Side by side.</summary>
    Parallel,
}

/// <summary>A resistor across each of a series pair, that makes them share the voltage.</summary>
/// <param name="Ohms">Largest that still does, from a series of preferred values, Ω.</param>
/// <param name="Watts">Least rating: twice what it turns to heat, W.</param>
/// <param name="Sentence">Why, with the numbers.</param>
public sealed record Balancer(double Ohms, double Watts, string Sentence);

/// <summary>One way to fill a position: a part, or two that make one.</summary>
public sealed record Candidate
{
    /// <summary>The parts: one, or two of a combination.</summary>
    public required ImmutableArray<ChosenPart> Parts { get; init; }
    /// <summary>How they are joined.</summary>
    public Joining Joining { get; init; }
    /// <summary>In words: "22 nF 630 V film", "2 × 47 nF 630 V film in parallel".</summary>
    public required string Text { get; init; }
    /// <summary>Nominal value of the whole, in the position's unit.</summary>
    public required double Value { get; init; }
    /// <summary>How far the whole may be off, percent; both parts at the same end.</summary>
    public double? TolerancePercent { get; init; }
    /// <summary>How volts or watts are shared, with the numbers; null for a single part.</summary>
    public string? Sharing { get; init; }
    /// <summary>Across each of a series pair; null when none is needed.</summary>
    public Balancer? Balancer { get; init; }
    /// <summary>Why another was taken; null for the one that is.</summary>
    public string? WhyNot { get; init; }
    /// <summary>About how long the body is, mm, between the shortest and longest of its series by value; null when not known.</summary>
    public double? BodyMm { get; init; }
}

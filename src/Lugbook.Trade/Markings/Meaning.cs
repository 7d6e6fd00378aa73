using System.Collections.Immutable;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Markings;

/// <summary>What a marking is read from, as far as that helps to rank its meanings. All may be left out.</summary>
/// <remarks>Nothing here excludes a meaning; it only moves it up or down.</remarks>
public sealed record MarkingContext
{
    /// <summary>Nothing known.</summary>
    public static MarkingContext None { get; } = new();
    /// <summary>What kind of part carries the marking.</summary>
    public Parts.PartKind? Kind { get; init; }
    /// <summary>What M means on this set's sheet.</summary>
    public MegHabit MegHabit { get; init; }
    /// <summary>The other markings of the set, as written: a sheet that writes MEG uses M for thousand.</summary>
    public ImmutableArray<string> OtherMarkings { get; init; } = [];
    /// <summary>About which year the set was made.</summary>
    public int? Year { get; init; }
    /// <summary>The value that the position or a meter suggests, in the unit's base; null when nothing does.</summary>
    public double? ExpectedValue { get; init; }
    /// <summary>A colour code to insist on, by its name in data/reference/colour-codes.csv ("mica-rma-6"); null to try all that fit.</summary>
    public string? ColourCode { get; init; }
}

/// <summary>What the body says of the safety class of a capacitor (IEC 60384-14).</summary>
public enum SafetyClass
{
    /// <summary>No class marked.</summary>
    None,
    /// <summary>X1.</summary>
    X1,
    /// <summary>X2.</summary>
    X2,
    /// <summary>Y1.</summary>
    Y1,
    /// <summary>Y2.</summary>
    Y2,
}

/// <summary>One section of a part: most parts have one, a can has up to four.</summary>
/// <param name="Value">Nominal value in the meaning's unit.</param>
/// <param name="RatedVolts">Its own rated voltage, V; null when not marked.</param>
public readonly record struct Section(double Value, double? RatedVolts);

/// <summary>One valid meaning of a marking, with its reason and its share of belief among the meanings offered.</summary>
public sealed record Meaning
{
    /// <summary>Ohm, farad or henry.</summary>
    public required Unit Unit { get; init; }
    /// <summary>One section or more, in the order in which they are marked.</summary>
    public required ImmutableArray<Section> Sections { get; init; }
    /// <summary>Tolerance, when marked or implied by the code ("no fourth band is ±20 %").</summary>
    public Tolerance? Tolerance { get; init; }
    /// <summary>Rated watts, when marked.</summary>
    public double? RatedWatts { get; init; }
    /// <summary>True when the rated volts are AC volts rms.</summary>
    public bool VoltsAreAc { get; init; }
    /// <summary>Safety class, when marked.</summary>
    public SafetyClass SafetyClass { get; init; }
    /// <summary>Temperature coefficient, parts in 10⁶ per kelvin, when marked.</summary>
    public double? TempcoPpm { get; init; }
    /// <summary>Dielectric or class code, when marked: "X7R", "C".</summary>
    public string? Dielectric { get; init; }
    /// <summary>Which code or habit this reads by: "resistor, four bands", "three-digit code", "M as thousand".</summary>
    public required string Code { get; init; }
    /// <summary>Why it ranks where it does, as a sentence.</summary>
    public required string Reason { get; init; }
    /// <summary>Share of belief among the meanings offered; above 0, all add up to 1. Judgement, not measurement.</summary>
    public required double Share { get; init; }
    /// <summary>Doubts to show: "test volts are not a rating", "code not certain: measure it".</summary>
    public ImmutableArray<string> Doubts { get; init; } = [];

    /// <summary>Value of the first section.</summary>
    public double Value => Sections[0].Value;
    /// <summary>Rated volts of the first section.</summary>
    public double? RatedVolts => Sections[0].RatedVolts;
}

/// <summary>All valid meanings of a marking, likeliest first; or, when there is none, the complaint.</summary>
/// <param name="Meanings">Likeliest first; empty exactly when <paramref name="Complaint"/> is not null.</param>
/// <param name="Complaint">What is wrong, where, and what to do.</param>
public sealed record MarkingResult(ImmutableArray<Meaning> Meanings, Complaint? Complaint)
{
    /// <summary>The likeliest meaning, or null.</summary>
    public Meaning? Best => Meanings.IsEmpty ? null : Meanings[0];
    /// <summary>True when one meaning alone is valid.</summary>
    public bool IsCertain => Meanings.Length == 1;
}

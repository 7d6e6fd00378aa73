using System.Text.Json.Serialization;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Readings;

/// <summary>What a reading is of.</summary>
public enum ReadingKind
{
    /// <summary>Resistance of a part, or of a winding; Ω.</summary>
    Ohms,
    /// <summary>Capacitance; F.</summary>
    Farads,
    /// <summary>Insulation resistance of a capacitor at a test voltage; Ω.</summary>
    Insulation,
    /// <summary>Leakage current at a test voltage; A.</summary>
    Leakage,
    /// <summary>Equivalent series resistance; Ω.</summary>
    SeriesOhms,
    /// <summary>Dissipation factor, a plain number.</summary>
    Dissipation,
    /// <summary>Volts to common, set running; V.</summary>
    Volts,
}

/// <summary>One measured number with its conditions. <see cref="Row.Name"/> is the part, or for volts the lug.</summary>
public sealed record Reading : Row
{
    /// <summary>What it is of.</summary>
    public required ReadingKind Kind { get; init; }
    /// <summary>The number, in the base unit of its kind; with <see cref="IsOver"/> the top of the range, or 0 for the top of whatever meter it was.</summary>
    public required double Value { get; init; }
    /// <summary>The meter showed "over": the truth is above <see cref="Value"/>.</summary>
    public bool IsOver { get; init; }
    /// <summary>A lead was lifted, or the part is out; else it was read where it sits.</summary>
    public bool IsLifted { get; init; }
    /// <summary>Another part whose lead was lifted so that this one could be told; null when none was. Then <see cref="IsLifted"/> is false: the part itself sat in place.</summary>
    public string? LiftedPart { get; init; }
    /// <summary>The meter's + was on lead b.</summary>
    public bool IsReversed { get; init; }
    /// <summary>Lug of the red lead, for a reading between two lugs right after <see cref="Row.Name"/> was soldered; null for one of the part itself.</summary>
    public string? FromLug { get; init; }
    /// <summary>Lug of the black lead; null as with <see cref="FromLug"/>.</summary>
    public string? ToLug { get; init; }
    /// <summary>The meter's name; null: the one of the book.</summary>
    public string? Meter { get; init; }
    /// <summary>Volts of the test, for insulation and leakage.</summary>
    public double? TestVolts { get; init; }
    /// <summary>When it was taken; null when not noted.</summary>
    public DateTimeOffset? At { get; init; }
    /// <summary>Anything else.</summary>
    public string? Note { get; init; }

    /// <summary>Is it of two lugs, and not of the part alone?</summary>
    [JsonIgnore]
    public bool IsBetweenLugs => FromLug is not null && ToLug is not null;

    /// <summary>Unit of the value; null for a dissipation factor.</summary>
    [JsonIgnore]
    public Unit? Unit => UnitOf(Kind);

    /// <summary>Unit of a kind of reading; null for a plain number.</summary>
    public static Unit? UnitOf(ReadingKind kind) => kind switch
    {
        ReadingKind.Ohms or ReadingKind.Insulation or ReadingKind.SeriesOhms => Quantities.Unit.Ohm,
        ReadingKind.Farads => Quantities.Unit.Farad,
        ReadingKind.Leakage => Quantities.Unit.Ampere,
        ReadingKind.Volts => Quantities.Unit.Volt,
        _ => null,
    };
}

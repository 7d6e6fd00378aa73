using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Sheets;

/// <summary>A voltage to be taken as given: the sheet's figure for a part of the set that is not entered, or a bias that only oscillation makes.</summary>
/// <remarks><see cref="Row.Name"/> is the lug.</remarks>
public sealed record DeclaredVoltage : Row
{
    /// <summary>Volts to common, DC.</summary>
    public required double Volts { get; init; }
    /// <summary>Why it is given.</summary>
    public string? Why { get; init; }
}

/// <summary>One line of the service sheet's chart. <see cref="Row.Name"/> is "V3-8" or "V13-cap".</summary>
public sealed record SheetReading : Row
{
    /// <summary>Valve, as the chart names it.</summary>
    public required string Valve { get; init; }
    /// <summary>Pin number, or "cap".</summary>
    public required string Pin { get; init; }
    /// <summary>Volts, or null where the chart has none.</summary>
    public double? Volts { get; init; }
    /// <summary>True for an AC reading.</summary>
    public bool IsAc { get; init; }
    /// <summary>Ohms to common; infinity where the chart says so; null where it has none.</summary>
    public double? Ohms { get; init; }
    /// <summary>Anything else.</summary>
    public string? Note { get; init; }
}

/// <summary>One line of the service sheet's parts list, to hold against the chassis.</summary>
public sealed record SheetPart : Row
{
    /// <summary>The kind as written.</summary>
    public required string KindAsWritten { get; init; }
    /// <summary>The value as printed.</summary>
    public string? Marked { get; init; }
    /// <summary>Value in <see cref="Unit"/>.</summary>
    public double? Value { get; init; }
    /// <summary>Unit of the value.</summary>
    public Unit? Unit { get; init; }
    /// <summary>Rated voltage, V.</summary>
    public double? RatedVolts { get; init; }
    /// <summary>Rated power, W.</summary>
    public double? RatedWatts { get; init; }
    /// <summary>Tolerance.</summary>
    public Tolerance? Tolerance { get; init; }
    /// <summary>Anything else.</summary>
    public string? Note { get; init; }
}

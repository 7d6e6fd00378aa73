using System.Collections.Immutable;
using Lugbook.Trade.Meters;

namespace Lugbook.Restoration.Sheet;

/// <summary>How the prediction and the service sheet's figure go together.</summary>
public enum Agreement
{
    /// <summary>The chart has no figure here, or none can be predicted.</summary>
    None,
    /// <summary>The chart's figure lies within the spread of healthy sets.</summary>
    Agrees,
    /// <summary>It lies outside, but by less than a tenth of itself: charts are printed in round figures.</summary>
    Near,
    /// <summary>It lies further off: the chart, the book or the set's data are wrong, or something is not modelled.</summary>
    Differs,
}

/// <summary>What a meter does to a reading.</summary>
/// <param name="Shown">What it shows, V.</param>
/// <param name="Range">The range it is read on, V.</param>
/// <param name="Uncertainty">How far the meter itself may be off, V.</param>
public sealed record MeterReading(double Shown, double Range, double Uncertainty);

/// <summary>One line of the sheet: a valve's pin or a supply node.</summary>
public sealed record SheetLine
{
    /// <summary>The lug.</summary>
    public required string Lug { get; init; }
    /// <summary>The map's node.</summary>
    public required int Node { get; init; }
    /// <summary>Valve and its electrode in words, or what the supply node is.</summary>
    public required string What { get; init; }
    /// <summary>The valve; null for a supply node.</summary>
    public string? Valve { get; init; }
    /// <summary>Alternating volts: a heater or a winding.</summary>
    public bool IsAc { get; init; }
    /// <summary>Volts to common with no meter on it: direct, or rms.</summary>
    public double? Volts { get; init; }
    /// <summary>95 of 100 healthy sets lie above this, V.</summary>
    public double? Low { get; init; }
    /// <summary>And below this.</summary>
    public double? High { get; init; }
    /// <summary>Hum on it: rms of what alternates, V; null where nothing was followed.</summary>
    public double? RippleRms { get; init; }
    /// <summary>What the meter at the bench shows of the nominal set.</summary>
    public MeterReading? Meter { get; init; }
    /// <summary>The same spread as this meter shows it.</summary>
    public (double Low, double High)? MeterSpread { get; init; }
    /// <summary>The chart's volts.</summary>
    public double? ChartVolts { get; init; }
    /// <summary>What the chart's meter, at the chart's line, should have shown.</summary>
    public double? ChartExpected { get; init; }
    /// <summary>Do they agree?</summary>
    public Agreement VoltsAgreement { get; init; }
    /// <summary>What makes this reading impossible to predict, as a sentence; null when it can be.</summary>
    public string? Unpredictable { get; init; }
    /// <summary>A control that moves it, and how far: "R82: 20 to 150 V".</summary>
    public string? Setting { get; init; }
    /// <summary>Ohms to common, cold: with the meter's + on the lug; infinity without a path; null when not predicted.</summary>
    public double? Ohms { get; init; }
    /// <summary>With the leads exchanged, where that differs.</summary>
    public double? ReversedOhms { get; init; }
    /// <summary>Lowest of healthy sets, Ω.</summary>
    public double? OhmsLow { get; init; }
    /// <summary>Highest, Ω.</summary>
    public double? OhmsHigh { get; init; }
    /// <summary>How long until the reading stands, s.</summary>
    public double? SettlingSeconds { get; init; }
    /// <summary>The chart's ohms.</summary>
    public double? ChartOhms { get; init; }
    /// <summary>Do they agree?</summary>
    public Agreement OhmsAgreement { get; init; }
    /// <summary>The chart's own remark.</summary>
    public string? Note { get; init; }
}

/// <summary>The set's own voltage sheet.</summary>
public sealed record SheetResult
{
    /// <summary>Why there is none, in a sentence; null when there is one.</summary>
    public string? Reason { get; init; }
    /// <summary>Line voltage it is computed for, V.</summary>
    public required double LineVolts { get; init; }
    /// <summary>The meter at the bench.</summary>
    public required Meter Meter { get; init; }
    /// <summary>The chart's meter; null when the book has no chart.</summary>
    public Meter? ChartMeter { get; init; }
    /// <summary>Lines, valve by valve and pin by pin, then the supply.</summary>
    public required ImmutableArray<SheetLine> Lines { get; init; }
    /// <summary>What stands within every part, and its worst moment.</summary>
    public required ImmutableArray<PartStress> Parts { get; init; }
    /// <summary>What every valve's electrodes dissipate, against their limits.</summary>
    public required ImmutableArray<ValveStress> Valves { get; init; }
    /// <summary>The moments that were looked at.</summary>
    public required ImmutableArray<string> Moments { get; init; }
    /// <summary>What is not known, and what it takes away.</summary>
    public required ImmutableArray<string> Unknowns { get; init; }
    /// <summary>What the answer rests on.</summary>
    public required ImmutableArray<string> Remarks { get; init; }
}

/// <summary>A value at its normal and at its worst moment.</summary>
/// <param name="Normal">In a set as it should be, warm, at today's line.</param>
/// <param name="Worst">The worst of all moments.</param>
/// <param name="Moment">Which moment that is.</param>
public sealed record Stress(double Normal, double Worst, string Moment);

/// <summary>What a part bears.</summary>
/// <param name="Position">The part.</param>
/// <param name="Volts">Volts across it (peak, hum included); null where nothing is known.</param>
/// <param name="Watts">Watts in it; null for a capacitor.</param>
/// <param name="RippleAmperes">Ripple current rms, A, of a large capacitor.</param>
/// <param name="RatedVolts">Marked volts.</param>
/// <param name="RatedWatts">Marked watts.</param>
/// <param name="Over">What is passed, as a sentence; null when nothing is.</param>
public sealed record PartStress(string Position, Stress? Volts, Stress? Watts, double? RippleAmperes, double? RatedVolts, double? RatedWatts, string? Over);

/// <summary>What a valve bears.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Section">Section; empty when it has one only.</param>
/// <param name="Electrode">"plate", "screen", "cathode current", "plate volts", "screen volts" (both to cathode).</param>
/// <param name="Unit">"W", "A" or "V".</param>
/// <param name="Amount">Normal and worst.</param>
/// <param name="Limit">The handbook's limit; null when not known.</param>
/// <param name="Over">What is passed, as a sentence; null when nothing is.</param>
public sealed record ValveStress(string Valve, string Section, string Electrode, string Unit, Stress Amount, double? Limit, string? Over);

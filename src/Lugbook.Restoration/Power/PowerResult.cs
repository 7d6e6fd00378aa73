using System.Collections.Immutable;

namespace Lugbook.Restoration.Power;

/// <summary>A figure against its limit.</summary>
/// <param name="What">"peak plate current", …</param>
/// <param name="Unit">"A", "V", "Ω", "F".</param>
/// <param name="Amount">Computed.</param>
/// <param name="Limit">The handbook's; null when not known.</param>
/// <param name="IsLeast">True where the limit is the least that is asked for.</param>
public sealed record LimitCheck(string What, string Unit, double Amount, double? Limit, bool IsLeast = false)
{
    /// <summary>Is the limit passed? Null when it is not known.</summary>
    public bool? Passed => Limit is { } limit ? IsLeast ? Amount < limit * (1 - 1e-9) : Amount > limit * (1 + 1e-9) : null;
}

/// <summary>The first capacitor at some size.</summary>
/// <param name="Farads">Its capacitance, F.</param>
/// <param name="DirectVolts">Mean volts there.</param>
/// <param name="HumVolts">Peak to peak.</param>
/// <param name="PeakAmperes">Peak current of one plate, steady.</param>
public sealed record ReservoirSize(double Farads, double DirectVolts, double HumVolts, double PeakAmperes);

/// <summary>A rectifier in the solved set.</summary>
public sealed record RectifierReport
{
    /// <summary>Its part.</summary>
    public required string Position { get; init; }
    /// <summary>Type as marked.</summary>
    public string? Type { get; init; }
    /// <summary>True for a valve.</summary>
    public required bool IsValve { get; init; }
    /// <summary>Mean volts at its output.</summary>
    public required double OutputVolts { get; init; }
    /// <summary>Currents, inverse volts, source resistance, first capacitor, against the handbook, the line 10 % high.</summary>
    public required ImmutableArray<LimitCheck> Checks { get; init; }
    /// <summary>First peak when it is switched on again hot, the reservoir empty, A; null when the source resistance is not known.</summary>
    public double? HotSwitchAmperes { get; init; }
    /// <summary>Other sizes of the first capacitor, the present one first; empty when there is none.</summary>
    public ImmutableArray<ReservoirSize> Sizes { get; init; } = [];
    /// <summary>The largest that the valve bears, F; null when not known.</summary>
    public double? LargestFarads { get; init; }
    /// <summary>All of it in one sentence.</summary>
    public required string Sentence { get; init; }
}

/// <summary>Silicon in place of the rectifiers.</summary>
public sealed record SiliconSwap
{
    /// <summary>The rectifiers that go.</summary>
    public required ImmutableArray<string> Positions { get; init; }
    /// <summary>Volts at the first output as it is.</summary>
    public required double VoltsBefore { get; init; }
    /// <summary>With silicon and nothing else.</summary>
    public required double VoltsBare { get; init; }
    /// <summary>Resistor in series with each that brings the volts back, Ω, a preferred value; 0 when none is needed.</summary>
    public required double SeriesOhms { get; init; }
    /// <summary>With that resistor.</summary>
    public required double VoltsAfter { get; init; }
    /// <summary>Least rating of each resistor, W: twice what it turns to heat.</summary>
    public required double SeriesWatts { get; init; }
    /// <summary>Inverse peak on each diode, the line 10 % high, V.</summary>
    public required double InverseVolts { get; init; }
    /// <summary>Volts that stand at the first capacitor before any valve draws, the line 10 % high.</summary>
    public required double StartVolts { get; init; }
    /// <summary>Capacitors whose mark is below <see cref="StartVolts"/> on the same supply: "C3A 350 V".</summary>
    public required ImmutableArray<string> Under { get; init; }
    /// <summary>In sentences.</summary>
    public required ImmutableArray<string> Sentences { get; init; }
}

/// <summary>Today's line against the one the set was made for.</summary>
public sealed record LineMend
{
    /// <summary>The set's, V.</summary>
    public required double MadeForVolts { get; init; }
    /// <summary>Today's, V.</summary>
    public required double TodayVolts { get; init; }
    /// <summary>Current from the line, A rms.</summary>
    public required double LineAmperes { get; init; }
    /// <summary>Heater volts over their mark, as shares: 1.05 is 5 % over.</summary>
    public required ImmutableArray<(string Heater, double Share)> Heaters { get; init; }
    /// <summary>What passes a limit at today's line and not at the set's.</summary>
    public required ImmutableArray<string> Passes { get; init; }
    /// <summary>Resistor in the line, Ω, a preferred value; 0 when today's line is not higher.</summary>
    public required double DropperOhms { get; init; }
    /// <summary>Its least rating, W: twice what it turns to heat.</summary>
    public required double DropperWatts { get; init; }
    /// <summary>Volts at the first output: as made, today, today with the dropper.</summary>
    public required (double Made, double Today, double Dropped) OutputVolts { get; init; }
    /// <summary>Secondary of a bucking transformer, V; 0 when none is needed.</summary>
    public required double BuckingVolts { get; init; }
    /// <summary>Its least current, A rms.</summary>
    public required double BuckingAmperes { get; init; }
    /// <summary>In sentences.</summary>
    public required ImmutableArray<string> Sentences { get; init; }
}

/// <summary>The supply: what its rectifiers bear, silicon in their place, and today's line.</summary>
public sealed record PowerResult
{
    /// <summary>Why there is nothing, in a sentence; null when there is something.</summary>
    public string? Reason { get; init; }
    /// <summary>Rectifiers of the supply.</summary>
    public ImmutableArray<RectifierReport> Rectifiers { get; init; } = [];
    /// <summary>Silicon in their place; null when they are silicon already or none is there.</summary>
    public SiliconSwap? Silicon { get; init; }
    /// <summary>Today's line; null when it is not entered or not higher.</summary>
    public LineMend? Line { get; init; }
    /// <summary>Beside the work.</summary>
    public required ImmutableArray<string> Cautions { get; init; }
}

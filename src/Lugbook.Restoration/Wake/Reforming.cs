using System.Collections.Immutable;

namespace Lugbook.Restoration.Wake;

/// <summary>What there is to re-form with.</summary>
public sealed record ReformingWith
{
    /// <summary>The supply's direct volts; null: the volts at the capacitor's place in the circuit, at most its rating.</summary>
    public double? SupplyVolts { get; init; }
    /// <summary>Resistors at hand, Ω.</summary>
    public ImmutableArray<double> Ohms { get; init; } = [100e3, 150e3, 220e3, 270e3, 470e3];
    /// <summary>What such a resistor may turn to heat, W.</summary>
    public double ResistorWatts { get; init; } = 2;
    /// <summary>Months it lay without voltage.</summary>
    public double Months { get; init; } = 600;
}

/// <summary>A moment of re-forming.</summary>
/// <param name="Minutes">Since it was joined, min.</param>
/// <param name="CapacitorVolts">Expected across a sound one, V.</param>
/// <param name="ResistorVolts">Expected across the resistor, V: what is read.</param>
/// <param name="Amperes">Expected current, A.</param>
/// <param name="MostResistorVolts">One that shows more than this is slower than may pass in time, V.</param>
public sealed record ReformingMoment(double Minutes, double CapacitorVolts, double ResistorVolts, double Amperes, double MostResistorVolts);

/// <summary>How one electrolytic that stays is re-formed.</summary>
public sealed record Reforming
{
    /// <summary>The capacitor.</summary>
    public required string Position { get; init; }
    /// <summary>Why there is no plan, and what to do; null when there is.</summary>
    public string? Reason { get; init; }
    /// <summary>Capacitance, F.</summary>
    public double Farads { get; init; }
    /// <summary>Rated volts.</summary>
    public double RatedVolts { get; init; }
    /// <summary>Volts of the supply.</summary>
    public double SupplyVolts { get; init; }
    /// <summary>The resistor proposed, Ω.</summary>
    public double Ohms { get; init; }
    /// <summary>What the resistor turns to heat if the capacitor is a short, W.</summary>
    public double ShortWatts { get; init; }
    /// <summary>The most that can become heat in the capacitor, at half of the volts, W.</summary>
    public double MostCapacitorWatts { get; init; }
    /// <summary>Passes at or below these volts across the resistor.</summary>
    public double PassVolts { get; init; }
    /// <summary>The current then, A.</summary>
    public double PassAmperes { get; init; }
    /// <summary>Not passed by then: give up, min.</summary>
    public double GiveUpMinutes { get; init; }
    /// <summary>Through the same resistor, from the supply's volts below 5 V, s.</summary>
    public double DischargeSeconds { get; init; }
    /// <summary>Against time.</summary>
    public ImmutableArray<ReformingMoment> Course { get; init; } = [];
    /// <summary>What to mind: a resistor that does not suit, cautions.</summary>
    public ImmutableArray<string> Cautions { get; init; } = [];
}

/// <summary>What a reading says.</summary>
public enum ReformingVerdict
{
    /// <summary>As a sound one: go on.</summary>
    GoOn,
    /// <summary>Slower than may pass in time: watch it.</summary>
    Slow,
    /// <summary>The leakage is as low as it must be.</summary>
    Passes,
    /// <summary>Switch off.</summary>
    Stop,
    /// <summary>Time is up: it goes.</summary>
    GiveUp,
}

/// <summary>A reading judged.</summary>
/// <param name="Minutes">When, min.</param>
/// <param name="ResistorVolts">Across the resistor, V.</param>
/// <param name="Amperes">Current, A.</param>
/// <param name="CapacitorWatts">Heat in the capacitor, W.</param>
/// <param name="Verdict">What it says.</param>
/// <param name="Why">In a sentence.</param>
public sealed record ReformingReading(double Minutes, double ResistorVolts, double Amperes, double CapacitorWatts, ReformingVerdict Verdict, string Why);

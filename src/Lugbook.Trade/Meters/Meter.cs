using Lugbook.Trade.Readings;

namespace Lugbook.Trade.Meters;

/// <summary>What a meter does to the circuit and how far its readings may be off.</summary>
public sealed record Meter
{
    /// <summary>Short name, as commands take it.</summary>
    public required string Name { get; init; }
    /// <summary>In words.</summary>
    public required string Description { get; init; }
    /// <summary>Ohms a volt of the range, for a pointer instrument without amplifier; null for one of fixed input resistance.</summary>
    public double? OhmsPerVolt { get; init; }
    /// <summary>Input resistance on volts, Ω, where it is fixed.</summary>
    public double? InputOhms { get; init; }
    /// <summary>Direct volts.</summary>
    public required MeterScale Volts { get; init; }
    /// <summary>Alternating volts, rms.</summary>
    public required MeterScale AcVolts { get; init; }
    /// <summary>Ohms, where they are shown as digits or on an even scale.</summary>
    public MeterScale? Ohms { get; init; }
    /// <summary>Ohms of a pointer instrument.</summary>
    public PointerOhms? PointerOhms { get; init; }
    /// <summary>Volts across the leads of the ohmmeter, open; 0.2 V does not open a dry rectifier, 1.5 V does.</summary>
    public double OhmsTestVolts { get; init; } = 0.5;
    /// <summary>Capacitance, F; null when the meter has none.</summary>
    public MeterScale? Farads { get; init; }
    /// <summary>Frequency at which capacitance is measured, Hz.</summary>
    public double FaradsHertz { get; init; } = 120;
    /// <summary>Leakage: insulation resistance at a test voltage, Ω; null when the meter has none.</summary>
    public MeterScale? Insulation { get; init; }
    /// <summary>Volts of the insulation test.</summary>
    public double InsulationVolts { get; init; }

    /// <summary>Resistance that the meter puts across what it measures, on the range that shows so many volts; Ω.</summary>
    public double LoadOhms(double volts) => OhmsPerVolt is { } perVolt ? perVolt * (Volts.RangeFor(volts) ?? Volts.Top) : InputOhms ?? double.PositiveInfinity;

    /// <summary>How far a reading in ohms may be off, Ω.</summary>
    public double OhmsUncertainty(double ohms) => PointerOhms?.Uncertainty(ohms) ?? Ohms?.Uncertainty(ohms) ?? double.PositiveInfinity;

    /// <summary>Highest reading of a kind, in its base unit: what a bare "over" is above; 0 where the meter does not measure it.</summary>
    public double TopOf(ReadingKind kind) => kind switch
    {
        ReadingKind.Ohms => OhmsTop,
        ReadingKind.Farads => Farads?.Top ?? 0,
        ReadingKind.Insulation => Insulation?.Top ?? OhmsTop,
        ReadingKind.Volts => Volts.Top,
        _ => 0,
    };

    /// <summary>Highest reading in ohms; above it the meter shows "over".</summary>
    public double OhmsTop => PointerOhms?.Top ?? Ohms?.Top ?? 0;
}

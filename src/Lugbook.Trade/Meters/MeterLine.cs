using System.Text.Json.Serialization;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Meters;

/// <summary>What a meter measures on a range.</summary>
public enum MeterFunction
{
    /// <summary>Direct volts, V.</summary>
    Volts,
    /// <summary>Alternating volts, V rms.</summary>
    AcVolts,
    /// <summary>Ohms in digits or on an even scale, Ω.</summary>
    Ohms,
    /// <summary>Ohms of a pointer instrument: the range is its mid-scale, the error a share of the arc, Ω.</summary>
    PointerOhms,
    /// <summary>Capacitance, F.</summary>
    Farads,
    /// <summary>Insulation resistance at a test voltage, Ω.</summary>
    Insulation,
}

/// <summary>One range of a meter of the user's own, as its maker states it. <see cref="Row.Name"/> is the meter's name; the meter is all rows of that name.</summary>
/// <remarks>What belongs to a function as a whole (test volts, load, frequency) may stand in any of its rows; the first counts.</remarks>
public sealed record MeterLine : Row
{
    /// <summary>What is measured.</summary>
    public required MeterFunction Function { get; init; }
    /// <summary>Full scale in the base unit; for pointer ohms the mid-scale.</summary>
    public required double Top { get; init; }
    /// <summary>Error in per cent of the reading.</summary>
    public double? ReadingPercent { get; init; }
    /// <summary>Error in per cent of full scale; for pointer ohms of the arc.</summary>
    public double? FullScalePercent { get; init; }
    /// <summary>Further error in steps of the last digit.</summary>
    public double? Digits { get; init; }
    /// <summary>Steps in the range: 2,000 where the display ends at 1999.</summary>
    public double? Counts { get; init; }
    /// <summary>Ohms: volts across the open leads. Insulation: volts of the test.</summary>
    public double? TestVolts { get; init; }
    /// <summary>Volts: fixed input resistance, Ω.</summary>
    public double? InputOhms { get; init; }
    /// <summary>Volts: ohms a volt of the range, for a pointer instrument.</summary>
    public double? OhmsPerVolt { get; init; }
    /// <summary>Capacitance: frequency at which it is measured, Hz.</summary>
    public double? Hertz { get; init; }
    /// <summary>Anything else; of the first row, what sort of meter it is.</summary>
    public string? Note { get; init; }

    /// <summary>Unit of <see cref="Top"/>.</summary>
    [JsonIgnore]
    public Unit Unit => UnitOf(Function);

    /// <summary>Unit of a function's ranges.</summary>
    public static Unit UnitOf(MeterFunction function) => function switch
    {
        MeterFunction.Volts or MeterFunction.AcVolts => Unit.Volt,
        MeterFunction.Farads => Unit.Farad,
        _ => Unit.Ohm,
    };
}

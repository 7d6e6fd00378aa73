using System.Collections.Immutable;

namespace Lugbook.Trade.Meters;

/// <summary>One function of a meter: its ranges and how far a reading may be off.</summary>
/// <param name="Ranges">Full scale of each range, in the base unit, rising; one or more.</param>
/// <param name="ReadingShare">Part of the error that goes with the reading: 0.005 for 0.5 %.</param>
/// <param name="FullScaleShare">Part that goes with the range's full scale: 0.03 for a pointer of class 3.</param>
/// <param name="Digits">Further error in steps of the last digit; 0 for a pointer.</param>
/// <param name="Counts">Steps in a range: 2,000 or 6,000; 0 for a pointer.</param>
public sealed record MeterScale(ImmutableArray<double> Ranges, double ReadingShare, double FullScaleShare = 0, int Digits = 0, int Counts = 0)
{
    /// <summary>Highest reading, in the base unit.</summary>
    public double Top => Ranges[^1];

    /// <summary>The range on which a value is read: the lowest that holds it; null when none does.</summary>
    public double? RangeFor(double value)
    {
        foreach (var range in Ranges) if (Math.Abs(value) <= range) return range;
        return null;
    }

    /// <summary>How far a reading may be off either way, in the base unit; infinite above the top.</summary>
    public double Uncertainty(double reading) =>
        RangeFor(reading) is { } range
            ? ReadingShare * Math.Abs(reading) + FullScaleShare * range + (Counts > 0 ? Digits * range / Counts : 0)
            : double.PositiveInfinity;
}

/// <summary>The ohms scale of a pointer instrument, whose error is a share of the arc and not of the reading.</summary>
/// <param name="MidScales">Ohms at the middle of each range, rising.</param>
/// <param name="ArcShare">Error as a share of the whole arc: 0.03 for 3 degrees of 100.</param>
/// <remarks>Deflection is Rm/(R + Rm) of the arc, so that an error of a share s moves R by s·(R + Rm)²/Rm (Ohm's law with a series battery).</remarks>
public sealed record PointerOhms(ImmutableArray<double> MidScales, double ArcShare)
{
    /// <summary>How far a reading may be off on the range that reads it best, Ω.</summary>
    public double Uncertainty(double ohms) => MidScales.Min(m => ArcShare * (ohms + m) * (ohms + m) / m);

    /// <summary>Highest ohms told from an open circuit: twenty times the highest mid-scale (common practice, no source).</summary>
    public double Top => 20 * MidScales[^1];
}

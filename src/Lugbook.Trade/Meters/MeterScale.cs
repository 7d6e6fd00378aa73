using System.Collections.Immutable;

namespace Lugbook.Trade.Meters;

/// <summary>One range of a meter's function, and how far a reading on it may be off.</summary>
/// <param name="Top">Full scale, in the base unit; above 0.</param>
/// <param name="ReadingShare">Part of the error that goes with the reading: 0.005 for 0.5 %.</param>
/// <param name="FullScaleShare">Part that goes with the full scale: 0.03 for a pointer of class 3.</param>
/// <param name="Digits">Further error in steps of the last digit; 0 for a pointer.</param>
/// <param name="Counts">Steps in the range: 2,000 or 6,000; 0 for a pointer.</param>
public sealed record MeterRange(double Top, double ReadingShare, double FullScaleShare = 0, double Digits = 0, double Counts = 0)
{
    /// <summary>How far a reading on this range may be off either way, in the base unit.</summary>
    public double Uncertainty(double reading) => ReadingShare * Math.Abs(reading) + FullScaleShare * Top + (Counts > 0 ? Digits * Top / Counts : 0);
}

/// <summary>One function of a meter: its ranges and how far a reading may be off.</summary>
/// <param name="Ranges">The ranges, rising; none for a function that the meter has not.</param>
public sealed record MeterScale(ImmutableArray<MeterRange> Ranges)
{
    /// <summary>A function whose ranges are all equally good.</summary>
    /// <param name="tops">Full scale of each range, in the base unit, rising.</param>
    /// <param name="readingShare">Part of the error that goes with the reading.</param>
    /// <param name="fullScaleShare">Part that goes with the range's full scale.</param>
    /// <param name="digits">Further error in steps of the last digit.</param>
    /// <param name="counts">Steps in a range.</param>
    public MeterScale(ImmutableArray<double> tops, double readingShare, double fullScaleShare = 0, int digits = 0, int counts = 0)
        : this([.. tops.Select(t => new MeterRange(t, readingShare, fullScaleShare, digits, counts))]) { }

    /// <summary>A function that the meter has not: no reading, and no knowing how far one is off.</summary>
    public static MeterScale None { get; } = new(ImmutableArray<MeterRange>.Empty);

    /// <summary>Highest reading, in the base unit; 0 without a range.</summary>
    public double Top => Ranges.IsEmpty ? 0 : Ranges[^1].Top;

    /// <summary>The full scale on which a value is read: the lowest that holds it; null when none does.</summary>
    public double? RangeFor(double value) => Holding(value)?.Top;

    /// <summary>How far a reading may be off either way, in the base unit; infinite above the top.</summary>
    public double Uncertainty(double reading) => Holding(reading)?.Uncertainty(reading) ?? double.PositiveInfinity;

    private MeterRange? Holding(double value)
    {
        foreach (var range in Ranges) if (Math.Abs(value) <= range.Top) return range;
        return null;
    }
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

namespace Lugbook.Trade.Quantities;

/// <summary>How far a good part may lie from its mark, each way.</summary>
/// <remarks>
/// Fractions of nominal, never percentages: ±20 % is 0.2 and 0.2; −10 +100 % is 0.1 and 1; "guaranteed minimum value" is 0 and 1.
/// The default value is exact. <see cref="Minus"/>: 0 up to and including 1; <see cref="Plus"/>: 0 or more; both finite.
/// </remarks>
public readonly record struct Tolerance
{
    private Tolerance(double minus, double plus) => (Minus, Plus) = (minus, plus);

    /// <summary>How far below nominal, as a fraction of it.</summary>
    public double Minus { get; }
    /// <summary>How far above nominal, as a fraction of it.</summary>
    public double Plus { get; }

    /// <summary>The same both ways, from a fraction.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not 0 to 1, or not a number.</exception>
    public static Tolerance Symmetric(double fraction) => Between(fraction, fraction);

    /// <summary>The same both ways, from a percentage.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not 0 to 100, or not a number.</exception>
    public static Tolerance Percent(double percent) => Symmetric(percent / 100);

    /// <summary>Different ways, from fractions of nominal.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the ranges in the remarks, or not a number.</exception>
    public static Tolerance Between(double minus, double plus)
    {
        if (!(minus is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(minus), minus, "A tolerance downwards is a fraction from 0 to 1: write 0.2 for 20 %.");
        if (!(plus >= 0 && double.IsFinite(plus)))
            throw new ArgumentOutOfRangeException(nameof(plus), plus, "A tolerance upwards is a fraction, 0 or more: write 0.2 for 20 %.");
        return new(minus, plus);
    }

    /// <summary>The same both ways?</summary>
    public bool IsSymmetric => Minus == Plus;
    /// <summary>Lowest good value for this nominal one.</summary>
    public double Low(double nominal) => nominal * (1 - Minus);
    /// <summary>Highest good value for this nominal one.</summary>
    public double High(double nominal) => nominal * (1 + Plus);
    /// <summary>May a good part of this mark have this true value? The ends belong to it, to a part in 10⁹.</summary>
    public bool Holds(double nominal, double value) =>
        value >= Low(nominal) - 1e-9 * Math.Abs(nominal) && value <= High(nominal) + 1e-9 * Math.Abs(nominal);
}

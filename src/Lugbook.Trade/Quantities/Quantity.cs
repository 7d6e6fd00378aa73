namespace Lugbook.Trade.Quantities;

/// <summary>A value with its unit, and what is known of how far the truth may lie from it.</summary>
/// <remarks>
/// Unit: the unit's base (Ω, F, H, V, W, A), never a multiple. A marked part has a <see cref="Tolerance"/>, a measured value a
/// <see cref="StandardUncertainty"/>; either may be missing. Equality is exact. The default value is 0 Ω.
/// </remarks>
public readonly record struct Quantity
{
    private Quantity(double value, Unit unit, Tolerance? tolerance, double? standardUncertainty) =>
        (Value, Unit, Tolerance, StandardUncertainty) = (value, unit, tolerance, standardUncertainty);

    /// <summary>The value, finite.</summary>
    public double Value { get; }
    /// <summary>Its unit.</summary>
    public Unit Unit { get; }
    /// <summary>How far a good part of this mark may lie from it; null when it is not a mark or nothing is marked.</summary>
    public Tolerance? Tolerance { get; }
    /// <summary>Standard uncertainty in the same unit, 0 or more; null when it is not known.</summary>
    public double? StandardUncertainty { get; }

    /// <summary>A value without more.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Quantity Of(double value, Unit unit) => new(Finite(value), unit, null, null);

    /// <summary>A mark with its tolerance.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Quantity Marked(double value, Unit unit, Tolerance tolerance) => new(Finite(value), unit, tolerance, null);

    /// <summary>A measured value with its standard uncertainty.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or the uncertainty is below 0.</exception>
    public static Quantity Measured(double value, double standardUncertainty, Unit unit)
    {
        if (!(standardUncertainty >= 0 && double.IsFinite(standardUncertainty)))
            throw new ArgumentOutOfRangeException(nameof(standardUncertainty), standardUncertainty, "An uncertainty is 0 or more, in the unit of the value.");
        return new(Finite(value), unit, null, standardUncertainty);
    }

    /// <summary>The value in a notation, with its uncertainty or its tolerance: "57.8 ± 0.6 kΩ", "47 kΩ ±20 %".</summary>
    public string Print(NotationStyle style = NotationStyle.Plain) =>
        StandardUncertainty is > 0 and var u ? Notation.PrintWithUncertainty(Value, u, Unit)
        : Tolerance is { } t ? Notation.Print(Value, Unit, style) + " " + Notation.Print(t)
        : Notation.Print(Value, Unit, style);

    /// <inheritdoc/>
    public override string ToString() => Print();

    private static double Finite(double value) => double.IsFinite(value)
        ? value
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A value is a finite number. Record an open part as open.");
}

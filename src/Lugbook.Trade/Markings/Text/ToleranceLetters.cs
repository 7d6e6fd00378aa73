using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Tolerance letters: IEC 60062, the trade's additions, and the old British ceramic pair (tolerance, temperature coefficient).</summary>
/// <remarks>Source: data/reference/letter-codes.csv, tolerance-letter and uk-ceramic-*.</remarks>
internal static class ToleranceLetters
{
    /// <summary>Up to this value, F, some letters are picofarads and not per cent.</summary>
    private const double SmallFarads = 10.000001e-12;

    /// <summary>The tolerance that a letter means on a part of this value, or null when it means none.</summary>
    /// <param name="letter">In either case.</param>
    /// <param name="unit">Ohm or farad.</param>
    /// <param name="value">In the unit's base, above 0.</param>
    public static Tolerance? Of(char letter, Unit unit, double value)
    {
        letter = char.ToUpperInvariant(letter);
        if (unit == Unit.Farad && value <= SmallFarads && Picofarads(letter) is { } pico) return Absolute(pico, value);
        if (unit == Unit.Farad && Asymmetric(letter) is { } asymmetric) return asymmetric;
        double? percent = letter switch
        {
            'E' => 0.005,
            'L' => 0.01,
            'P' => 0.02,
            'W' => 0.05,
            'B' => 0.1,
            'C' => 0.25,
            'D' => 0.5,
            'F' => 1,
            'G' => 2,
            'H' => 3,
            'J' => 5,
            'K' => 10,
            'M' => 20,
            'N' => 30,
            _ => null,
        };
        return percent is { } p ? Tolerance.Percent(p) : null;
    }

    /// <summary>A letter that stands for the same per cent both ways and is common enough to follow any number?</summary>
    public static bool IsCommon(char letter) => char.ToUpperInvariant(letter) is 'B' or 'C' or 'D' or 'F' or 'G' or 'H' or 'J' or 'K' or 'M' or 'N';

    /// <summary>The tolerance of an old British ceramic's first letter, or null.</summary>
    public static Tolerance? OldBritish(char letter, double value) => char.ToUpperInvariant(letter) switch
    {
        'B' => Absolute(0.1, value),
        'C' => Absolute(0.25, value),
        'D' => Absolute(0.5, value),
        'F' => Tolerance.Percent(1),
        'G' => Tolerance.Percent(2),
        'H' => Tolerance.Percent(2.5),
        'J' => Tolerance.Percent(5),
        'K' => Tolerance.Percent(10),
        'M' => Tolerance.Percent(20),
        'N' => Tolerance.Between(0.2, 0.4),
        'P' => Tolerance.Between(0.2, 0.8),
        'R' => Tolerance.Between(0, 1),
        _ => null,
    };

    /// <summary>The temperature coefficient, ppm/K, of an old British ceramic's second letter, or null.</summary>
    public static double? OldBritishTempco(char letter) => char.ToUpperInvariant(letter) switch
    {
        'W' => 470,
        'A' => 100,
        'B' => 30,
        'C' => 0,
        'D' => -30,
        'E' => -50,
        'F' => -80,
        'G' => -150,
        'H' => -220,
        'J' => -330,
        'K' => -470,
        'L' => -560,
        'N' => -750,
        _ => null,
    };

    /// <summary>So many picofarads either way, as a tolerance of this value; never below nothing.</summary>
    public static Tolerance Absolute(double picofarads, double value)
    {
        var fraction = picofarads * 1e-12 / value;
        return double.IsFinite(fraction) ? Tolerance.Between(Math.Min(1, fraction), fraction) : Tolerance.Between(1, 1);
    }

    private static double? Picofarads(char letter) => letter switch
    {
        'A' => 0.05,
        'B' => 0.1,
        'C' => 0.25,
        'D' => 0.5,
        'F' => 1,
        'G' => 2,
        _ => null,
    };

    private static Tolerance? Asymmetric(char letter) => letter switch
    {
        'Q' => Tolerance.Between(0.1, 0.3),
        'T' => Tolerance.Between(0.1, 0.5),
        'S' => Tolerance.Between(0.2, 0.5),
        'Z' => Tolerance.Between(0.2, 0.8),
        'R' => Tolerance.Between(0.2, 0.3),
        'V' => Tolerance.Between(0.1, 1),
        'Y' => Tolerance.Between(0, 0.5),
        'P' => Tolerance.Between(0, 1),
        'W' => Tolerance.Between(0, 2),
        'X' => Tolerance.Between(0.2, 0.4),
        _ => null,
    };
}

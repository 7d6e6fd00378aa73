namespace Lugbook.Trade.Markings.Text;

/// <summary>The two-character code for DC volts, and which numbers are usual ratings.</summary>
/// <remarks>Source: data/reference/letter-codes.csv, voltage-code: the figure is the power of ten, the letter the mantissa of R10.</remarks>
internal static class VoltageCodes
{
    private static readonly int[] Ratings =
    [
        3, 4, 6, 10, 12, 15, 16, 20, 25, 30, 35, 40, 50, 60, 63, 64, 70, 75, 80, 100, 110, 120, 125, 150, 160, 175, 180, 200, 220, 225, 240, 250, 275, 300, 315, 330, 350, 375, 385, 400,
        420, 440, 450, 475, 500, 525, 550, 600, 630, 650, 700, 750, 800, 850, 900, 1000, 1100, 1200, 1250, 1400, 1500, 1600, 1800, 2000, 2500, 3000, 3500, 4000, 5000, 6000, 6300, 7500, 8000,
        10000, 12000, 12500, 15000, 20000, 25000, 30000, 40000,
    ];

    // What stands on film and moulded parts directly after a tolerance letter.
    private static readonly int[] Printed = [16, 25, 35, 50, 63, 80, 100, 125, 150, 160, 200, 250, 300, 350, 400, 450, 500, 600, 630, 750, 800, 850, 1000, 1250, 1500, 1600, 2000, 2500, 3000];

    /// <summary>Volts of a code such as 2G, or null when there is no such code.</summary>
    public static double? Of(int power, char letter)
    {
        if (power is < 0 or > 3) return null;
        letter = char.ToUpperInvariant(letter);
        double? odd = (power, letter) switch
        {
            (0, 'L') => 5.5,
            (1, 'V') => 35,
            (2, 'V') => 350,
            (2, 'W') => 450,
            (2, 'Q') => 110,
            (2, 'Z') => 180,
            (2, 'P') => 220,
            (2, 'I') => 650,
            (3, 'L') => 1200,
            _ => null,
        };
        if (odd is not null) return odd;
        int? thousandths = letter switch
        {
            'A' => 1000,
            'B' => 1250,
            'C' => 1600,
            'D' => 2000,
            'E' => 2500,
            'F' => 3150,
            'G' => 4000,
            'H' => 5000,
            'J' => 6300,
            'K' => 8000,
            _ => null,
        };
        return thousandths * Math.Pow(10, power) / 1000;
    }

    /// <summary>A usual rating, old or new?</summary>
    public static bool IsRating(double volts) => volts is 6.3 or 2.5 or 12.5 or 31.5 || (volts == Math.Floor(volts) && volts < 1e6 && Array.BinarySearch(Ratings, (int)volts) >= 0);

    /// <summary>A rating as printed directly after a tolerance letter: 473J630?</summary>
    public static bool IsPrinted(double volts) => volts < 1e6 && volts == Math.Floor(volts) && Array.BinarySearch(Printed, (int)volts) >= 0;
}

using System.Globalization;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Ceramic class codes: EIA classes 1 and 2, the N and P numbers, and the Japanese pairs.</summary>
/// <remarks>Source: data/reference/letter-codes.csv, class1-*, class2-* (EIA RS-198); Japanese pairs from memory of JIS C 5101.</remarks>
internal static class Dielectrics
{
    /// <summary>What a code says: its usual spelling and, for class 1, the temperature coefficient in ppm/K; null when it is none.</summary>
    public static (string Code, double? TempcoPpm)? Find(string written)
    {
        var code = written.ToUpperInvariant();
        if (code is "NPO" or "NP0") return ("NP0", 0);
        if (code is "COG" or "C0G") return ("C0G", 0);
        if (code is "SL") return ("SL", null);
        if (code.Length == 3 && code[0] is 'X' or 'Y' or 'Z' && code[1] is '2' or '4' or '5' or '6' or '7' or '8' && "ABCDEFPRSTUV".Contains(code[2], StringComparison.Ordinal)) return (code, null);
        if (code.Length == 3 && Figure(code[0]) is { } figure && Multiplier(code[1]) is { } multiplier && "GHJKLMN".Contains(code[2], StringComparison.Ordinal))
            return (code, Math.Round(figure * multiplier, 6) + 0.0);
        if (code.Length is 4 or 5 && code[0] is 'N' or 'P' && Coefficients.Contains(code[1..]))
            return (code, (code[0] == 'N' ? -1 : 1) * double.Parse(code[1..], CultureInfo.InvariantCulture));
        if (code.Length == 2 && Japanese(code[0]) is { } ppm && code[1] is 'G' or 'H' or 'J') return (code, ppm);
        return null;
    }

    // The numbers that were made; N47 alone would be n47.
    private static readonly HashSet<string> Coefficients = ["030", "033", "060", "075", "080", "100", "120", "150", "220", "330", "350", "470", "750", "1400", "1500", "2200", "3300", "4700", "5600"];

    private static double? Figure(char c) => c switch
    {
        'C' => 0,
        'B' => 0.3,
        'L' => 0.8,
        'A' => 0.9,
        'M' => 1,
        'P' => 1.5,
        'R' => 2.2,
        'S' => 3.3,
        'T' => 4.7,
        'V' => 5.6,
        'U' => 7.5,
        _ => null,
    };

    private static double? Multiplier(char c) => c switch
    {
        '0' => -1,
        '1' => -10,
        '2' => -100,
        '3' => -1000,
        '4' => -10000,
        '5' => 1,
        '6' => 10,
        '7' => 100,
        '8' => 1000,
        '9' => 10000,
        _ => null,
    };

    private static double? Japanese(char c) => c switch
    {
        'C' => 0,
        'P' => -150,
        'R' => -220,
        'S' => -330,
        'T' => -470,
        'U' => -750,
        _ => null,
    };
}

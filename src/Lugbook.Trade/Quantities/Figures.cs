using System.Globalization;

namespace Lugbook.Trade.Quantities;

/// <summary>Significant figures in plain decimal text, never with an exponent, never with rounding dust.</summary>
internal static class Figures
{
    /// <summary>Rounds to so many significant figures (1 to 15) and writes the result times 10^-<paramref name="exponent"/>, trailing zeros left out.</summary>
    public static string Text(double value, int figures, int exponent = 0)
    {
        var (digits, power) = Split(value, figures);
        return digits == "0" ? "0" : (value < 0 ? "−" : "") + Place(digits, power - exponent);
    }

    /// <summary>The power of ten of the first figure after rounding: 0 for 1 to 9.99; 0 for zero.</summary>
    public static int Magnitude(double value, int figures)
    {
        var (digits, power) = Split(value, figures);
        return digits == "0" ? 0 : power + digits.Length - 1;
    }

    /// <summary>Writes a value with so many decimals after division by 10^exponent, trailing zeros kept.</summary>
    public static string Fixed(double value, int decimals, int exponent)
    {
        var scaled = Math.Abs(value) < 1e-290 ? 0 : Math.Abs(value) / Math.Pow(10, exponent);
        var text = decimals >= 0
            ? scaled.ToString("F" + Math.Min(decimals, 30).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)
            : (Math.Round(scaled / Math.Pow(10, -decimals)) * Math.Pow(10, -decimals)).ToString("F0", CultureInfo.InvariantCulture);
        return value < 0 && text.Any(c => c is >= '1' and <= '9') ? "−" + text : text;
    }

    // 0.047 with 4 figures: ("47", -3).
    private static (string Digits, int Power) Split(double value, int figures)
    {
        var text = Math.Abs(value).ToString("E" + (Math.Clamp(figures, 1, 15) - 1).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        var e = text.IndexOf('E', StringComparison.Ordinal);
        var mantissa = text[..e].Replace(".", "", StringComparison.Ordinal);
        var power = int.Parse(text.AsSpan(e + 1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture) - (mantissa.Length - 1);
        var digits = mantissa.TrimEnd('0');
        if (digits.Length == 0) return ("0", 0);
        return (digits, power + mantissa.Length - digits.Length);
    }

    private static string Place(string digits, int power)
    {
        if (power >= 0) return digits + new string('0', power);
        var point = digits.Length + power;
        return point > 0 ? digits[..point] + "." + digits[point..] : "0." + new string('0', -point) + digits;
    }
}

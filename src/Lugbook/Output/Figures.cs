using System.Globalization;
using Lugbook.Trade.Quantities;

namespace Lugbook.Output;

/// <summary>Computed figures as people read them: no more digits than they are worth.</summary>
internal static class Figures
{
    /// <summary>Volts to three digits, none finer than a hundredth: "118", "5.58", "-0.63".</summary>
    public static string Volts(double? volts) => volts is not { } v || !double.IsFinite(v) ? "" : Rounded(v, 3, 2);

    /// <summary>Volts with their unit.</summary>
    public static string VoltsWithUnit(double? volts) => volts is { } v && double.IsFinite(v) ? $"{Rounded(v, 3, 2)} V" : "";

    /// <summary>"97–123 V"; one figure when both are alike.</summary>
    public static string Between(double? low, double? high)
    {
        var (l, h) = (Volts(low), Volts(high));
        if (l.Length == 0 || h.Length == 0) return "";
        return l == h ? l : l.StartsWith('-') || h.StartsWith('-') ? $"{l} to {h}" : $"{l}–{h}";
    }

    /// <summary>Ohms in the trade's notation to three digits; "no path" for infinity.</summary>
    public static string Ohms(double? ohms) => ohms switch
    {
        null => "",
        double.PositiveInfinity => "no path",
        < 0.05 => "0 Ω",
        { } r => Notation.Print(Significant(r, 3), Unit.Ohm),
    };

    /// <summary>Watts: "0.615 W", "12 mW".</summary>
    public static string Watts(double? watts) => watts is not { } w ? "" : w >= 0.1 ? $"{Rounded(w, 3, 2)} W" : $"{Rounded(w * 1e3, 2, 1)} mW";

    /// <summary>Current: "37 mA", "0.4 mA".</summary>
    public static string Amperes(double? amperes) => amperes is not { } a ? "" : Math.Abs(a) >= 1 ? $"{Rounded(a, 3, 2)} A" : Math.Abs(a) >= 1e-4 ? $"{Rounded(a * 1e3, 3, 2)} mA" : $"{Rounded(a * 1e6, 2, 1)} µA";

    /// <summary>A time: "0.9 s", "16 s", "3 min", "2 h".</summary>
    public static string Seconds(double? seconds) => seconds switch
    {
        null => "",
        double.PositiveInfinity => "never rests",
        < 0.05 => "at once",
        < 10 and { } s => $"{Rounded(s, 2, 1)} s",
        < 120 and { } s => $"{Rounded(s, 2, 0)} s",
        < 7200 and { } s => $"{Rounded(s / 60, 2, 0)} min",
        { } s => $"{Rounded(s / 3600, 2, 0)} h",
    };

    /// <summary>So many digits, but none finer than so many decimals; no exponent, no minus before a zero.</summary>
    public static string Rounded(double x, int digits, int mostDecimals)
    {
        var decimals = x == 0 ? 0 : Math.Clamp(digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(x))), 0, mostDecimals);
        var rounded = Math.Round(x, decimals);
        return (rounded == 0 ? 0 : rounded).ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);
    }

    /// <summary>So many significant digits.</summary>
    public static double Significant(double x, int digits)
    {
        if (x == 0 || !double.IsFinite(x)) return x;
        var scale = Math.Pow(10, Math.Floor(Math.Log10(Math.Abs(x))) + 1 - digits);
        return scale >= 1 ? Math.Round(x / scale) * scale : double.Parse(x.ToString($"G{digits}", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }
}

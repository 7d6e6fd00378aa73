using System.Globalization;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Judge;

/// <summary>Figures in sentences.</summary>
internal static class Say
{
    public static string Of(ReadingKind kind, double value)
    {
        if (double.IsInfinity(value)) return "infinite";
        if (Reading.UnitOf(kind) is not { } unit) return value.ToString("0.###", CultureInfo.InvariantCulture);
        return Notation.Print(Rounded(value), unit);
    }

    public static string Ohms(double value) => Of(ReadingKind.Ohms, value);
    public static string Farads(double value) => Of(ReadingKind.Farads, value);

    /// <summary>How far a meter may be off: two figures.</summary>
    public static string Error(ReadingKind kind, double value) => Reading.UnitOf(kind) is { } unit && double.IsFinite(value) ? Notation.Print(value, unit, figures: 2) : Of(kind, value);

    public static string Between(ReadingKind kind, Interval range) =>
        double.IsInfinity(range.High) ? $"{Of(kind, range.Low)} or more" : $"{Of(kind, range.Low)} to {Of(kind, range.High)}";

    /// <summary>"+23 %".</summary>
    public static string Deviation(double value, double nominal) => (value / nominal - 1).ToString("+0.#%;-0.#%;0%", CultureInfo.InvariantCulture).Replace("%", " %", StringComparison.Ordinal);

    /// <summary>"±20 %", "-10 +100 %".</summary>
    public static string Tolerance(Tolerance tolerance) => Notation.Print(tolerance);

    /// <summary>Four significant digits: enough beside any hand meter.</summary>
    private static double Rounded(double x) => x == 0 ? 0 : double.Parse(x.ToString("G4", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}

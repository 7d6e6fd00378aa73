using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Preferred;

/// <summary>The round values that the trade printed before the preferred series, and long after on capacitors and controls.</summary>
/// <remarks>
/// Source: data/reference/preferred-values.csv, rows old-* (common practice, no source). Kept as figures of one decade; a few sizes
/// were made of capacitors only (8-16-24-32-64 µF electrolytics, the 65 of .0065).
/// </remarks>
public static class OldValues
{
    private static readonly int[] Common = [100, 125, 150, 175, 200, 250, 300, 350, 400, 500, 600, 700, 750, 800];
    private static readonly int[] Resistors = [120, 650];
    private static readonly int[] Capacitors = [120, 160, 240, 320, 640, 140];

    /// <summary>Was this a usual round value? To a part in 10⁶.</summary>
    /// <param name="value">In the unit's base; what is not above 0 is no value.</param>
    /// <param name="unit">Ohm or farad; other units only had the common ones.</param>
    public static bool Contains(double value, Unit unit)
    {
        if (!(value > 0 && double.IsFinite(value))) return false;
        var mantissa = value / Math.Pow(10, Math.Floor(Math.Log10(value) + 1e-9)) * 100;
        bool In(int[] figures) => Array.Exists(figures, f => Math.Abs(mantissa / f - 1) < 1e-6);
        return In(Common) || (unit == Unit.Ohm && In(Resistors)) || (unit == Unit.Farad && In(Capacitors));
    }

    /// <summary>Was or is it made: an old round value or one of E24?</summary>
    /// <param name="value">In the unit's base.</param>
    /// <param name="unit">Its unit.</param>
    public static bool IsMade(double value, Unit unit) => Contains(value, unit) || PreferredValues.Contains(value, PreferredSeries.E24);
}

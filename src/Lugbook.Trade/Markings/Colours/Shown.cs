using System.Globalization;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>Numbers inside reasons and complaints, always with a point.</summary>
internal static class Shown
{
    /// <summary>At most four figures.</summary>
    public static string Number(double number) =>
        ((decimal)double.Parse(number.ToString("G4", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)).ToString("0.############", CultureInfo.InvariantCulture);

    /// <summary>"4.7 kΩ", "470 pF", "0.022 µF".</summary>
    public static string Value(double value, Unit unit) => unit switch
    {
        Unit.Farad when value < 9.99e-9 => Number(value * 1e12) + " pF",
        Unit.Farad => Number(value * 1e6) + " µF",
        _ when value >= 1e9 => Number(value / 1e9) + " GΩ",
        _ when value >= 1e6 => Number(value / 1e6) + " MΩ",
        _ when value >= 1e3 => Number(value / 1e3) + " kΩ",
        _ => Number(value) + " Ω",
    };

    /// <summary>"10 kΩ ±10 %", "5 pF ±0.25 pF".</summary>
    public static string Reading(Decoded read)
    {
        var tolerance = read.Picofarads is { } pf ? $" ±{Number(pf)} pF" : read.Percent is { } percent ? $" ±{Number(percent)} %" : "";
        return Value(read.Value, read.Layout.Unit) + tolerance + (read.Volts is { } volts ? $" {Number(volts)} V" : "");
    }
}

using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>Numbers inside reasons and complaints, always with a point.</summary>
internal static class Shown
{
    /// <summary>At most four figures.</summary>
    public static string Number(double number) => Figures.Text(number, 4);

    /// <summary>"4.7 kΩ", "470 pF", "0.022 µF".</summary>
    public static string Value(double value, Unit unit) => Notation.Print(value, unit);

    /// <summary>"10 kΩ ±10 %", "5 pF ±0.25 pF".</summary>
    public static string Reading(Decoded read)
    {
        var tolerance = read.Picofarads is { } pf ? $" ±{Number(pf)} pF" : read.Percent is { } percent ? $" ±{Number(percent)} %" : "";
        return Value(read.Value, read.Layout.Unit) + tolerance + (read.Volts is { } volts ? $" {Number(volts)} V" : "");
    }
}

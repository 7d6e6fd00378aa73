using System.Globalization;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Values in the trade's notation, as read-back sentences give them: 0.02 µF, 250 pF, 47 kΩ, 2.2 MΩ.</summary>
internal static class ValueText
{
    /// <summary>A number with up to nine significant figures and never an exponent.</summary>
    public static string Number(double value) =>
        double.Parse(value.ToString("G9", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).ToString("0.############", CultureInfo.InvariantCulture);

    /// <summary>The value with its unit.</summary>
    public static string Of(double value, Unit? unit) => unit switch
    {
        Unit.Ohm => Math.Abs(value) switch { >= 0.9999999e6 => $"{Number(value / 1e6)} MΩ", >= 0.9999999e3 => $"{Number(value / 1e3)} kΩ", _ => $"{Number(value)} Ω" },
        // The trade writes .001 µF and up in microfarads, and what is smaller in picofarads.
        Unit.Farad => Math.Abs(value) >= 0.9999999e-9 ? $"{Number(value * 1e6)} µF" : $"{Number(value * 1e12)} pF",
        Unit.Henry => $"{Number(value)} H",
        _ => Number(value),
    };

    /// <summary>The value in a spelling that has one meaning only, to be put in place of an ambiguous one.</summary>
    public static string Plain(double value, Unit unit) => unit switch
    {
        Unit.Ohm => Math.Abs(value) switch { >= 0.9999999e6 => $"{Number(value / 1e6)} MEG", >= 0.9999999e3 => $"{Number(value / 1e3)} kΩ", _ => $"{Number(value)} ohm" },
        Unit.Farad => Math.Abs(value) >= 0.9999999e-9 ? $"{Number(value * 1e6)} µF" : $"{Number(value * 1e12)} pF",
        _ => Of(value, unit),
    };

    /// <summary>A tolerance: ±10 %, −10 +100 %.</summary>
    public static string Of(Tolerance tolerance) => tolerance.IsSymmetric
        ? $"±{Number(tolerance.Plus * 100)} %"
        : $"−{Number(tolerance.Minus * 100)} +{Number(tolerance.Plus * 100)} %";
}

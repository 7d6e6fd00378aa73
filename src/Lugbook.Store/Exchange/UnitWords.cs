using System.Collections.Frozen;
using Lugbook.Trade.Quantities;

namespace Lugbook.Store.Exchange;

/// <summary>A unit with its multiple.</summary>
/// <param name="Unit">The unit.</param>
/// <param name="Power">Power of ten that leads to the base: 3 for kΩ.</param>
internal readonly record struct ScaledUnit(Unit Unit, int Power);

/// <summary>Units as people write them in headers and unit columns.</summary>
/// <remarks>
/// Only what has one meaning. MF, mF and M have two (the old sheets' microfarad, today's millifarad; thousand, million), so they
/// are not here: with a value beside them the marking reader ranks the meanings, in a header they are a complaint.
/// </remarks>
internal static class UnitWords
{
    private static readonly FrozenDictionary<string, ScaledUnit> Exact = new Dictionary<string, ScaledUnit>(StringComparer.Ordinal)
    {
        ["mH"] = new(Unit.Henry, -3), ["mV"] = new(Unit.Volt, -3), ["MV"] = new(Unit.Volt, 6), ["mW"] = new(Unit.Watt, -3), ["MW"] = new(Unit.Watt, 6),
        ["mA"] = new(Unit.Ampere, -3), ["MA"] = new(Unit.Ampere, -3), ["mΩ"] = new(Unit.Ohm, -3), ["MΩ"] = new(Unit.Ohm, 6), ["Mohm"] = new(Unit.Ohm, 6), ["MOhm"] = new(Unit.Ohm, 6),
    }.ToFrozenDictionary(StringComparer.Ordinal);

    private static readonly FrozenDictionary<string, ScaledUnit> AnyCase = new Dictionary<string, ScaledUnit>(StringComparer.OrdinalIgnoreCase)
    {
        ["ohm"] = new(Unit.Ohm, 0), ["ohms"] = new(Unit.Ohm, 0), ["Ω"] = new(Unit.Ohm, 0), ["R"] = new(Unit.Ohm, 0),
        ["k"] = new(Unit.Ohm, 3), ["kohm"] = new(Unit.Ohm, 3), ["kohms"] = new(Unit.Ohm, 3), ["kΩ"] = new(Unit.Ohm, 3), ["kilohm"] = new(Unit.Ohm, 3), ["kilohms"] = new(Unit.Ohm, 3), ["kiloohm"] = new(Unit.Ohm, 3), ["kilo ohm"] = new(Unit.Ohm, 3), ["k ohm"] = new(Unit.Ohm, 3), ["k Ω"] = new(Unit.Ohm, 3),
        ["megohm"] = new(Unit.Ohm, 6), ["megohms"] = new(Unit.Ohm, 6), ["meg"] = new(Unit.Ohm, 6), ["megaohm"] = new(Unit.Ohm, 6), ["meg ohm"] = new(Unit.Ohm, 6),
        ["F"] = new(Unit.Farad, 0), ["farad"] = new(Unit.Farad, 0), ["farads"] = new(Unit.Farad, 0),
        ["µF"] = new(Unit.Farad, -6), ["uF"] = new(Unit.Farad, -6), ["mfd"] = new(Unit.Farad, -6), ["µfd"] = new(Unit.Farad, -6), ["ufd"] = new(Unit.Farad, -6), ["microfarad"] = new(Unit.Farad, -6), ["microfarads"] = new(Unit.Farad, -6),
        ["nF"] = new(Unit.Farad, -9), ["nanofarad"] = new(Unit.Farad, -9),
        ["pF"] = new(Unit.Farad, -12), ["mmf"] = new(Unit.Farad, -12), ["mmfd"] = new(Unit.Farad, -12), ["µµF"] = new(Unit.Farad, -12), ["uuF"] = new(Unit.Farad, -12), ["picofarad"] = new(Unit.Farad, -12), ["micromicrofarad"] = new(Unit.Farad, -12),
        ["H"] = new(Unit.Henry, 0), ["henry"] = new(Unit.Henry, 0), ["henries"] = new(Unit.Henry, 0), ["hy"] = new(Unit.Henry, 0), ["µH"] = new(Unit.Henry, -6), ["uH"] = new(Unit.Henry, -6), ["nH"] = new(Unit.Henry, -9),
        ["V"] = new(Unit.Volt, 0), ["volt"] = new(Unit.Volt, 0), ["volts"] = new(Unit.Volt, 0), ["VDC"] = new(Unit.Volt, 0), ["V DC"] = new(Unit.Volt, 0), ["DC V"] = new(Unit.Volt, 0), ["WV"] = new(Unit.Volt, 0), ["WVDC"] = new(Unit.Volt, 0), ["DCWV"] = new(Unit.Volt, 0), ["V="] = new(Unit.Volt, 0), ["VAC"] = new(Unit.Volt, 0), ["V AC"] = new(Unit.Volt, 0), ["V~"] = new(Unit.Volt, 0), ["kV"] = new(Unit.Volt, 3),
        ["W"] = new(Unit.Watt, 0), ["watt"] = new(Unit.Watt, 0), ["watts"] = new(Unit.Watt, 0), ["kW"] = new(Unit.Watt, 3),
        ["A"] = new(Unit.Ampere, 0), ["amp"] = new(Unit.Ampere, 0), ["amps"] = new(Unit.Ampere, 0), ["ampere"] = new(Unit.Ampere, 0), ["amperes"] = new(Unit.Ampere, 0), ["µA"] = new(Unit.Ampere, -6),
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    /// <summary>The word with which Lugbook writes a unit.</summary>
    public static string Spelling(Unit unit) => unit.ToString().ToLowerInvariant();

    /// <summary>The unit that this word means without doubt, or null.</summary>
    public static ScaledUnit? Of(string word)
    {
        // The Greek mu and the ohm sign of older fonts, and the dot after an abbreviation.
        word = word.Trim().Replace('μ', 'µ').Replace('\u2126', 'Ω').TrimEnd('.');
        return Exact.TryGetValue(word, out var exact) ? exact : AnyCase.TryGetValue(word, out var any) ? any : null;
    }

    /// <summary>Does a column of this measure take this unit?</summary>
    public static bool Fits(string word, Measure measure) => measure switch
    {
        Measure.Length => Millimetres(word) is not null,
        Measure.Percent => Percent(word),
        Measure.Volts => Of(word)?.Unit == Unit.Volt,
        Measure.Watts => Of(word)?.Unit == Unit.Watt,
        Measure.Ohms => Of(word)?.Unit == Unit.Ohm,
        Measure.Value => Of(word)?.Unit is Unit.Ohm or Unit.Farad or Unit.Henry,
        _ => false,
    };

    /// <summary>Which units a column of this measure takes, for a message.</summary>
    public static string Examples(Measure measure) => measure switch
    {
        Measure.Length => "mm, cm, m, in or mil",
        Measure.Percent => "%",
        Measure.Volts => "V, mV or kV",
        Measure.Watts => "W, mW or kW",
        Measure.Ohms => "ohm, kohm or megohm",
        Measure.Value => "ohm, kohm, megohm, F, µF, nF, pF, H, mH or µH",
        _ => "none",
    };

    /// <summary>How many millimetres one of this unit of length has (1 in = 25.4 mm exactly), or null.</summary>
    public static decimal? Millimetres(string word) => word.Trim().TrimEnd('.').ToLowerInvariant() switch
    {
        "mm" or "millimetre" or "millimetres" or "millimeter" or "millimeters" => 1m,
        "cm" or "centimetre" or "centimeter" or "centimetres" or "centimeters" => 10m,
        "m" => 1000m,
        "in" or "inch" or "inches" or "\"" or "zoll" or "pouces" => 25.4m,
        "mil" or "mils" or "thou" => 0.0254m,
        _ => null,
    };

    private static bool Percent(string word) => word.Trim().ToLowerInvariant() is "%" or "pct" or "percent" or "±%" or "+/-%" or "± %";
}

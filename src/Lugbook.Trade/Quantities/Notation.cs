using Lugbook.Trade.Text;

namespace Lugbook.Trade.Quantities;

/// <summary>Prints and parses values of a known unit in the trade's notations, old and new. The machine's culture never matters.</summary>
/// <remarks>What is printed on a part, where the unit itself is in question, is read by <see cref="Markings.TextMarking"/>.</remarks>
public static class Notation
{
    /// <summary>Significant figures when none are asked for: enough for every marked value, too few for rounding dust.</summary>
    public const int UsualFigures = 4;

    /// <summary>Writes a value: 4700 Ω is "4.7 kΩ", "4k7", "4700 OHMS"; a minus is the real one (−).</summary>
    /// <param name="value">In the unit's base (Ω, F, H, V, W, A); finite.</param>
    /// <param name="unit">Its unit.</param>
    /// <param name="style">How it is written.</param>
    /// <param name="figures">Significant figures at most, 1 to 15; trailing zeros are left out.</param>
    /// <returns>The text; "not a number" or "∞" with the unit for values that are not finite, which no input makes.</returns>
    public static string Print(double value, Unit unit, NotationStyle style = NotationStyle.Plain, int figures = UsualFigures)
    {
        if (!double.IsFinite(value))
            return (double.IsNaN(value) ? "not a number " : value > 0 ? "∞ " : "−∞ ") + Scales.Step(unit, NotationStyle.Plain, 0).Sign;
        figures = Math.Clamp(figures, 1, 15);
        var step = value == 0 ? Zero(unit, style) : Scales.Step(unit, style, Figures.Magnitude(value, figures));
        var text = Figures.Text(value, figures, step.Exponent);
        return style switch
        {
            NotationStyle.LetterCode => LetterInPlaceOfThePoint(text, step.Sign, unit),
            NotationStyle.Old or NotationStyle.OldThousand => OldStyle(text, step.Sign, unit),
            _ => text + " " + step.Sign,
        };
    }

    /// <summary>Writes a tolerance: "±20 %", "−10 +100 %", and for a guaranteed minimum "GMV: −0 +100 %".</summary>
    public static string Print(Tolerance tolerance)
    {
        if (tolerance.IsSymmetric) return "±" + Figures.Text(tolerance.Plus * 100, UsualFigures) + " %";
        var both = "−" + Figures.Text(tolerance.Minus * 100, UsualFigures) + " +" + Figures.Text(tolerance.Plus * 100, UsualFigures) + " %";
        return tolerance is { Minus: 0, Plus: 1 } ? "GMV: " + both : both;
    }

    /// <summary>Writes a measured value with its uncertainty: "57.8 ± 0.6 kΩ".</summary>
    /// <param name="value">In the unit's base; finite.</param>
    /// <param name="uncertainty">In the same, 0 or more. It gets one figure, or two when the first is 1, and the value as many decimals.</param>
    /// <param name="unit">Their unit.</param>
    /// <remarks>Source: ISO/IEC Guide 98-3 (GUM) 7.2.6, at most two figures for an uncertainty; the rule for a first 1 is common practice, no source.</remarks>
    public static string PrintWithUncertainty(double value, double uncertainty, Unit unit)
    {
        if (!(uncertainty > 0) || !double.IsFinite(uncertainty) || !double.IsFinite(value)) return Print(value, unit);
        var figures = Figures.Text(uncertainty, 2).TrimStart('0', '.').StartsWith('1') ? 2 : 1;
        var last = Figures.Magnitude(uncertainty, figures) - figures + 1;
        var leading = Math.Max(value == 0 ? int.MinValue : Figures.Magnitude(value, 15), Figures.Magnitude(uncertainty, figures));
        var step = Scales.Step(unit, NotationStyle.Plain, leading);
        var decimals = step.Exponent - last;
        return Figures.Fixed(value, decimals, step.Exponent) + " ± " + Figures.Fixed(uncertainty, decimals, step.Exponent) + " " + step.Sign;
    }

    /// <summary>Writes how far a value lies from its mark: 57.8 k where 47 k is marked is "+23 %".</summary>
    /// <param name="value">What it is.</param>
    /// <param name="nominal">What it should be, in the same unit; not 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Nominal is 0 or not a number.</exception>
    public static string PrintDeviation(double value, double nominal)
    {
        if (!(Math.Abs(nominal) > 0)) throw new ArgumentOutOfRangeException(nameof(nominal), nominal, "A deviation needs a nominal value that is not 0.");
        var percent = (value - nominal) / Math.Abs(nominal) * 100;
        var text = Math.Abs(percent) < 9.95 ? Figures.Fixed(percent, 1, 0) : Figures.Text(percent, Math.Max(2, 1 + Figures.Magnitude(percent, 4)));
        if (text.EndsWith(".0", StringComparison.Ordinal)) text = text[..^2];
        return (text.StartsWith('−') || text == "0" ? text : "+" + text) + " %";
    }

    /// <summary>Reads a value of a known unit in any of the notations; the unit itself may be left out.</summary>
    /// <param name="text">As typed: "4k7", "4.7 kΩ", "47K", ".047 MFD", "1/2 W", "−1.3 V".</param>
    /// <param name="unit">The unit it must be of.</param>
    /// <param name="value">The value in the unit's base; 0 when it cannot be read.</param>
    /// <param name="complaint">What is wrong, where, and what to do; null when it was read.</param>
    /// <param name="megHabit">What a lone M means after ohms; million unless <see cref="MegHabit.Thousand"/>.</param>
    /// <returns>True when it was read.</returns>
    public static bool TryParse(string? text, Unit unit, out double value, out Complaint? complaint, MegHabit megHabit = MegHabit.Unknown) =>
        NotationParse.TryParse(text, unit, megHabit, out value, out complaint);

    private static ScaleStep Zero(Unit unit, NotationStyle style) =>
        Scales.Step(unit, style, unit == Unit.Farad ? -12 : 0);

    // "4.7" with k is 4k7, "0.47" with R is R47, "470" with R is 470R. Units without a letter of the standard keep their own letter.
    private static string LetterInPlaceOfThePoint(string text, string letter, Unit unit)
    {
        var minus = text.StartsWith('−') ? "−" : "";
        var figures = text[minus.Length..];
        var point = figures.IndexOf('.', StringComparison.Ordinal);
        var code = point < 0
            ? figures + letter + (figures.Length == 1 && figures != "0" && letter is "k" or "M" or "G" ? "0" : "")
            : (figures[..point] == "0" ? "" : figures[..point]) + letter + figures[(point + 1)..];
        var own = Scales.Step(unit, NotationStyle.LetterCode, 0).Sign;
        return minus + code + (unit is Unit.Henry or Unit.Volt or Unit.Watt or Unit.Ampere && letter != own ? own : "");
    }

    private static string OldStyle(string text, string sign, Unit unit)
    {
        if (text.StartsWith("0.", StringComparison.Ordinal)) text = text[1..];
        if (text.StartsWith("−0.", StringComparison.Ordinal)) text = "−" + text[2..];
        if (unit == Unit.Watt && sign == "W")
            text = text switch { ".5" => "1/2", ".25" => "1/4", ".125" => "1/8", _ => text };
        return sign is "K" or "M" ? text + sign : text + " " + sign;
    }
}

using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Readings;

/// <summary>How readings are written: "57.8K", "OL", "0.047 uF", "over 20M", "D 0.02".</summary>
public static partial class ReadingWords
{
    /// <summary>The word for a kind, as tables and commands write it.</summary>
    public static string Of(ReadingKind kind) => kind switch
    {
        ReadingKind.Ohms => "ohms",
        ReadingKind.Farads => "capacitance",
        ReadingKind.Insulation => "insulation",
        ReadingKind.Leakage => "leakage",
        ReadingKind.SeriesOhms => "esr",
        ReadingKind.Dissipation => "loss",
        _ => "volts",
    };

    /// <summary>The kind that a word means; null when it means none.</summary>
    public static ReadingKind? Kind(string word) => word.Trim().ToLowerInvariant() switch
    {
        "ohms" or "ohm" or "resistance" or "r" or "Ω" => ReadingKind.Ohms,
        "capacitance" or "capacity" or "farads" or "farad" or "c" or "cap" or "value" => ReadingKind.Farads,
        "insulation" or "insulation resistance" or "ir" or "megger" => ReadingKind.Insulation,
        "leakage" or "leak" or "leakage current" or "current" => ReadingKind.Leakage,
        "esr" or "series resistance" or "series ohms" => ReadingKind.SeriesOhms,
        "loss" or "dissipation" or "d" or "df" or "tan delta" or "dissipation factor" or "power factor" => ReadingKind.Dissipation,
        "volts" or "volt" or "voltage" or "v" => ReadingKind.Volts,
        _ => null,
    };

    /// <summary>Reads a number as a meter shows it.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="kind">What it is of.</param>
    /// <param name="top">Top of the meter's range, for a bare "OL"; 0 when the meter has no such function.</param>
    /// <param name="value">The value in the base unit; the top with <paramref name="isOver"/>.</param>
    /// <param name="isOver">True for "over".</param>
    /// <param name="complaint">What is wrong; null when it was read.</param>
    public static bool TryRead(string? text, ReadingKind kind, double top, out double value, out bool isOver, out Complaint? complaint)
    {
        (value, isOver, complaint) = (0, false, null);
        var written = (text ?? "").Trim();
        if (Over().Match(written) is { Success: true } over && written.Length > 0)
        {
            isOver = true;
            var rest = over.Groups["rest"].Value.Trim();
            if (rest.Length > 0) return TryNumber(rest, kind, out value, out complaint);
            value = top;
            if (top > 0) return true;
            complaint = new("the reading", written, 0, "this meter has no such range, so \"over\" says nothing.", "Choose the meter that it was read with, or write what it is over: over 20M.");
            return false;
        }
        return TryNumber(written, kind, out value, out complaint);
    }

    private static bool TryNumber(string text, ReadingKind kind, out double value, out Complaint? complaint)
    {
        if (Reading.UnitOf(kind) is { } unit)
        {
            // On a bench M is a million: nobody's meter counts thousands by it.
            if (!Notation.TryParse(text, unit, out value, out complaint, MegHabit.Million)) return false;
            if (value >= 0 || kind == ReadingKind.Volts) return true;
            complaint = new("the reading", text, 0, "it is below zero.", "Leave the minus out, or exchange the leads.");
            return false;
        }
        complaint = null;
        var percent = text.EndsWith('%');
        if (double.TryParse(text.TrimStart('D', 'd', ' ').TrimEnd('%', ' ').Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value) && value <= (percent ? 1000 : 10))
        {
            if (percent) value /= 100;
            return true;
        }
        complaint = new("the reading", text, 0, "not a dissipation factor.", "Write it as 0.02 or 2 %.");
        return false;
    }

    [GeneratedRegex(@"^(?:over|o\.?l\.?|>|1\s?\.\s*$|inf(?:inity|inite)?|∞|open)\s*(?<rest>.*)$", RegexOptions.IgnoreCase)] private static partial Regex Over();
}

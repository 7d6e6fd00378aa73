using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Netlist;

/// <summary>Figures that stand in a part's words: "filter choke 8 henry 120 mA", "1/4 A slow", "2 henries".</summary>
internal static partial class Words
{
    /// <summary>Inductance, H.</summary>
    public static double? Henries(Part part) => Find(part, Henry()) is { } m ? Number(m) * (m.Groups["unit"].Value.ToLowerInvariant() switch
    {
        var u when u.StartsWith("micro", StringComparison.Ordinal) || u[0] is 'µ' or 'μ' or 'u' => 1e-6,
        var u when u.StartsWith("milli", StringComparison.Ordinal) || u == "mh" => 1e-3,
        _ => 1,
    }) : null;

    /// <summary>Current, A.</summary>
    public static double? Amperes(Part part) => Find(part, Ampere()) is { } m ? Number(m) * (m.Groups["unit"].Value.StartsWith('m') || m.Groups["unit"].Value.StartsWith('M') ? 1e-3 : 1) : null;

    /// <summary>A winding wound on iron?</summary>
    public static bool IsIron(Part part) => Iron().IsMatch($"{part.Marked} {part.Note}");

    /// <summary>Conducts only while its valves are hot?</summary>
    public static bool IsWarmOnly(Part part) => WarmOnly().IsMatch($"{part.Marked} {part.Note}");

    /// <summary>A heater, or a string of them?</summary>
    public static bool IsHeater(Part part) => Heater().IsMatch($"{part.Marked}");

    private static Match? Find(Part part, Regex regex) =>
        regex.Match(part.Marked ?? "") is { Success: true } m ? m : regex.Match(part.Note ?? "") is { Success: true } n ? n : null;

    private static double Number(Match m)
    {
        var text = m.Groups["n"].Value.Replace(',', '.');
        var slash = text.IndexOf('/', StringComparison.Ordinal);
        double Parse(string s) => double.Parse(s, NumberStyles.Float, CultureInfo.InvariantCulture);
        if (slash < 0) return Parse(text);
        var divisor = Parse(text[(slash + 1)..]);
        return divisor > 0 ? Parse(text[..slash]) / divisor : Parse(text[..slash]);
    }

    [GeneratedRegex(@"(?<![A-Za-z0-9.])(?<n>\d+(?:[.,]\d+)?|\.\d+)\s*(?<unit>(?:micro|milli)\s?henr(?:y|ies)|henr(?:y|ies)|[µμu]H|mH|H)\b", RegexOptions.IgnoreCase)] private static partial Regex Henry();
    [GeneratedRegex(@"(?<![A-Za-z0-9.])(?<n>\d+/\d+|\d+(?:[.,]\d+)?|\.\d+)\s*(?<unit>mA|A|amp(?:ere)?s?)\b", RegexOptions.IgnoreCase)] private static partial Regex Ampere();
    [GeneratedRegex(@"power|mains|audio|output transformer|filter|choke \d+ h|smoothing|interstage|driver|vertical|frame|field coil|modulation", RegexOptions.IgnoreCase)] private static partial Regex Iron();
    [GeneratedRegex(@"valves? hot|tubes? hot|no dc path when|open when cold|only when (?:hot|warm)", RegexOptions.IgnoreCase)] private static partial Regex WarmOnly();
    [GeneratedRegex(@"heater|filament", RegexOptions.IgnoreCase)] private static partial Regex Heater();
}

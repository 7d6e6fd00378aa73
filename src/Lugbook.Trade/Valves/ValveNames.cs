using System.Text.RegularExpressions;

namespace Lugbook.Trade.Valves;

/// <summary>How people write valve types, brought to one form.</summary>
internal static partial class ValveNames
{
    /// <summary>Capitals, no blanks, dashes or dots; a leading letter O read as zero ("OA2" is "0A2").</summary>
    public static string Plain(string name)
    {
        var text = Gaps().Replace(name.ToUpperInvariant(), "");
        if (text.StartsWith("JAN", StringComparison.Ordinal)) text = text[3..];
        return LeadingO().IsMatch(text) ? "0" + text[1..] : text;
    }

    /// <summary>The type without the letters that only tell the envelope or a later edition: 6V6GTA is 6V6. Null when it has no such form.</summary>
    /// <remarks>Common practice of type naming: in American types what follows the last digit is the envelope (G, GT) and the edition (A, B, C, W, Y).</remarks>
    public static string? Stem(string plain) =>
        American().Match(plain) is { Success: true } match ? match.Groups[1].Value
        : European().Match(plain) is { Success: true } euro ? euro.Groups[1].Value
        : null;

    /// <summary>True for a type in glass with a G suffix.</summary>
    public static bool IsGlassOctal(string plain) => Stem(plain) is { } stem && plain.Length > stem.Length && plain[stem.Length] == 'G';

    [GeneratedRegex(@"[\s\-–._]")] private static partial Regex Gaps();
    [GeneratedRegex(@"^O[A-Z]\d")] private static partial Regex LeadingO();
    [GeneratedRegex(@"^(\d{1,3}[A-Z]{1,3}\d{1,2})(?:M?G|GT|GTA|GTB|GTC|GTY|GA|GB|GC|GAY|GY|WGT|WGTA|WGTB|WGA|WGB|WGC|W|WA|WB|WC|A|AX?|B|C|D|Y|L|LT|P|S|X)?$")]
    private static partial Regex American();
    [GeneratedRegex(@"^([A-Z]{2,4}\d{2,3})(?:S|M|B|N|F)?$")] private static partial Regex European();
}

using System.Collections.Immutable;
using System.Text.RegularExpressions;

namespace Lugbook.Circuit.Valves;

/// <summary>Which type's data a written name may use, and why. Upper or lower case, blanks and dashes do not matter.</summary>
/// <remarks>Common practice of type naming, from memory; where a rule is not sure of one type it gives nothing.</remarks>
internal sealed partial class TypeNames
{
    /// <summary>What was found.</summary>
    /// <param name="Data">Type of the data, as they write it.</param>
    /// <param name="Why">In words; empty where the name itself or a listed equivalent is in the data.</param>
    public sealed record Found(string Data, string Why);

    // 12 V plate supplies, and names of which the heater number means another valve.
    private static readonly ImmutableHashSet<string> LowPlate =
        ["12AC6", "12AD6", "12AE6", "12AF6", "12AJ6", "12BL6", "12CX6", "12CN5", "12DZ6", "12EA6", "12EG6", "12EK6", "12EL6", "12EM6"];
    private static readonly ImmutableHashSet<string> OtherValves = ["BY7", "BZ7", "AB5", "AD7"];
    private static readonly ImmutableHashSet<string> SharedOneLetter = ["T8", "U8", "X8"];

    private readonly Dictionary<string, Found> _names = new(StringComparer.Ordinal);
    private readonly ILookup<string, string> _byStem, _byShape;

    /// <param name="types">Types that have data.</param>
    /// <param name="equivalents">Other name to type.</param>
    /// <param name="twins">Type, the one it behaves like, and why.</param>
    /// <param name="dataOf">Type to the one whose lines it uses; a type that is not in it uses its own.</param>
    public TypeNames(
        IEnumerable<string> types, IEnumerable<KeyValuePair<string, string>> equivalents, IEnumerable<(string Type, string SameAs, string Why)> twins,
        IReadOnlyDictionary<string, string> dataOf)
    {
        foreach (var type in types) _names.TryAdd(Plain(type), new(type, ""));
        foreach (var (name, type) in equivalents) _names.TryAdd(Plain(name), new(type, ""));
        foreach (var (type, same, why) in twins)
            if (_names.TryGetValue(Plain(same), out var data)) _names.TryAdd(Plain(type), new(data.Data, $"{type} has the characteristics of {same}: {why}"));
        _byStem = _names.Where(n => Stem(n.Key) is not null).ToLookup(n => Stem(n.Key)!, n => dataOf.GetValueOrDefault(n.Value.Data, n.Value.Data));
        _byShape = _names.Where(n => Shape(n.Key) is not null).ToLookup(n => Shape(n.Key)!, n => dataOf.GetValueOrDefault(n.Value.Data, n.Value.Data));
    }

    /// <summary>The type of a written name; null when no rule is sure.</summary>
    public Found? Find(string written)
    {
        if (One(written) is { } whole) return whole;
        var pieces = written.Split(['/', '(', ')', ',', ';', '='], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        return pieces.Length < 2 ? null : pieces.Select(One).FirstOrDefault(f => f is not null);
    }

    private Found? One(string written)
    {
        var name = Plain(written);
        if (name.Length == 0) return null;
        if (_names.TryGetValue(name, out var own)) return own;
        if (Old().Match(name) is { Success: true } old && _names.TryGetValue(old.Groups[1].Value, out var later)) return new(later.Data, $"{name} is the earlier name of {old.Groups[1].Value}");
        if (Stem(name) is not { } stem) return null;
        if (_names.TryGetValue(stem, out own)) return own with { Why = Join($"{name} is {stem} with an envelope or edition letter", own.Why) };
        if (Single(_byStem[stem]) is { } edition) return new(edition, $"{name} and {edition} differ in envelope or edition{(Stem(Plain(edition)) == stem ? "" : " and heater")} only");
        return Shape(name) is { } shape && Single(_byShape[shape]) is { } other ? new(other, $"{name} and {other} differ in the heater only, by their names") : null;
    }

    private static string Join(string first, string second) => second.Length == 0 ? first : $"{first}; {second}";

    private static string? Single(IEnumerable<string> types)
    {
        var one = types.Distinct(StringComparer.OrdinalIgnoreCase).Take(2).ToArray();
        return one.Length == 1 ? one[0] : null;
    }

    /// <summary>Capitals without blanks and dashes; a leading letter O before letter and digit is a zero.</summary>
    public static string Plain(string name)
    {
        var text = Gaps().Replace(name.ToUpperInvariant(), "");
        if (text.StartsWith("JAN", StringComparison.Ordinal)) text = text[3..];
        return LeadingO().IsMatch(text) ? "0" + text[1..] : text;
    }

    private static string? Stem(string plain)
    {
        foreach (var form in (Regex[])[American(), European(), Numbered()])
            if (form.Match(plain) is { Success: true } match) return match.Groups[1].Value;
        return null;
    }

    // Letters and last figures of an American name whose first number is only the heater's volts; null for all others.
    private static string? Shape(string plain)
    {
        if (Stem(plain) is not { } stem || Parts().Match(stem) is not { Success: true } parts) return null;
        var (heater, letters, last) = (parts.Groups[1].Value, parts.Groups[2].Value, parts.Groups[3].Value);
        // 1 and 0: battery and cold cathodes. 7 and 14: loctals, named apart. 5 with 3 or 4: rectifiers on 5 V, where 6 V names are dampers.
        if (heater is "0" or "1" or "7" or "14" || heater is "5" && last is "3" or "4" || LowPlate.Contains(stem)) return null;
        return letters.Length >= 2 ? OtherValves.Contains(letters + last) ? null : letters + last : SharedOneLetter.Contains(letters + last) ? letters + last : null;
    }

    [GeneratedRegex(@"[\s\-–._]")] private static partial Regex Gaps();
    [GeneratedRegex(@"^O[A-Z]\d")] private static partial Regex LeadingO();
    [GeneratedRegex(@"^(\d{1,3}[A-Z]{1,3}\d{1,2})(?:M|MG|G|GT|GTA|GTB|GTC|GTY|GA|GB|GC|GAY|GY|WGT|WGTA|WGTB|WGA|WGB|WGC|W|WA|WB|WC|A|AX|B|C|D|Y|L|LT|S|X)?$")]
    private static partial Regex American();
    [GeneratedRegex(@"^([A-Z]{2,4}\d{2,3})(?:S|M|B|N|F|W|WA)?$")] private static partial Regex European();
    [GeneratedRegex(@"^(\d{2,4})(?:A|B|S|W|WA|WB|G|GT|Y)?$")] private static partial Regex Numbered();
    [GeneratedRegex(@"^(\d{1,3})([A-Z]{1,3})(\d{1,2})$")] private static partial Regex Parts();
    // Before 1933 a maker's first figure and letters stood before the two that remained: UX-245, 345, 245 are 45.
    [GeneratedRegex(@"^(?:UX|UY|UZ|CX|C)?[23](\d\dA?)$")] private static partial Regex Old();
}

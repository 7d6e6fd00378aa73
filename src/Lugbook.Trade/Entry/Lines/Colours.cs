using System.Collections.Frozen;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Colour words and their usual abbreviations.</summary>
internal static class Colours
{
    // Names as in data/reference/colour-codes.csv; abbreviations: common practice, no source (IEC 60757 has the two-letter ones).
    private static readonly FrozenDictionary<string, string> Names = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase)
    {
        ["black"] = "black", ["blk"] = "black", ["bk"] = "black", ["brown"] = "brown", ["brn"] = "brown", ["bn"] = "brown", ["red"] = "red", ["rd"] = "red",
        ["orange"] = "orange", ["orn"] = "orange", ["org"] = "orange", ["og"] = "orange", ["yellow"] = "yellow", ["yel"] = "yellow", ["ylw"] = "yellow", ["ye"] = "yellow",
        ["green"] = "green", ["grn"] = "green", ["gn"] = "green", ["blue"] = "blue", ["blu"] = "blue", ["violet"] = "violet", ["vio"] = "violet", ["vlt"] = "violet",
        ["purple"] = "violet", ["pur"] = "violet", ["grey"] = "grey", ["gray"] = "grey", ["gry"] = "grey", ["white"] = "white", ["wht"] = "white", ["wh"] = "white",
        ["gold"] = "gold", ["gld"] = "gold", ["silver"] = "silver", ["slv"] = "silver", ["slvr"] = "silver", ["sil"] = "silver",
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    // Colours of insulation that are no code colours.
    private static readonly FrozenSet<string> WireOnly = new[] { "pink", "slate", "tan", "maroon", "clear", "bare", "turquoise" }.ToFrozenSet(StringComparer.OrdinalIgnoreCase);

    /// <summary>The colour's full name, or null.</summary>
    public static string? Name(string word) => Names.GetValueOrDefault(word);

    /// <summary>The colour of a wire, also in two ("red/white", "green-yellow"); null when it is none.</summary>
    public static string? OfWire(string word)
    {
        if (Name(word) is { } plain) return plain;
        if (WireOnly.Contains(word)) return word.Equals("bare", StringComparison.OrdinalIgnoreCase) ? null : word.ToLowerInvariant();
        var pieces = word.Split('/', '-');
        return pieces.Length == 2 && Name(pieces[0]) is { } main && Name(pieces[1]) is { } tracer ? $"{main}/{tracer}" : null;
    }

    /// <summary>Colours glued with hyphens or strokes, two at least: "brn-blk-org"; null when one of them is none.</summary>
    public static string[]? Glued(string word)
    {
        var pieces = word.Split('-', '/', '.');
        if (pieces.Length < 2) return null;
        var names = pieces.Select(p => p == "?" ? "?" : Name(p)).ToArray();
        return names.Any(n => n is null) ? null : [.. names.OfType<string>()];
    }
}

namespace Lugbook.Store.Archive;

/// <summary>Which names an entry may have, so that no archive can reach outside the place to which it is unpacked.</summary>
/// <remarks>
/// Relative, forward slashes, no empty part, no "." or "..", no backslash, colon or control character, no part ending in a blank or dot,
/// at most 200 characters. Names that differ only in case are one name, because some file systems think so.
/// </remarks>
public static class EntryNames
{
    /// <summary>The manifest's own name.</summary>
    internal const string Manifest = "manifest.json";
    /// <summary>Where the tables lie.</summary>
    internal const string Tables = "tables/";

    /// <summary>What is wrong with a name, as a sentence; null when nothing is.</summary>
    public static string? Fault(string name)
    {
        if (name.Length is 0 or > 200) return "the name is empty or longer than 200 characters.";
        if (name.AsSpan().IndexOfAny('\\', ':') >= 0 || name.Any(char.IsControl)) return "the name contains a backslash, a colon or a control character.";
        foreach (var part in name.Split('/'))
        {
            if (part is "." or "..") return "the name leads out of the archive.";
            if (part.Length == 0) return "the name begins or ends with a slash, or has two together.";
            if (part[^1] is ' ' or '.') return "a part of the name ends in a blank or a dot.";
        }
        return null;
    }

    /// <summary>What is wrong with a name for something beside the tables; null when nothing is.</summary>
    internal static string? FaultOfOther(string name) =>
        Fault(name) ?? (name.Equals(Manifest, StringComparison.OrdinalIgnoreCase) || name.StartsWith(Tables, StringComparison.OrdinalIgnoreCase) ? "the name belongs to the archive itself." : null);
}

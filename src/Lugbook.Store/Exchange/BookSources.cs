using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>Which files make up a set, told by their names alone.</summary>
internal static class BookSources
{
    private static readonly string[] TextEndings = [".csv", ".tsv", ".txt"];

    /// <summary>What a file's name says.</summary>
    /// <param name="Table">The table; null when the name tells none.</param>
    /// <param name="Prefix">What stands before it, in normal form: "radio" of radio.parts.csv.</param>
    public readonly record struct Named(string? Table, string Prefix);

    /// <summary>"radio.parts.csv" is table parts of the set radio; "Parts List.csv" is table parts.</summary>
    public static Named NameOf(string fileName)
    {
        var stem = HeaderWords.Normal(Path.GetFileNameWithoutExtension(fileName));
        // The longest title wins: "radio sheet parts" ends with "parts" too.
        var hit = (from shape in Shapes.All
                   from title in shape.Titles.Prepend(shape.Name)
                   where stem == title || stem.EndsWith(" " + title, StringComparison.Ordinal)
                   orderby title.Length descending
                   select (shape.Name, Prefix: stem[..^title.Length].Trim())).FirstOrDefault();
        return new(hit.Name, hit.Name is null ? stem : hit.Prefix);
    }

    /// <summary>Chooses from a folder's files one set of tables.</summary>
    /// <param name="folder">As the user named it, for messages.</param>
    /// <param name="files">Names of all files in it.</param>
    /// <param name="prefix">The set that is wanted; null for the only one.</param>
    /// <param name="remarks">Files that were left aside.</param>
    /// <returns>Table name to file name, or the file that holds everything under the table name "".</returns>
    public static (IReadOnlyDictionary<string, string> Files, Complaint? Complaint) Choose(string folder, IEnumerable<string> files, string? prefix, List<string> remarks)
    {
        var none = new Dictionary<string, string>();
        var all = files.Where(f => !f.StartsWith('.') && !f.StartsWith("~$", StringComparison.Ordinal)).Order(StringComparer.Ordinal).ToList();
        var tables = all.Where(f => TextEndings.Contains(Path.GetExtension(f), StringComparer.OrdinalIgnoreCase)).Select(f => (File: f, Name: NameOf(f))).ToList();
        var sets = tables.Where(t => t.Name.Table is not null).GroupBy(t => t.Name.Prefix).Where(g => g.Any(t => t.Name.Table is "parts" or "lugs")).ToList();
        var chosen = prefix is not null ? sets.FirstOrDefault(s => s.Key == HeaderWords.Normal(prefix)) : sets.FirstOrDefault(s => s.Key.Length == 0) ?? (sets.Count == 1 ? sets[0] : null);
        if (chosen is null)
        {
            if (prefix is null && sets.Count > 1)
                return (none, new(folder, "", 0, $"this folder holds {sets.Count} sets: {string.Join(", ", sets.Select(s => s.Key))}.", $"Name one of them: {Path.Combine(folder, sets[0].Key)}"));
            var whole = all.Where(f => Path.GetExtension(f).ToLowerInvariant() is ".lugbook" or ".xlsx" or ".csv" or ".tsv").ToList();
            if (prefix is null && whole.Count == 1) return (new Dictionary<string, string> { [""] = whole[0] }, null);
            return (none, new(folder, "", 0, prefix is null ? "there is no list of parts or lugs in this folder." : $"there is no file or folder of this name, and no {prefix}.parts.csv or {prefix}.lugs.csv.",
                $"Put parts.csv (and, as they come, lugs.csv, wires.csv, …) into it, or name an .xlsx or .lugbook file.{(whole.Count > 0 ? $" Here are: {string.Join(", ", whole.Take(10))}." : "")}"));
        }
        foreach (var twice in chosen.GroupBy(t => t.Name.Table).Where(g => g.Count() > 1))
            return (none, new(folder, "", 0, $"{string.Join(" and ", twice.Select(t => t.File))} both claim to be the table {twice.Key}.", "Rename or move all but one."));
        var left = tables.Select(t => t.File).Except(chosen.Select(t => t.File)).ToList();
        if (left.Count > 0 && prefix is null) remarks.Add($"{folder}: not read: {string.Join(", ", left)}.");
        return (chosen.ToDictionary(t => t.Name.Table!, t => t.File), null);
    }
}

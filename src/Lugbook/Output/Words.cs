using System.Globalization;

namespace Lugbook.Output;

/// <summary>Small phrases that pages and commands share.</summary>
internal static class Words
{
    /// <summary>"1 part", "3 parts".</summary>
    public static string Count(int count, string one, string? many = null) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many ?? one + "s")}");

    /// <summary>A whole percentage, 0 for nothing of nothing.</summary>
    public static int Percent(int done, int of) => of <= 0 ? 0 : (int)Math.Round(100.0 * Math.Min(done, of) / of);

    /// <summary>A time as a bench diary has it: "25 Nov 2026, 15:48".</summary>
    public static string When(DateTimeOffset time) => time.ToLocalTime().ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture);

    /// <summary>"A, B and C".</summary>
    public static string And(IReadOnlyList<string> words) => words.Count switch
    {
        0 => "",
        1 => words[0],
        _ => $"{string.Join(", ", words.Take(words.Count - 1))} and {words[^1]}",
    };

    /// <summary>A short name for a book, from its title: "Marlpit kitchen receiver" becomes "marlpit-kitchen-receiver".</summary>
    public static string ShortName(string title)
    {
        var letters = title.Trim().ToLowerInvariant().Normalize(System.Text.NormalizationForm.FormD)
            .Where(c => CharUnicodeInfo.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark)
            .Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-');
        var name = string.Join('-', new string([.. letters]).Split('-', StringSplitOptions.RemoveEmptyEntries));
        return name.Length == 0 ? "book" : name.Length <= 48 ? name : name[..48].TrimEnd('-');
    }
}

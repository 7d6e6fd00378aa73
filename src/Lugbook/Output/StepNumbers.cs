using System.Globalization;

namespace Lugbook.Output;

/// <summary>Steps as people write them, by number or by part: "1-14, 17, C8".</summary>
internal static class StepNumbers
{
    /// <summary>Reads them; each once, rising.</summary>
    /// <param name="text">Numbers, ranges and parts with commas or blanks between.</param>
    /// <param name="positions">Part of each step, in the order of the steps.</param>
    /// <returns>The numbers, or a sentence that says what is wrong; then nothing counts.</returns>
    public static (IReadOnlyList<int> Numbers, string? Wrong) Read(string? text, IReadOnlyList<string> positions)
    {
        var most = positions.Count;
        var numbers = new SortedSet<int>();
        foreach (var piece in (text ?? "").Replace(" - ", "-", StringComparison.Ordinal).Split([',', ';', ' ', '\n', '\t'], StringSplitOptions.RemoveEmptyEntries))
        {
            var named = positions.Select((p, i) => string.Equals(p, piece, StringComparison.OrdinalIgnoreCase) ? i + 1 : 0).Where(n => n > 0).ToArray();
            numbers.UnionWith(named);
            if (named.Length > 0) continue;
            var ends = piece.Replace('–', '-').Split('-');
            if (ends.Length > 2 || !Number(ends[0], out var from) || !Number(ends[^1], out var to) || from > to)
                return ([], $"'{piece}' is neither a step, a range of steps nor a part of the sheet. Write them like 1-14, 17, C8. Nothing was entered.");
            if (from < 1 || to > most) return ([], string.Create(CultureInfo.InvariantCulture, $"'{piece}': the steps run from 1 to {most}. Nothing was entered."));
            for (var n = from; n <= to; n++) numbers.Add(n);
        }
        return numbers.Count == 0 ? ([], "No step is named. Write them like 1-14, 17.") : ([.. numbers], null);
    }

    private static bool Number(string text, out int number) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number);
}

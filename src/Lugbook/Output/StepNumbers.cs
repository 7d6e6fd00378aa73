using System.Globalization;

namespace Lugbook.Output;

/// <summary>Numbers of steps as people write them: "1-14, 17".</summary>
internal static class StepNumbers
{
    /// <summary>Reads them; each once, rising.</summary>
    /// <param name="text">Numbers and ranges with commas or blanks between.</param>
    /// <param name="most">Largest number there is.</param>
    /// <returns>The numbers, or a sentence that says what is wrong; then nothing counts.</returns>
    public static (IReadOnlyList<int> Numbers, string? Wrong) Read(string? text, int most)
    {
        var numbers = new SortedSet<int>();
        foreach (var piece in (text ?? "").Replace(" - ", "-", StringComparison.Ordinal).Split([',', ';', ' ', '\n', '\t'], StringSplitOptions.RemoveEmptyEntries))
        {
            var ends = piece.Replace('–', '-').Split('-');
            if (ends.Length > 2 || !Number(ends[0], out var from) || !Number(ends[^1], out var to) || from > to)
                return ([], $"'{piece}' is neither a step nor a range of steps. Write them like 1-14, 17. Nothing was entered.");
            if (from < 1 || to > most) return ([], string.Create(CultureInfo.InvariantCulture, $"'{piece}': the steps run from 1 to {most}. Nothing was entered."));
            for (var n = from; n <= to; n++) numbers.Add(n);
        }
        return numbers.Count == 0 ? ([], "No step is named. Write them like 1-14, 17.") : ([.. numbers], null);
    }

    private static bool Number(string text, out int number) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number);
}

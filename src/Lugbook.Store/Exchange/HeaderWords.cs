using Lugbook.Trade.Text;

namespace Lugbook.Store.Exchange;

/// <summary>Headers without what makes them differ by accident: case, accents, dots, dashes, underscores, blanks, quotes, units.</summary>
internal static class HeaderWords
{
    /// <summary>The normal form: lower case, no accents, single blanks.</summary>
    public static string Normal(string header) => HeaderText.Normal(header);

    /// <summary>How well a header names a column: 0 exactly as Lugbook writes it, 1, 2, … an alias, null not at all.</summary>
    /// <param name="header">As written.</param>
    /// <param name="column">The column.</param>
    /// <param name="unit">The unit that the header names besides, as written; null when none.</param>
    public static int? Rank(string header, Column column, out string? unit)
    {
        unit = null;
        header = header.Trim();
        if (header.Length == 0) return null;
        if (header == column.Key) return 0;
        if (Find(Normal(header), column) is { } whole) return whole + 1;
        foreach (var (name, said) in WithoutUnit(header))
            if (Find(Normal(name), column) is { } rank && (column.Measure == Measure.Words || Bracketed(header) || UnitWords.Fits(said, column.Measure)))
            {
                unit = column.Measure == Measure.Words ? null : said;
                return rank + 100;
            }
        return null;
    }

    private static bool Bracketed(string header) => header[^1] is ')' or ']';

    private static int? Find(string normal, Column column) => column.Aliases.IndexOf(normal) is var at and >= 0 ? at : null;

    /// <summary>"value (kΩ)", "x [in]", "Wert / Ω", "Wert in Ω", "x, mm", "tol %", "x_in": the name and the unit beside it.</summary>
    private static IEnumerable<(string Name, string Unit)> WithoutUnit(string header)
    {
        if (Bracketed(header) && header.LastIndexOfAny(['(', '[']) is var open and > 0) yield return (header[..open], header[(open + 1)..^1].Trim());
        if (header.LastIndexOfAny(['/', ',', ' ', '_', '-', '.']) is var cut and > 0)
        {
            var name = header[..cut].TrimEnd();
            yield return (name, header[(cut + 1)..].Trim());
            if (name.EndsWith(" in", StringComparison.OrdinalIgnoreCase)) yield return (name[..^3], header[(cut + 1)..].Trim());
        }
        if (header.Length > 1 && header[^1] == '%') yield return (header[..^1], "%");
    }
}

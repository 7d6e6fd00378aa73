using System.Globalization;
using System.Text.RegularExpressions;

namespace Lugbook.Restoration.Order.Lists;

/// <summary>Amounts of money as lists write them: "0.45", "0,45", "€ 1.234,50", "12,- EUR". Exact decimals, four places.</summary>
/// <param name="CommaIsDecimal">What the list's own numbers tell of a lone comma or point before three figures; null when they tell nothing.</param>
internal sealed partial record PriceText(bool? CommaIsDecimal)
{
    /// <summary>Dearest price that is believed.</summary>
    public const decimal Most = 1_000_000;

    /// <summary>Looks through the list's amounts for the habit: 0,45 can only have a decimal comma, 0.45 only a point.</summary>
    public static PriceText Of(IEnumerable<string> cells)
    {
        bool comma = false, point = false;
        foreach (var cell in cells)
            foreach (Match number in Number().Matches(cell))
            {
                var text = number.Value;
                var (c, p) = (text.LastIndexOf(','), text.LastIndexOf('.'));
                if (c >= 0 && p >= 0) { comma |= c > p; point |= p > c; }
                else if (c >= 0 && !MayBeThousands(text, c)) comma = true;
                else if (p >= 0 && !MayBeThousands(text, p)) point = true;
            }
        return new(comma == point ? null : comma);
    }

    /// <summary>The amount, or what is wrong with it.</summary>
    public (decimal? Amount, string? Problem) Read(string text)
    {
        var match = Whole().Match(text.Replace('−', '-').Replace('\u00A0', ' ').Trim());
        if (!match.Success) return (null, "this is not an amount of money");
        var number = match.Groups["n"].Value.Replace(" ", "", StringComparison.Ordinal).Replace("'", "", StringComparison.Ordinal);
        var (c, p) = (number.LastIndexOf(','), number.LastIndexOf('.'));
        if (c >= 0 && p >= 0) number = c > p ? Swap(number) : number.Replace(",", "", StringComparison.Ordinal);
        else if (Math.Max(c, p) is var mark and >= 0)
        {
            if (number.Count(x => x == number[mark]) > 1) number = number.Replace(number[mark].ToString(), "", StringComparison.Ordinal);
            else if (MayBeThousands(number, mark) && CommaIsDecimal != (c >= 0))
            {
                if (CommaIsDecimal is null) { if (c >= 0) return (null, $"this may be {number.Remove(mark, 1)} or {Swap(number)}, and the rest of the list does not tell"); }
                else number = number.Remove(mark, 1);
            }
            else if (c >= 0) number = Swap(number);
        }
        if (!decimal.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var amount)) return (null, "this is not an amount of money");
        if (match.Groups["minus"].Success && amount != 0) return (null, "this is less than nothing");
        return amount > Most ? (null, "this is more than a million") : (Math.Round(amount, 4, MidpointRounding.AwayFromZero), null);
    }

    /// <summary>A currency named beside an amount or in a header: a sign or three capital letters.</summary>
    public static string? CurrencyIn(string text) => Currency().Match(text) is { Success: true } m ? m.Value : null;

    private static string Swap(string number) => number.Replace(".", "", StringComparison.Ordinal).Replace(',', '.');

    private static bool MayBeThousands(string number, int mark) =>
        number.Length - mark == 4 && mark is >= 1 and <= 3 && number[0] != '0' && number.Count(x => x is ',' or '.') == 1;

    [GeneratedRegex(@"\d[\d.,]*\d|\d")]
    private static partial Regex Number();

    [GeneratedRegex(@"^(?:[€$£¥]|[A-Z]{2,3}\$?|[A-Za-z]{1,2}\.)?\s*(?<minus>-)?\s*(?:[€$£¥])?\s*(?<n>\d(?:[\d.,']|\s(?=\d{3}))*|[.,]\d+)(?:[.,]?-+)?\s*(?:[€$£¥]|[A-Za-z]{1,4}\.?)?$")]
    private static partial Regex Whole();

    [GeneratedRegex(@"[€$£¥]|\b(?!PER|NET|PCS|VAT|QTY|MOQ)[A-Z]{3}\b")]
    private static partial Regex Currency();
}

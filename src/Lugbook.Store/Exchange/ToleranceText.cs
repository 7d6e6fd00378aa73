using Lugbook.Trade.Quantities;

namespace Lugbook.Store.Exchange;

/// <summary>Tolerances as the column tol_pct holds them: 20, ±20, 20 %, -10+100, GMV.</summary>
internal static class ToleranceText
{
    /// <summary>The tolerance, or why not and where.</summary>
    public static Tolerance? Read(string text, CommaHabit habit, out int at, out string? problem)
    {
        (at, problem) = (0, null);
        if (text.Trim().TrimEnd('.').Replace(".", "", StringComparison.Ordinal).ToUpperInvariant() is "GMV" or "GUARANTEED MINIMUM VALUE" or "MIN") return Tolerance.Between(0, 1);
        if (Letter(text.Trim()) is { } coded) return Tolerance.Percent(coded);
        var spare = text.Replace("%", " ", StringComparison.Ordinal).Replace('−', '-').Replace('–', '-').Replace('/', ' ').Replace("pct", " ", StringComparison.OrdinalIgnoreCase);
        var numbers = new List<(char Sign, string Digits, int At)>();
        for (var i = 0; i < spare.Length;)
        {
            if (spare[i] == ' ') { i++; continue; }
            var sign = ' ';
            var start = i;
            if (spare[i] is '+' or '-' or '±')
            {
                sign = spare[i++];
                while (i < spare.Length && spare[i] == ' ') i++;
                // "+/-20" and "+-20" have become "+ -20" and "+-20".
                if (sign == '+' && i < spare.Length && spare[i] == '-') { sign = '±'; i++; }
                while (i < spare.Length && spare[i] == ' ') i++;
            }
            var digits = i;
            while (i < spare.Length && (char.IsAsciiDigit(spare[i]) || spare[i] is '.' or ',' || (spare[i] is 'e' or 'E' && i > digits) || (spare[i] is '-' or '+' && spare[i - 1] is 'e' or 'E'))) i++;
            if (i == digits) return Fail(i, "this is not a tolerance.", out at, out problem);
            numbers.Add((sign, spare[digits..i], start));
        }
        if (numbers.Count is 0 or > 2) return Fail(numbers.Count == 0 ? 0 : numbers[2].At, "this is not a tolerance.", out at, out problem);

        var fractions = new double[numbers.Count];
        for (var n = 0; n < numbers.Count; n++)
        {
            if (NumberText.Plain(numbers[n].Digits, habit, out _, out problem) is not { } plain) return Fail(numbers[n].At, problem!, out at, out problem);
            fractions[n] = NumberText.Scaled(plain, -2);
        }
        var (minus, plus) = numbers.Count == 1
            ? numbers[0].Sign switch { '+' => (0, fractions[0]), '-' => (fractions[0], 0), _ => (fractions[0], fractions[0]) }
            : (numbers[0].Sign, numbers[1].Sign) switch
            {
                ('-', '+') => (fractions[0], fractions[1]),
                ('+', '-') => (fractions[1], fractions[0]),
                _ => (double.NaN, 0),
            };
        if (double.IsNaN(minus)) return Fail(numbers[1].At, "two figures need two signs.", out at, out problem);
        if (minus > 1) return Fail(0, "a part cannot be more than 100 % below its mark.", out at, out problem);
        if (!double.IsFinite(plus) || plus > 100) return Fail(0, "this tolerance is beyond all bounds.", out at, out problem);
        return Tolerance.Between(minus, plus);
    }

    /// <summary>Writes it so that <see cref="Read"/> gives exactly the same fractions back.</summary>
    public static string Write(Tolerance tolerance) => tolerance.IsSymmetric
        ? NumberText.Write(tolerance.Minus, -2)
        : $"-{NumberText.Write(tolerance.Minus, -2)}+{NumberText.Write(tolerance.Plus, -2)}";

    /// <summary>Letters and colours of IEC 60062 that stand for per cent both ways.</summary>
    private static double? Letter(string text) => text.ToUpperInvariant() switch
    {
        "F" => 1,
        "G" => 2,
        "J" or "GOLD" => 5,
        "K" or "SILVER" => 10,
        "M" or "NO BAND" => 20,
        _ => null,
    };

    private static Tolerance? Fail(int where, string what, out int at, out string? problem)
    {
        (at, problem) = (where, what);
        return null;
    }
}

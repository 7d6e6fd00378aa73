using System.Globalization;

namespace Lugbook.Store.Exchange;

/// <summary>What a comma within a number means in one file.</summary>
internal enum CommaHabit
{
    /// <summary>The file does not tell; 1,500 may be two things.</summary>
    Unclear,
    /// <summary>The file writes both 0,5 and 62.5; neither 1,500 nor 1.500 can be trusted.</summary>
    Mixed,
    /// <summary>It parts thousands: 1,500 is fifteen hundred.</summary>
    Thousands,
    /// <summary>It is the decimal mark: 1,500 is one and a half.</summary>
    Decimal,
}

/// <summary>Numbers as spreadsheets of several countries write them.</summary>
internal static class NumberText
{
    /// <summary>Reads the file's own evidence: 0,5 or 12,25 can only be decimal, 62.5 only the other; failing that, the delimiter.</summary>
    public static CommaHabit Habit(IEnumerable<string> cells, char delimiter)
    {
        bool comma = false, point = false;
        foreach (var cell in cells)
        {
            var number = Leading(cell);
            var (c, p) = (number.IndexOf(','), number.IndexOf('.'));
            if (c >= 0 && p >= 0) { if (number.LastIndexOf(',') > number.LastIndexOf('.')) comma = true; else point = true; continue; }
            if (c >= 0 && c == number.LastIndexOf(',') && !CouldBeThousands(number, c)) comma = true;
            if (p >= 0 && p == number.LastIndexOf('.') && !CouldBeThousands(number, p)) point = true;
        }
        if (comma != point) return comma ? CommaHabit.Decimal : CommaHabit.Thousands;
        if (comma && point) return CommaHabit.Mixed;
        return delimiter switch { ';' => CommaHabit.Decimal, ',' => CommaHabit.Thousands, _ => CommaHabit.Unclear };
    }

    /// <summary>May the only comma or point in this number part thousands?</summary>
    public static bool CouldBeThousands(string number) => number.IndexOfAny([',', '.']) is var mark and >= 0 && CouldBeThousands(number, mark);

    /// <summary>One to three digits before, exactly three after, no leading zero: 1,500.</summary>
    private static bool CouldBeThousands(string number, int mark)
    {
        var before = number[..mark].TrimStart('-', '+');
        var after = number[(mark + 1)..];
        return before.Length is 1 or 2 or 3 && before[0] != '0' && after.Length == 3 && after.All(char.IsAsciiDigit);
    }

    /// <summary>The number that a text begins with, marks included: "1,5" of "1,5 kΩ".</summary>
    private static string Leading(string text)
    {
        text = text.Trim();
        var end = 0;
        while (end < text.Length && (char.IsAsciiDigit(text[end]) || text[end] is ',' or '.' || (end == 0 && text[end] is '-' or '+'))) end++;
        return text[..end].TrimEnd(',', '.');
    }

    /// <summary>The number in plain invariant form ("-1234.5e-6"), still text so that scaling stays exact; or why not.</summary>
    /// <param name="text">Trimmed cell.</param>
    /// <param name="habit">What a comma means here.</param>
    /// <param name="at">Where the text stops being a number.</param>
    /// <param name="problem">Null when it is one.</param>
    public static string? Plain(string text, CommaHabit habit, out int at, out string? problem)
    {
        (at, problem) = (0, null);
        var kept = new System.Text.StringBuilder(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            // Blanks and apostrophes part thousands in several countries, but only between digits.
            if (c is ' ' or '\u00A0' or '\u2009' or '\u202F' or '\'' or '’' && i > 0 && i + 3 < text.Length && char.IsAsciiDigit(text[i - 1]) && text.AsSpan(i + 1, 3).IndexOfAnyExceptInRange('0', '9') < 0
                && (i + 4 >= text.Length || !char.IsAsciiDigit(text[i + 4]))) continue;
            kept.Append(c switch { '−' or '–' => '-', _ => c });
        }
        var number = kept.ToString();
        var commas = number.Count(c => c == ',');
        var points = number.Count(c => c == '.');
        if (commas > 0 && points > 0)
            number = number.LastIndexOf(',') > number.LastIndexOf('.') ? number.Replace(".", "", StringComparison.Ordinal).Replace(',', '.') : number.Replace(",", "", StringComparison.Ordinal);
        else if (commas > 1) number = number.Replace(",", "", StringComparison.Ordinal);
        else if (points > 1 && habit == CommaHabit.Decimal) number = number.Replace(".", "", StringComparison.Ordinal);
        else if (commas == 1)
        {
            var mark = number.IndexOf(',');
            if (!CouldBeThousands(number, mark) || habit == CommaHabit.Decimal) number = number.Replace(',', '.');
            else if (habit == CommaHabit.Thousands) number = number.Remove(mark, 1);
            else
            {
                (at, problem) = (mark, $"this may be {number.Remove(mark, 1)} or {number.Replace(',', '.')}, and the rest of the file does not tell.");
                return null;
            }
        }
        else if (points == 1 && habit is CommaHabit.Decimal or CommaHabit.Mixed && CouldBeThousands(number, number.IndexOf('.')))
        {
            at = number.IndexOf('.');
            problem = $"this file writes decimal commas{(habit == CommaHabit.Mixed ? " and points" : "")}, so this may be {number.Remove(at, 1)} or {number}.";
            return null;
        }
        at = Stops(number);
        if (at == number.Length && at > 0) return number;
        at = Math.Min(at, Math.Max(0, text.Length - 1));
        problem = "this is not a number.";
        return null;
    }

    /// <summary>Index of the first character that does not belong to a number; the length when it is one.</summary>
    private static int Stops(string number)
    {
        var i = 0;
        if (i < number.Length && number[i] is '-' or '+') i++;
        var digits = Digits(number, ref i);
        if (i < number.Length && number[i] == '.') { i++; digits += Digits(number, ref i); }
        if (digits == 0) return Math.Min(i, Math.Max(0, number.Length - 1));
        if (i < number.Length && number[i] is 'e' or 'E')
        {
            var mark = i++;
            if (i < number.Length && number[i] is '-' or '+') i++;
            if (Digits(number, ref i) == 0) return mark;
        }
        return i;
    }

    private static int Digits(string number, ref int i)
    {
        var from = i;
        while (i < number.Length && char.IsAsciiDigit(number[i])) i++;
        return i - from;
    }

    /// <summary>Value of a plain number times a power of ten, rounded once; infinite when it is too large.</summary>
    public static double Scaled(string plain, int power)
    {
        if (power == 0) return double.Parse(plain, NumberStyles.Float, CultureInfo.InvariantCulture);
        var mark = plain.IndexOfAny(['e', 'E']);
        var mantissa = mark < 0 ? plain : plain[..mark];
        var exponent = (mark < 0 ? 0 : long.TryParse(plain.AsSpan(mark + 1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var e) ? Math.Clamp(e, -9999, 9999) : 0) + power;
        return double.Parse(string.Create(CultureInfo.InvariantCulture, $"{mantissa}e{exponent}"), NumberStyles.Float, CultureInfo.InvariantCulture);
    }

    /// <summary>Shortest text that reads back as exactly this number, with a power of ten taken out of it.</summary>
    public static string Write(double value, int power = 0)
    {
        var shortest = value.ToString("R", CultureInfo.InvariantCulture);
        if (power == 0 || value == 0) return shortest;
        // Shift the point in the text, so that no rounding comes in.
        var mark = shortest.IndexOf('E', StringComparison.Ordinal);
        var digits = (mark < 0 ? shortest : shortest[..mark]).TrimStart('-');
        var exponent = (mark < 0 ? 0 : int.Parse(shortest.AsSpan(mark + 1), CultureInfo.InvariantCulture)) - power;
        var point = digits.IndexOf('.', StringComparison.Ordinal);
        var whole = point < 0 ? digits : digits.Remove(point, 1);
        var place = (point < 0 ? digits.Length : point) + exponent;
        var sign = value < 0 ? "-" : "";
        if (place is < -8 or > 18) return string.Create(CultureInfo.InvariantCulture, $"{sign}{digits}E{exponent}");
        if (place <= 0) return $"{sign}0.{new string('0', -place)}{whole}".TrimEnd('0').TrimEnd('.');
        if (place >= whole.Length) return sign + Unpadded(whole + new string('0', place - whole.Length));
        var text = $"{sign}{Unpadded(whole[..place])}.{whole[place..]}";
        return text.TrimEnd('0').TrimEnd('.');

        static string Unpadded(string number) => number.TrimStart('0') is { Length: > 0 } rest ? rest : "0";
    }
}

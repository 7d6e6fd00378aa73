namespace Lugbook.Trade.Quantities;

/// <summary>Tells decimal marks from thousands marks: 0,05 and 1,5 are European; 27,000 and 27'000 are thousands.</summary>
internal static class NumberMarks
{
    /// <summary>Interprets a run of figures and marks.</summary>
    /// <param name="body">Figures with '.', ',' and apostrophes; may be empty (a fraction sign follows).</param>
    /// <param name="used">How much of it is the number, or where it goes wrong.</param>
    /// <param name="problem">What is wrong, or null.</param>
    public static Numeral Interpret(string body, out int used, out string? problem)
    {
        problem = null;
        used = body.Length;
        if (body.Length == 0) return new("0", null, true);
        var dots = Count(body, '.');
        var commas = Count(body, ',');
        var ticks = Count(body, '\'');
        if (dots + commas + ticks == 0)
        {
            var rest = body.TrimStart('0');
            return body.Length is 2 or 3 or 4 && body[0] == '0' && rest.Length > 0 ? new("0." + body, rest, false) : new(body, null, true);
        }

        var mixed = (dots > 0 ? 1 : 0) + (commas > 0 ? 1 : 0) + (ticks > 0 ? 1 : 0) > 1;
        if (mixed) return Mixed(body, out used, out problem);
        if (ticks > 0)
        {
            if (IsGrouped(body, '\'')) return new(Without(body, '\''), null, true);
            used = body.IndexOf('\'', StringComparison.Ordinal);
            return new(body[..used], null, true);
        }
        var mark = dots > 0 ? '.' : ',';
        if (Count(body, mark) > 1) return Several(body, mark, out used, out problem);
        var asDecimal = Point(body.Replace(',', '.'));
        if (!IsGrouped(body, mark)) return new(asDecimal, null, false);
        var asThousands = Without(body, mark);
        return mark == ',' ? new(asThousands, asDecimal, true) : new(asDecimal, asThousands, false);
    }

    // 1.234,5 and 1,234.5; but .02,400 is a value and something after it.
    private static Numeral Mixed(string body, out int used, out string? problem)
    {
        problem = null;
        used = body.Length;
        var last = body.LastIndexOfAny(['.', ',', '\'']);
        var group = body[..last].FirstOrDefault(c => c is '.' or ',' or '\'');
        if (body[last] != '\'' && Count(body, body[last]) == 1 && IsGrouped(body[..last], group))
            return new(Point(Without(body[..last], group) + "." + body[(last + 1)..]), null, false);
        var first = body.IndexOfAny(['.', ',', '\'']);
        var second = body.IndexOfAny(['.', ',', '\''], first + 1);
        if (body[second] == ',')
        {
            used = second;
            return Interpret(body[..second], out _, out problem);
        }
        used = second;
        problem = "a second decimal mark in one number";
        return default;
    }

    // 1.234.567 is grouped; 40,20,20 is a list; 4.7.3 is wrong.
    private static Numeral Several(string body, char mark, out int used, out string? problem)
    {
        problem = null;
        used = body.Length;
        if (IsGrouped(body, mark)) return new(Without(body, mark), null, true);
        var first = body.IndexOf(mark, StringComparison.Ordinal);
        if (mark == ',' && first > 0)
        {
            used = first;
            return new(body[..first], null, true);
        }
        used = body.IndexOf(mark, first + 1);
        problem = "a second decimal mark in one number";
        return default;
    }

    private static bool IsGrouped(string body, char mark)
    {
        var groups = body.Split(mark);
        return groups.Length > 1 && groups[0].Length is >= 1 and <= 3 && groups[0][0] != '0'
            && groups.All(g => g.All(char.IsAsciiDigit)) && groups.Skip(1).All(g => g.Length == 3);
    }

    private static string Point(string figures) => figures[0] == '.' ? "0" + figures : figures;

    private static int Count(string body, char mark) => body.Count(c => c == mark);

    private static string Without(string body, char mark) => body.Replace(mark.ToString(), "", StringComparison.Ordinal);
}

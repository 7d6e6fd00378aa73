using System.Collections.Immutable;
using System.Text.RegularExpressions;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Cuts a bench note into words.</summary>
internal static partial class Words
{
    /// <summary>What Lugbook itself adds to a read-back sentence; it is no part of the note.</summary>
    [GeneratedRegex(@";\s*(assumed|before|new|open):.*$", RegexOptions.IgnoreCase | RegexOptions.Singleline | RegexOptions.CultureInvariant)]
    private static partial Regex Tail();

    [GeneratedRegex(@"<?[-=]+>|→|(?<=\d)\.{2,}(?=[A-Za-z])", RegexOptions.CultureInvariant)]
    private static partial Regex Arrow();

    /// <summary>The words of a line; never throws.</summary>
    public static ImmutableArray<Word> Of(string line)
    {
        var text = OneSpelling(line);
        var tail = Tail().Match(text);
        var end = tail.Success ? tail.Index : text.Length;
        var words = ImmutableArray.CreateBuilder<Word>();
        var i = 0;
        while (i < end)
        {
            var c = text[i];
            if (IsSeparator(text, i))
            {
                if (c is ',' or ';' or '|' && words.Count > 0) words[^1] = words[^1] with { CommaAfter = true };
                i++;
            }
            else if (c == '"')
            {
                var close = text.IndexOf('"', i + 1);
                if (close < 0 || close >= end) close = end;
                if (close > i + 1) words.Add(new(line[(i + 1)..close].Trim(), i, Math.Min(close + 1, end), Quoted: true));
                i = close + 1;
            }
            else
            {
                var start = i;
                while (i < end && text[i] != '"' && !IsSeparator(text, i) && !(text[i] == '±' && i > start)) i++;
                Add(words, text, start, i);
            }
        }
        return words.ToImmutable();
    }

    private static void Add(ImmutableArray<Word>.Builder words, string text, int start, int end)
    {
        var comma = false;
        while (end > start && text[end - 1] is '.' or ':' or '!' or '\'' or '*') { comma |= text[end - 1] == ':'; end--; }
        while (start < end && text[start] is '\'' or ':' or '*') start++;
        if (end <= start) return;
        words.Add(new(WithoutGroups(text[start..end]), start, end, comma));
    }

    /// <summary>27,000 is 27000 and 0,05 is 0.05: <see cref="IsSeparator"/> left only such commas in the word.</summary>
    private static string WithoutGroups(string word)
    {
        var comma = word.IndexOf(',', StringComparison.Ordinal);
        if (comma < 0) return word;
        return IsGroup(word, comma) ? word.Remove(comma, 1) : word.Replace(',', '.');
    }

    private static bool IsGroup(string word, int comma)
    {
        var digits = comma + 1;
        while (digits < word.Length && char.IsAsciiDigit(word[digits])) digits++;
        return digits - comma - 1 == 3 && word[..comma].TrimStart('0').Length > 0;
    }

    private static bool IsSeparator(string text, int i)
    {
        var c = text[i];
        if (c == ',') return !IsDecimalComma(text, i);
        return char.IsWhiteSpace(c) || char.IsControl(c) || c is ';' or '|' or '=' or '(' or ')' or '[' or ']' or '{' or '}';
    }

    /// <summary>A comma inside one number: 27,000 or 0,05 or 4,7k; not that of a list of lugs (A-2,4 or 3,5).</summary>
    private static bool IsDecimalComma(string text, int i)
    {
        if (i + 1 >= text.Length || !char.IsAsciiDigit(text[i + 1])) return false;
        var start = i;
        while (start > 0 && char.IsAsciiDigit(text[start - 1])) start--;
        if (start == i || (start > 0 && !char.IsWhiteSpace(text[start - 1]) && text[start - 1] is not ('(' or '='))) return false;
        var end = i + 1;
        while (end < text.Length && char.IsAsciiDigit(text[end])) end++;
        if (end < text.Length && text[end] == ',') return false;
        if (text[start] == '0' && i == start + 1) return true;
        if (end - i - 1 == 3) return true;
        var unit = end;
        while (unit < text.Length && text[unit] == ' ') unit++;
        var unitEnd = unit;
        while (unitEnd < text.Length && (char.IsLetter(text[unitEnd]) || text[unitEnd] == 'µ')) unitEnd++;
        return unitEnd > unit && (unit == end || unitEnd - unit > 1 || text[unit] is 'k' or 'K' or 'M' or 'm')
            && Units.IsValueUnit(text[unit..unitEnd]);
    }

    /// <summary>One character for each of the many that look alike; the length stays, so that places in the line stay true.</summary>
    private static string OneSpelling(string line)
    {
        var text = string.Create(line.Length, line, static (span, source) =>
        {
            for (var i = 0; i < span.Length; i++)
                span[i] = source[i] switch
                {
                    '\u2010' or '\u2011' or '\u2012' or '\u2013' or '\u2014' or '\u2212' => '-',
                    '\u03BC' => 'µ',
                    '\u2126' => 'Ω',
                    '\u201C' or '\u201D' or '\u201E' or '\u00AB' or '\u00BB' => '"',
                    '\u2018' or '\u2019' => '\'',
                    '\u2044' or '\u2215' => '/',
                    '×' => 'x',
                    var c => c,
                };
        });
        return Arrow().Replace(text, m => new string(' ', m.Length));
    }
}

using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Turns spoken numbers into figures: "point oh five" is .05, "half a meg" is 0.5 meg, "four seventy" is 470.</summary>
internal static class NumberWords
{
    private static readonly FrozenDictionary<string, int> Small = new Dictionary<string, int>
    {
        ["zero"] = 0, ["nought"] = 0, ["naught"] = 0, ["oh"] = 0, ["one"] = 1, ["two"] = 2, ["three"] = 3, ["four"] = 4, ["five"] = 5, ["six"] = 6,
        ["seven"] = 7, ["eight"] = 8, ["nine"] = 9, ["ten"] = 10, ["eleven"] = 11, ["twelve"] = 12, ["thirteen"] = 13, ["fourteen"] = 14, ["fifteen"] = 15,
        ["sixteen"] = 16, ["seventeen"] = 17, ["eighteen"] = 18, ["nineteen"] = 19, ["twenty"] = 20, ["thirty"] = 30, ["forty"] = 40, ["fourty"] = 40,
        ["fifty"] = 50, ["sixty"] = 60, ["seventy"] = 70, ["eighty"] = 80, ["ninety"] = 90,
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, double> Parts = new Dictionary<string, double>
    {
        ["half"] = 0.5, ["quarter"] = 0.25, ["third"] = 1.0 / 3, ["eighth"] = 0.125, ["tenth"] = 0.1,
    }.ToFrozenDictionary();

    /// <summary>The words with spoken numbers and fraction signs as figures.</summary>
    public static ImmutableArray<Word> ToFigures(ImmutableArray<Word> words)
    {
        var split = ImmutableArray.CreateBuilder<Word>(words.Length);
        foreach (var word in words) Hyphens(word, split);
        var source = split.ToImmutable();
        var figures = ImmutableArray.CreateBuilder<Word>(source.Length);
        for (var i = 0; i < source.Length;)
        {
            var (text, count) = source[i].Quoted ? (null, 0) : NumberAt(source, i);
            if (text is null) { figures.Add(source[i++]); continue; }
            figures.Add(new(text, source[i].At, source[i + count - 1].End, source[i + count - 1].CommaAfter));
            i += count;
        }
        return figures.ToImmutable();
    }

    /// <summary>"half-watt", "forty-seven" and "2-watt" are two words each; "½W" and "1½" get their figures.</summary>
    private static void Hyphens(Word word, ImmutableArray<Word>.Builder into)
    {
        if (word.Quoted) { into.Add(word); return; }
        var pieces = word.Text.Split('-');
        // "A-3", "M-1" and "F-2" are lugs of strips, whether the strip is in the book yet or not.
        var isLug = pieces is [[var strip], { Length: 1 or 2 } no] && char.IsAsciiLetter(strip) && no.All(char.IsAsciiDigit);
        if (!isLug && pieces.Length > 1 && pieces.All(p => p.Length > 0 && (IsSpoken(p) || Units.Of(p) != UnitWord.None || IsFigure(p))) && pieces.Any(p => !IsFigure(p)))
        {
            var at = word.At;
            for (var i = 0; i < pieces.Length; i++)
            {
                into.Add(new(pieces[i], at, at + pieces[i].Length, i == pieces.Length - 1 && word.CommaAfter));
                at += pieces[i].Length + 1;
            }
            return;
        }
        // "pin5", "lug3"
        var digits = word.Text.AsSpan().TrimStart("pinslugtaPINSLUGTA").Length;
        if (digits is 1 or 2 && word.Text.Length > digits && word.Text[..^digits].ToLowerInvariant() is "pin" or "lug" or "tag" or "pins" or "lugs" or "tags" && word.Text[^digits..].All(char.IsAsciiDigit))
        {
            into.Add(new(word.Text[..^digits], word.At, word.End - digits));
            into.Add(word with { Text = word.Text[^digits..], At = word.End - digits });
            return;
        }
        into.Add(word with { Text = Vulgar(word.Text) });
    }

    private static string Vulgar(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            var part = text[i] switch { '½' => 0.5, '¼' => 0.25, '¾' => 0.75, '⅓' => 1.0 / 3, '⅛' => 0.125, _ => 0 };
            if (part == 0) continue;
            var whole = i == 0 ? 0 : int.TryParse(text[..i].TrimEnd('-'), NumberStyles.None, CultureInfo.InvariantCulture, out var w) ? w : -1;
            return whole < 0 || whole > 999 ? text : Figures(whole + part) + text[(i + 1)..].TrimStart('-');
        }
        return text;
    }

    private static bool IsSpoken(string text) => Small.ContainsKey(text.ToLowerInvariant()) || Parts.ContainsKey(text.ToLowerInvariant())
        || text.ToLowerInvariant() is "hundred" or "point" or "and" or "a";

    private static bool IsFigure(string text) => text.Length > 0 && text.All(c => char.IsAsciiDigit(c) || c is '.' or '/');

    private static string Figures(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);

    private static (string? Text, int Count) NumberAt(ImmutableArray<Word> words, int start)
    {
        var i = start;
        string? Key(int k) => k < words.Length && !words[k].Quoted && (k == start || !words[k - 1].CommaAfter) ? words[k].Key : null;
        bool IsUnit(int k) => k < words.Length && Units.At(words, k).Unit != UnitWord.None;

        // "half a watt", "a quarter meg", "three quarter meg"
        if (Key(i) is { } first && Parts.TryGetValue(first, out var part))
        {
            var next = Key(i + 1) is "a" or "an" or "of" ? i + 2 : i + 1;
            return IsUnit(next) ? (Figures(part), next - start) : (null, 0);
        }
        if (Key(i) is "three" or "3" && Key(i + 1) is "quarter" or "quarters")
        {
            var next = Key(i + 2) is "of" ? i + 3 : i + 2;
            if (Key(next) is "a") next++;
            if (IsUnit(next)) return ("0.75", next - start);
        }
        // "1 1/2 watt", "1 and a half meg"
        if (words[i].Text is { Length: <= 2 } figure && figure.All(char.IsAsciiDigit) && Key(i + 1) is { } second
            && Fraction(second) is { } fraction && IsUnit(i + 2) && Units.At(words, i + 2).Unit is UnitWord.Watt or UnitWord.Meg or UnitWord.Ampere)
            return (Figures(int.Parse(figure, CultureInfo.InvariantCulture) + fraction), 2);
        if (words[i].Text is { Length: <= 3 } whole && whole.All(char.IsAsciiDigit) && Key(i + 1) is "and" && Key(i + 2) is "a" && Key(i + 3) is "half" && IsUnit(i + 4))
            return (Figures(int.Parse(whole, CultureInfo.InvariantCulture) + 0.5), 4);

        if (words[i].Text is { Length: 1 or 2 } tens && tens.All(char.IsAsciiDigit) && Key(i + 1) is "hundred") return (tens + "00", 2);

        var (value, count, plural) = WholeAt(Key, i);
        var text = value?.ToString(CultureInfo.InvariantCulture) ?? "";
        i += count;
        if (Key(i) is "and" && Key(i + 1) is "a" && Key(i + 2) is "half" && value is not null && IsUnit(i + 3)) return (text + ".5", i + 3 - start);
        if (Key(i) is "point" or "decimal")
        {
            var digits = DigitsAt(Key, i + 1, out var used);
            if (used > 0) return ($"{text}.{digits}", i + 1 + used - start);
        }
        // A lone "one" or "a" is no number unless a unit follows: "the one on the left".
        if (value is null || (count == 1 && plural && !IsUnit(i))) return (null, 0);
        return (text, i - start);
    }

    private static double? Fraction(string text)
    {
        var slash = text.IndexOf('/', StringComparison.Ordinal);
        return slash > 0 && int.TryParse(text.AsSpan(0, slash), NumberStyles.None, CultureInfo.InvariantCulture, out var over)
            && int.TryParse(text.AsSpan(slash + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var under) && over < under && under <= 16
            ? (double)over / under : null;
    }

    /// <summary>"forty seven", "four hundred and seventy", "four seventy", "a hundred".</summary>
    private static (int? Value, int Count, bool NeedsUnit) WholeAt(Func<int, string?> key, int start)
    {
        var i = start;
        int? value = null;
        if (key(i) is { } first && Small.TryGetValue(first, out var n) && first != "oh")
        {
            value = n;
            i++;
            if (key(i) is { } next && Small.TryGetValue(next, out var more) && more > 0)
            {
                if (n is >= 20 and < 100 && more < 10) { value = n + more; i++; }                            // forty seven
                else if (n is >= 1 and < 10 && more >= 10) { value = (n * 100) + more; i++; Ones(); }         // four seventy; one fifty
            }
        }
        if (key(i) is "hundred" && value is null or (>= 1 and < 100))
        {
            value = (value ?? 1) * 100;
            i++;
            if (key(i) is "and" && key(i + 1) is { } after && Small.ContainsKey(after)) i++;
            if (key(i) is { } tens && Small.TryGetValue(tens, out var t) && t >= 1) { value += t; i++; if (t >= 20) Ones(); }
        }
        return (value, i - start, key(start) is "one");

        void Ones()
        {
            if (value % 10 == 0 && key(i) is { } ones && Small.TryGetValue(ones, out var o) && o is >= 1 and < 10) { value += o; i++; }
        }
    }

    /// <summary>Figures after "point": "oh five", "double oh one", "zero four seven", "twenty five", or figures.</summary>
    private static string DigitsAt(Func<int, string?> key, int start, out int used)
    {
        var (i, digits) = (start, "");
        while (key(i) is { } word && digits.Length < 9)
        {
            if (word is "double" && key(i + 1) is { } twice && Small.TryGetValue(twice, out var d) && d < 10) { digits += $"{d}{d}"; i += 2; }
            else if (word is "o") { digits += "0"; i++; }
            else if (Small.TryGetValue(word, out var n))
            {
                // "point oh five six hundred", "point oh two four fifty": the volts begin here.
                if (digits.Length > 0 && n is > 0 and < 20 && (key(i + 1) is "hundred" || (n < 10 && key(i + 1) is { } then && Small.TryGetValue(then, out var tens) && tens >= 10))) break;
                if (n >= 20 && key(i + 1) is { } ones && Small.TryGetValue(ones, out var o) && o is >= 1 and < 10) { n += o; i++; }
                digits += n.ToString(CultureInfo.InvariantCulture);
                i++;
            }
            else if (digits.Length == 0 && word.Length <= 6 && word.All(char.IsAsciiDigit)) { digits += word; i++; break; }
            else break;
        }
        used = digits.Length == 0 ? 0 : i - start;
        return digits;
    }
}

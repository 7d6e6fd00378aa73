using System.Collections.Frozen;
using System.Text;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Cuts folded text into numbers, words and signs.</summary>
internal static class Lexer
{
    private static readonly FrozenDictionary<string, double> NumberWords = new Dictionary<string, double>(StringComparer.OrdinalIgnoreCase)
    {
        ["half"] = 0.5, ["quarter"] = 0.25, ["quarters"] = 0.25, ["third"] = 1.0 / 3, ["eighth"] = 0.125, ["tenth"] = 0.1, ["halb"] = 0.5, ["viertel"] = 0.25,
        ["one"] = 1, ["two"] = 2, ["three"] = 3, ["four"] = 4, ["five"] = 5, ["six"] = 6, ["seven"] = 7, ["eight"] = 8, ["nine"] = 9, ["ten"] = 10,
        ["twelve"] = 12, ["fifteen"] = 15, ["sixteen"] = 16, ["twenty"] = 20, ["thirty"] = 30, ["forty"] = 40, ["fifty"] = 50, ["hundred"] = 100,
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    private const string Separators = "-+/%~×,;:()=&@°?'*.#_|[]{}<>!\\±^$®™©§";

    /// <summary>Cuts a text. On failure the list is what was read before it.</summary>
    public static List<Token> Cut(string text, out Failure? failure)
    {
        failure = null;
        var tokens = new List<Token>();
        var at = 0;
        while (at < text.Length)
        {
            if (text[at] == ' ')
            {
                at++;
                continue;
            }
            var glued = at > 0 && text[at - 1] != ' ';
            if (Numeral.Begins(text, at) && !(text[at] == ',' && glued))
            {
                var start = at;
                if (Numeral.Read(text, at, out at, out var problem) is not { } number)
                {
                    failure = new(at, problem!, "Write one decimal mark, or a blank between two numbers.");
                    return tokens;
                }
                tokens.Add(new(TokenKind.Number, text[start..at], number, start, at, glued));
            }
            else if (char.IsLetter(text[at]))
                at = Word(text, at, glued, tokens);
            else if (PlusMinus(text, at) is var length and > 0)
            {
                tokens.Add(new(TokenKind.Sign, "±", default, at, at + length, glued));
                at += length;
            }
            else if (text.AsSpan(at).StartsWith("...", StringComparison.Ordinal))
            {
                tokens.Add(new(TokenKind.Sign, "-", default, at, at + 3, glued));
                at += 3;
            }
            else if (Separators.Contains(text[at], StringComparison.Ordinal))
                tokens.Add(new(TokenKind.Sign, text[at].ToString(), default, at, ++at, glued));
            else
            {
                failure = new(at, "this character is in no marking that I know", "Take it out, or write ? for what cannot be read.");
                return tokens;
            }
        }
        return tokens;
    }

    private static int PlusMinus(string text, int at)
    {
        if (text[at] == '±') return 1;
        var rest = text.AsSpan(at);
        if (rest.StartsWith("+/-", StringComparison.Ordinal) || rest.StartsWith("-/+", StringComparison.Ordinal) || rest.StartsWith("+-/", StringComparison.Ordinal)) return 3;
        return rest.StartsWith("+-", StringComparison.Ordinal) ? 2 : 0;
    }

    // Letters, and the dots of W.V.D.C.; a closing dot belongs to a word of two letters and more, unless figures follow a single one.
    private static int Word(string text, int start, bool glued, List<Token> tokens)
    {
        var word = new StringBuilder();
        var at = start;
        while (true)
        {
            var segment = at;
            while (at < text.Length && char.IsLetter(text[at]) && Numeral.Vulgar(text[at]) is null) word.Append(text[at++]);
            var dotThenLetter = at + 1 < text.Length && text[at] == '.' && char.IsLetter(text[at + 1]);
            if (!dotThenLetter || at - segment > 2) break;
            at++;
        }
        var end = at;
        if (at < text.Length && text[at] == '.' && (word.Length > 1 || !Numeral.Begins(text, at))) end = at + 1;

        var letters = word.ToString();
        if (letters is "w" or "W" && end + 1 < text.Length && text[end] == '/' && text[end + 1] is 'w' or 'W' && (end + 2 == text.Length || !char.IsLetterOrDigit(text[end + 2])))
        {
            tokens.Add(new(TokenKind.Word, "WW", default, start, end + 2, glued));   // wire-wound
            return end + 2;
        }
        if (letters is "w" or "W" && end + 1 < text.Length && text[end] == '/' && char.IsLetter(text[end + 1]))
        {
            tokens.Add(new(TokenKind.Word, "with", default, start, end + 1, glued));
            return end + 1;
        }
        if (NumberWords.TryGetValue(letters, out var value)) Spelt(new(TokenKind.Number, letters, Numeral.Of(value), start, end, glued, true), tokens);
        else if (letters is "a" or "an" && tokens.Count > 0 && tokens[^1].Spelt) { }   // half a watt
        else if (ClassLetterAtEnd(text, letters, at))
        {
            tokens.Add(new(TokenKind.Word, letters[..^1], default, start, at - 1, glued));
            tokens.Add(new(TokenKind.Word, letters[^1..], default, at - 1, at, true));
        }
        else tokens.Add(new(TokenKind.Word, letters, default, start, end, glued));
        return end;
    }

    // three-quarter, one half
    private static void Spelt(Token token, List<Token> tokens)
    {
        var last = tokens.Count - 1;
        if (last >= 0 && tokens[last].Is('-')) last--;
        if (token.Number.Value < 1 && last >= 0 && tokens[last].Spelt && tokens[last].Number.Value >= 1)
        {
            var first = tokens[last];
            tokens.RemoveRange(last, tokens.Count - last);
            token = new(TokenKind.Number, "fraction", Numeral.Of(first.Number.Value * token.Number.Value), first.Start, token.End, first.Glued, true);
        }
        tokens.Add(token);
    }

    // 100nFX2, 275VACX2
    private static bool ClassLetterAtEnd(string text, string letters, int end) =>
        letters.Length > 1 && (letters[^1] is 'X' or 'Y')
        && end < text.Length && (text[end] is '1' or '2') && (end + 1 == text.Length || !char.IsAsciiDigit(text[end + 1]))
        && (UnitSpellings.Find(letters[..^1]) is not null || VoltWords.Find(letters[..^1]) is not null || letters.Length == 2);
}

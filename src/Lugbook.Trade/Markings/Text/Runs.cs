using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Finds how far a code written without blanks reaches: 473J630 is one, .02MFD400V is a value and a voltage.</summary>
internal static class Runs
{
    /// <summary>The tokens of the code that begins here, or an empty list when a unit is spelt out and no code begins.</summary>
    public static List<Token> At(IReadOnlyList<Token> tokens, int at)
    {
        if (SpacedVoltageCode(tokens, at) is { } spacedCode) return spacedCode;
        var run = new List<Token> { tokens[at] };
        var spaced = tokens[at].IsNumber && LoneLetterAfterBlank(tokens, at);
        if (spaced) return [tokens[at], tokens[at + 1]];
        for (var i = at + 1; i < tokens.Count; i++)
        {
            var token = tokens[i];
            if (!token.Glued || token.Kind == TokenKind.Sign || token.Spelt) break;
            if (token.IsWord && token.Text.Length > 1 && i == at + 1 && tokens[at].IsNumber && IsSpeltUnit(token.Text)) return [];
            if (token.IsNumber && i + 1 < tokens.Count && tokens[i + 1] is { IsWord: true, Glued: true } next && IsOtherUnit(next.Text) && !CodeFollows(tokens, i) && !(i == at + 2 && next.Text == "A")) break;
            if (token.IsWord && i > at && BeginsClassOrDielectric(tokens, i)) break;
            if (token.IsWord && i == at + 1 && token.Text is "x" or "X" && i + 1 < tokens.Count && tokens[i + 1] is { Glued: true, IsNumber: true }) return [];
            run.Add(token);
        }
        if (run.Count < 2) return [];
        if (run[0].IsNumber && run[1].IsWord && IsOtherUnit(run[1].Text) && !CodeFollows(tokens, at)) return [];
        return run;
    }

    /// <summary>Volts, watts, amperes, hertz: a unit that is never the value's.</summary>
    public static bool IsOtherUnit(string word) =>
        VoltWords.Find(word) is not null || OtherWords.Watts(word) is not null || OtherWords.Amperes(word) is not null || OtherWords.IsHertz(word) || OtherWords.IsPercent(word);

    private static bool IsSpeltUnit(string word) => UnitSpellings.Find(word) is not null || WithToleranceLetter(word) is not null;

    /// <summary>A spelt unit with a tolerance letter at its end (pFJ, KΩK), or null.</summary>
    public static (UnitSense Sense, char Letter)? WithToleranceLetter(string word) =>
        word.Length >= 3 && (word[^1] is 'J' or 'K' or 'M' or 'G') && word[..^1] is { Length: >= 2 } unit && UnitSpellings.Find(unit) is { } sense
            ? (sense, word[^1])
            : null;

    /// <summary>Does a class or a dielectric begin at this word: 100NPO, 470X7R, 100nFX2?</summary>
    public static bool BeginsClassOrDielectric(IReadOnlyList<Token> tokens, int at)
    {
        var word = tokens[at].Text.ToUpperInvariant();
        if (word is "NPO" or "COG" or "GMV") return true;
        if (at + 1 >= tokens.Count || !tokens[at + 1].Glued || !tokens[at + 1].IsFigures(1)) return false;
        var closed = at + 2 >= tokens.Count || !tokens[at + 2].Glued || tokens[at + 2].IsLetter;
        return word == "NP" || (word is "X" or "Y" or "Z" && closed && (tokens[at + 1].Text is "1" or "2" or "3" || (at + 2 < tokens.Count && tokens[at + 2] is { IsLetter: true, Glued: true })));
    }

    // 2G 104K: the voltage code, then a code with its tolerance.
    private static List<Token>? SpacedVoltageCode(IReadOnlyList<Token> tokens, int at)
    {
        if (at + 3 >= tokens.Count || !tokens[at].IsFigures(1) || !tokens[at + 1].IsLetter || !tokens[at + 1].Glued) return null;
        if (tokens[at + 2].Glued || !tokens[at + 2].IsFigures(3) || tokens[at + 2].Text[2] is '0' or '7' || !tokens[at + 3].IsLetter) return null;
        if (at + 4 < tokens.Count && tokens[at + 4].Glued) return null;
        return VoltageCodes.Of(tokens[at].Text[0] - '0', tokens[at + 1].Text[0]) is not null && "JKMZ".Contains(char.ToUpperInvariant(tokens[at + 3].Text[0]), StringComparison.Ordinal)
            ? [tokens[at], tokens[at + 1], tokens[at + 2], tokens[at + 3]]
            : null;
    }

    // 2A474J, 2W475K: the letter that looks like a unit belongs to a voltage code. 5W100RJ: it does not.
    private static bool CodeFollows(IReadOnlyList<Token> tokens, int at)
    {
        if (at + 2 >= tokens.Count || !tokens[at].IsFigures(1) || !tokens[at + 1].IsLetter || !tokens[at + 2].Glued || !tokens[at + 2].IsFigures(3)) return false;
        var letter = tokens[at + 1].Text[0];
        if (VoltageCodes.Of(tokens[at].Text[0] - '0', letter) is null) return letter is 'A' or 'a' && LooksLikeCode(tokens, at);
        if (letter is not ('W' or 'w')) return true;
        return tokens[at + 2].Text[2] >= '3' && LooksLikeCode(tokens, at);
    }

    private static bool LooksLikeCode(IReadOnlyList<Token> tokens, int at)
    {
        var tail = at + 3 < tokens.Count && tokens[at + 3].IsWord && tokens[at + 3].Glued ? tokens[at + 3].Text : "";
        return tail.Length == 0 || (tail.Length == 1 && "JKMZ".Contains(char.ToUpperInvariant(tail[0]), StringComparison.Ordinal));
    }

    // 47 K, 104 K, 8 H; not 250 X2, 400 V or 12 A.
    private static bool LoneLetterAfterBlank(IReadOnlyList<Token> tokens, int at)
    {
        if (at + 1 >= tokens.Count || tokens[at + 1] is not { IsWord: true, Glued: false } word) return false;
        if (at + 2 < tokens.Count && tokens[at + 2] is { Glued: true, IsNumber: true }) return false;
        if (at + 2 < tokens.Count && tokens[at + 2].IsWord && (UnitSpellings.Find(word.Text + tokens[at + 2].Text) is not null || (at + 3 < tokens.Count && tokens[at + 3].IsWord && UnitSpellings.Find(word.Text + tokens[at + 2].Text + tokens[at + 3].Text) is not null))) return false;
        if (word.Text.Length == 1) return !IsOtherUnit(word.Text) && (Letters.IsMultiplier(word.Text[0]) || ToleranceLetters.IsCommon(word.Text[0]));
        return word.Text.Length == 2 && tokens[at].IsNumber && UnitSpellings.Find(word.Text) is null && !IsOtherUnit(word.Text) && OtherWords.Kind(word.Text) is null
            && VoltWords.Qualifier(word.Text) is null && !OtherWords.IsIdle(word.Text)
            && ToleranceLetters.OldBritish(word.Text[0], 1e-10) is not null && ToleranceLetters.OldBritishTempco(word.Text[1]) is not null;
    }
}

using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

internal sealed partial class Grammar
{
    /// <summary>The unit that stands at this token, taken as long as it goes: K OHMS, V D.C. WKG; null when none does.</summary>
    /// <param name="at">Index of the token.</param>
    /// <param name="afterNumber">A number is before it, so that hyphens (10-watt) and degrees are allowed.</param>
    private UnitWord? UnitAt(int at, bool afterNumber)
    {
        if (afterNumber && at + 1 < _tokens.Count && _tokens[at].Is('-') && _tokens[at].Glued && _tokens[at + 1] is { IsWord: true, Glued: true } && UnitAt(at + 1, false) is { } hyphened)
            return hyphened with { Tokens = hyphened.Tokens + 1 };
        if (at >= _tokens.Count) return null;
        if (_tokens[at].Is('°')) return new(UnitRole.Temperature, [], 0, VoltTraits.None, at + 1 < _tokens.Count && _tokens[at + 1].IsWord ? 2 : 1, _tokens[at].Start);
        if (_tokens[at].Is('~') && afterNumber) return new(UnitRole.Volts, [], 0, VoltTraits.Ac, 1, _tokens[at].Start);
        if (!_tokens[at].IsWord) return null;
        for (var count = 4; count >= 1; count--)
            if (Joined(at, count) is { } joined && UnitOf(joined.Word, count, joined.Tokens, at, afterNumber) is { } unit)
                return unit.Role == UnitRole.Volts ? WithSigns(unit, at) : unit;
        return null;
    }

    // So many words as one, over blanks and hyphens: "MEG OHM", "micro-micro-farad".
    private (string Word, int Tokens)? Joined(int at, int count)
    {
        var word = "";
        var i = at;
        for (var n = 0; n < count; n++)
        {
            if (n > 0 && i + 1 < _tokens.Count && _tokens[i].Is('-') && _tokens[i].Glued && _tokens[i + 1].Glued) i++;
            if (i >= _tokens.Count || !_tokens[i].IsWord) return null;
            // A word with figures glued to it is a code of its own: "µF X2", "V R47".
            if (n > 0 && _tokens[i].Text.Length == 1 && i + 1 < _tokens.Count && _tokens[i + 1] is { IsNumber: true, Glued: true }) return null;
            word += _tokens[i++].Text;
        }
        return (word, i - at);
    }

    private UnitWord? UnitOf(string word, int count, int tokens, int at, bool afterNumber)
    {
        var start = _tokens[at].Start;
        if (VoltWords.Find(word) is { } volts) return new(UnitRole.Volts, [], volts.Exponent, volts.Traits, tokens, start);
        if (OtherWords.IsPercent(word)) return new(UnitRole.Percent, [], 0, VoltTraits.None, tokens, start);
        var henry = UnitSpellings.Find(word) is { Unit: Unit.Henry };
        if (!henry && OtherWords.Watts(word) is { } watts) return new(UnitRole.Watts, [], watts, VoltTraits.None, tokens, start);
        if (OtherWords.Amperes(word) is { } amperes) return new(UnitRole.Amperes, [], amperes, VoltTraits.None, tokens, start);
        if (OtherWords.IsHertz(word)) return new(UnitRole.Hertz, [], 0, VoltTraits.None, tokens, start);
        if (word is "C" or "c" or "degC" or "DEGC" or "DEG" or "deg" or "degrees" && afterNumber && _facts.HasValue && at > 0 && _tokens[at - 1].IsNumber && _tokens[at - 1].Number.Value is 40 or 55 or 65 or 70 or 85 or 100 or 105 or 125)
            return new(UnitRole.Temperature, [], 0, VoltTraits.None, tokens, start);
        if (count > 1 && word.Length > 1 && MOhm(word, at) is { } both) return new(UnitRole.Value, both, 0, VoltTraits.None, tokens, start);
        if (word is "Ω") return new(UnitRole.Value, [.. Letters.OmegaSenses('Ω', "unit as spelt")], 0, VoltTraits.None, tokens, start);
        if (UnitSpellings.Find(word) is { } sense) return new(UnitRole.Value, Spelt(word, sense), 0, VoltTraits.None, tokens, start);
        if (count == 1 && Runs.WithToleranceLetter(word) is { } lettered) return new(UnitRole.Value, Spelt(word[..^1], lettered.Sense), 0, VoltTraits.None, tokens, start, lettered.Letter);
        return null;
    }

    private static LetterSense[] Spelt(string word, UnitSense sense)
    {
        const string Printed = "the unit is printed";
        if (word is "mF") return [new(sense, Habit.MMicrofarad, "mF as microfarad", "on a valve-era part mF is microfarad"), new(new(Unit.Farad, -3), Habit.Milli, "unit as spelt", "mF is millifarad in today's notation", 0.03)];
        if (word is "mΩ" or "mohm") return [new(sense, Habit.None, "unit as spelt", Printed), new(new(Unit.Ohm, 6), Habit.MMillion, "unit as spelt", "a small m typed for a large one")];
        if (word is "MΩ" or "MOHM" or "MOHMS" or "MOhm") return [new(sense, Habit.MMillion, "unit as spelt", Printed), new(new(Unit.Ohm, 3), Habit.MThousand, MegohmAsThousand, "the same prints put M for thousand before the unit too", 0.3)];
        return sense.Factor != 1
            ? [new(sense, Habit.None, "electrostatic unit", word.ToUpperInvariant() is "JAR" or "JARS" ? "1 jar is 1/900 µF" : "1 cm of capacitance is 1.11265 pF")]
            : [new(sense, Habit.None, "unit as spelt", Printed)];
    }

    /// <summary>Only offered where the number leaves no other way: 250 MΩ.</summary>
    private const string MegohmAsThousand = "M as thousand";

    // "250 M OHMS": a lone M before the word is as ambiguous as ever.
    private LetterSense[]? MOhm(string word, int at) => _tokens[at].Text is "M" or "m" && UnitSpellings.Find(word) is { Unit: Unit.Ohm } && _tokens[at].Text.Length < word.Length
        ? [.. Letters.Senses('M', asPoint: false).Where(s => s.Sense.Unit == Unit.Ohm)]
        : null;

    // 250V~, 400 V=, 500 V- : the sign of the current after the unit.
    private UnitWord WithSigns(UnitWord unit, int at)
    {
        var next = at + unit.Tokens;
        if (next >= _tokens.Count) return unit;
        if (_tokens[next].Is('~')) return unit with { Tokens = unit.Tokens + 1, Traits = unit.Traits | VoltTraits.Ac };
        var direct = _tokens[next].Is('=') || (_tokens[next].Is('-') && _tokens[next].Glued && (next + 1 >= _tokens.Count || !_tokens[next + 1].IsNumber || !_tokens[next + 1].Glued));
        return direct ? unit with { Tokens = unit.Tokens + 1, Traits = unit.Traits | VoltTraits.Dc } : unit;
    }
}

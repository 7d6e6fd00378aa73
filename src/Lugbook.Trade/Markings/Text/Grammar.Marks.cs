using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

internal sealed partial class Grammar
{
    // ±10 %, +80-20 %, -10 +100 %, 20 %, ±0.5 pF. Nothing is used unless all of it fits.
    private bool Tolerance()
    {
        var token = _tokens[_at];
        if (token.Is('±')) return PlusMinus();
        if (token.Is('+') || token.Is('-')) return TwoSided(_at);
        if (!token.IsNumber || !IsPercentAt(_at + 1, out var used)) return false;
        Percent(token, 1 + used);
        return true;
    }

    private void Percent(Token number, int tokens)
    {
        if (number.Number.Value is not (>= 0 and <= 100))
            Fail(number.Start, "a tolerance of more than 100 per cent downwards", "Write a tolerance as ±10 % or +80-20 %.");
        else
            _facts.Tolerance ??= Quantities.Tolerance.Percent(number.Number.Value);
        _at += tokens;
    }

    private bool PlusMinus()
    {
        if (Peek(1) is not { IsNumber: true } number) return false;
        if (IsPercentAt(_at + 2, out var used))
        {
            Percent(number, 2 + used);
            return true;
        }
        if (UnitAt(_at + 2, afterNumber: true) is { Role: UnitRole.Value } unit && unit.Senses.Any(s => s.Sense.Unit == Unit.Farad))
        {
            _facts.TolerancePicofarads = unit.Senses.First(s => s.Sense.Unit == Unit.Farad).Sense.Of(number.Number) * 1e12;
            _at += 2 + unit.Tokens;
            return true;
        }
        if (number.Number.Value is >= 0 and <= 100)   // "±10": the sign alone says it
        {
            _facts.Tolerance ??= Quantities.Tolerance.Percent(number.Number.Value);
            _at += 2;
            return true;
        }
        return false;
    }

    /// <summary>Does a two-sided tolerance begin at this sign?</summary>
    private bool TwoSidedAt(int at, out double minus, out double plus, out int end)
    {
        (minus, plus, end) = (0, 0, at);
        if (at + 1 >= _tokens.Count || !(_tokens[at].Is('+') || _tokens[at].Is('-')) || !_tokens[at + 1].IsNumber) return false;
        var first = _tokens[at + 1].Number.Value;
        var upFirst = _tokens[at].Is('+');
        var next = at + 2;
        var firstHasPercent = IsPercentAt(next, out var used);
        if (firstHasPercent) next += used;
        if (next < _tokens.Count && _tokens[next] is var slash && (slash.Is('/') || slash.Is(','))) next++;
        if (next + 1 < _tokens.Count && _tokens[next].Is(upFirst ? '-' : '+') && _tokens[next + 1].IsNumber && (IsPercentAt(next + 2, out var closing) || firstHasPercent))
        {
            var second = _tokens[next + 1].Number.Value;
            (minus, plus) = upFirst ? (second, first) : (first, second);
            end = next + 2 + closing;
            return minus <= 100 && plus <= 1000;
        }
        if (!firstHasPercent) return false;
        // A single signed figure: "+20 %" is one-sided, "-10 %" after a dash is ±10 %.
        (minus, plus) = upFirst ? (0, first) : (first, first);
        end = at + 2 + used;
        return first <= 100;
    }

    private bool TwoSided(int at)
    {
        if (!TwoSidedAt(at, out var minus, out var plus, out var end)) return false;
        _facts.Tolerance = Quantities.Tolerance.Between(minus / 100, plus / 100);
        _at = end;
        return true;
    }

    private bool IsPercentAt(int at, out int used)
    {
        used = 0;
        if (at >= _tokens.Count) return false;
        if (_tokens[at].Is('%') || (_tokens[at].IsWord && OtherWords.IsPercent(_tokens[at].Text))) used = 1;
        else if (_tokens[at].Is('-') && at + 1 < _tokens.Count && (_tokens[at + 1].Is('%') || (_tokens[at + 1].IsWord && OtherWords.IsPercent(_tokens[at + 1].Text)))) used = 2;
        else if (at + 1 < _tokens.Count && _tokens[at].Text is "per" or "PER" or "Per" && _tokens[at + 1].Text.ToUpperInvariant() is "CENT" or "CENT.") used = 2;
        return used > 0;
    }

    // A lone tolerance letter after the value: "100 pF J".
    private bool ToleranceLetter(Token token)
    {
        if (!token.IsLetter || token.Glued || _facts.Values.Count == 0 || _facts.Tolerance is not null || Peek(1) is { Glued: true, IsNumber: true }) return false;
        if (token.Text.ToUpperInvariant() is "X" or "Y")
        {
            _facts.Doubts.Add($"class {token.Text.ToUpperInvariant()} is marked without its number: replace it by {token.Text.ToUpperInvariant()}2 or better");
            _at++;
            return true;
        }
        var value = _facts.Values[^1].Candidates[0];
        if (value.Tolerance is not null || value.Unit == Unit.Henry || ToleranceLetters.Of(token.Text[0], value.Unit, value.Value) is not { } tolerance) return false;
        _facts.Tolerance = tolerance;
        _at++;
        return true;
    }

    // X1, Y2, "class X2", X1/Y2.
    private bool Class()
    {
        var token = _tokens[_at];
        if (!token.IsLetter || char.ToUpperInvariant(token.Text[0]) is not ('X' or 'Y') || Peek(1) is not { Glued: true } number || !number.IsFigures(1)) return false;
        if (Peek(2) is { Glued: true, IsWord: true } after && char.ToUpperInvariant(after.Text[0]) is not ('X' or 'Y')) return false;   // X7R
        var written = token.Text.ToUpperInvariant() + number.Text;
        if (Enum.TryParse<SafetyClass>(written, out var known) && written.Length == 2 && Enum.IsDefined(known)) _facts.Classes.Add(known);
        else if (written is "X3" or "Y3" or "Y4") _facts.Doubts.Add($"class {written} is obsolete or for lower surges: replace it by X2 or Y2 or better");
        else return false;
        _at += 2;
        return true;
    }

    // X7R, NP0, N750; a two-letter Japanese pair or an odd class 1 code only after a value.
    private bool Dielectric()
    {
        var token = _tokens[_at];
        if (!token.IsWord || _facts.Dielectric is not null) return false;
        var written = token.Text;
        var used = 1;
        while (used < 3 && Peek(used) is { Glued: true } more && more.Kind != TokenKind.Sign && !more.Spelt && written.Length + more.Text.Length <= 5 && (more.IsNumber ? more.Text.All(char.IsAsciiDigit) : more.Text.Length == 1))
        {
            written += more.Text;
            used++;
        }
        if (Peek(used) is { Glued: true, Kind: not TokenKind.Sign }) return false;
        if (Dielectrics.Find(written) is not { } found) return false;
        var plain = found.Code is "NP0" or "C0G" || (written.Length == 3 && written[0] is 'X' or 'Y' or 'Z' or 'x' or 'y' or 'z');
        var number = written.Length is >= 4 or 2;
        var others = number && (_facts.HasValue || _tokens.Skip(_at + used).Any(t => t.IsNumber));
        if (!plain && !others && !(_facts.HasValue && !token.Glued)) return false;
        (_facts.Dielectric, _facts.TempcoPpm) = (found.Code, found.TempcoPpm);
        _at += used;
        return true;
    }

    // 40/085/21: the climatic category of a European part.
    private bool Climatic()
    {
        if (Peek() is not { IsNumber: true } cold || Peek(1) is not { } a || !a.Is('/') || Peek(2) is not { IsNumber: true } hot || Peek(3) is not { } b || !b.Is('/') || Peek(4) is not { IsNumber: true } days) return false;
        if (cold.Text is not ("10" or "25" or "40" or "55" or "65") || hot.Text is not ("070" or "70" or "085" or "85" or "100" or "125" or "105" or "155") || days.Text is not ("04" or "4" or "10" or "21" or "56")) return false;
        _at += 5;
        return true;
    }
}

using System.Collections.Immutable;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

internal sealed partial class Grammar
{
    /// <summary>One number of a list, with its own unit or the code that it is.</summary>
    private sealed record Element(Numeral Number, int Count, int Start, char Before, UnitWord? Unit, ImmutableArray<Candidate> Code);

    // 3 x .1, 2x50: the count of equal sections. "X" alone between two numbers.
    private bool Multiplied()
    {
        if (_facts.HasValue) return false;
        if (Peek() is { IsNumber: true, Spelt: true, Number: { IsWhole: true, Value: >= 2 and <= 4 } } spelt && Peek(1) is { IsNumber: true, Spelt: false })
        {
            _count = (int)spelt.Number.Value;   // two 8 MFD
            _at++;
            return true;
        }
        if (Peek() is { IsNumber: true, Number: { IsWhole: true, Value: >= 2 and <= 4 } } how)
        {
            var word1 = Peek(1) is { } hyphen && hyphen.Is('-') ? 2 : 1;
            if (Peek(word1) is not { IsWord: true } sections || sections.Text.ToUpperInvariant() is not ("SECTION" or "SECTIONS" or "SECT" or "SECTS")) return false;
            _count = (int)how.Number.Value;
            _at += word1 + 1;
            return true;
        }
        if (Peek() is not { IsWord: true } word) return false;
        var count = word.Text.ToUpperInvariant() switch { "DUAL" or "TWIN" or "DOUBLE" or "DOPPEL" => 2, "TRIPLE" => 3, _ => 0 };
        if (count == 0) return false;
        if (Peek(1) is { IsNumber: true }) _count = count;
        _at++;
        return true;
    }

    private int _count = 1;

    // A list of numbers joined by section marks, and what its units make of it.
    private void Numbers()
    {
        var elements = new List<Element>();
        var before = '\0';
        while (_failure is null)
        {
            if (NextElement(before) is not { } element) break;
            elements.Add(element);
            if (element.Unit is { Role: not (UnitRole.Value or UnitRole.Volts) }) break;
            if (Separator() is not { } sign) break;
            before = sign;
        }
        if (_failure is not null) return;
        if (_pendingUnit is { } pending && elements.Count > 0)
        {
            if (elements[^1].Unit is null && elements[^1].Code.IsEmpty) elements[^1] = elements[^1] with { Unit = pending };
            _pendingUnit = null;
        }
        if (elements.Count > 0 && _count > 1)
        {
            if (elements.Count == 1) elements[0] = elements[0] with { Count = _count };
            _count = 1;
        }
        Distribute(elements);
    }

    // The sign between two elements; it is used only if a number or a code follows and no tolerance begins.
    private char? Separator()
    {
        if (Peek() is not { } sign) return null;
        if (sign.IsWord && sign.Text.ToUpperInvariant() is "TO" or "BIS" && Peek(1) is { IsNumber: true })
        {
            _at++;
            return '-';
        }
        if ((sign.Is('×') || (sign.IsWord && sign.Text is "x" or "X" && !Runs.BeginsClassOrDielectric(_tokens, _at))) && Peek(1) is { IsNumber: true })
        {
            _at++;
            return 'x';
        }
        if (sign.Kind != TokenKind.Sign || !"-/+&,;".Contains(sign.Text[0], StringComparison.Ordinal)) return null;
        if (Peek(1) is not { } next) return null;
        if (!next.IsNumber && !(next.IsLetter && Letters.Opens(next.Text[0]) && Peek(2) is { IsNumber: true, Glued: true })) return null;
        if (TwoSidedAt(_at, out _, out _, out _)) return null;
        if (next.IsNumber && IsPercentAt(_at + 2, out _)) return null;
        _at++;
        return sign.Text[0];
    }

    private Element? NextElement(char before)
    {
        if (Peek() is not { } token) return null;
        var count = 1;
        if (token.IsNumber && Peek(1) is { } x && (x.Is('×') || x.Is('*') || (x.IsWord && x.Text is "x" or "X")) && Peek(2) is { IsNumber: true } times
            && token.Number is { IsWhole: true, Value: >= 2 and <= 6 } && times.Number.Value != token.Number.Value)
        {
            count = (int)token.Number.Value;
            _at += 2;
            token = _tokens[_at];
        }
        if (token.IsWord) return CodeElement(Runs.At(_tokens, _at), count, before);
        if (VoltageCodeAfter(token) || Celsius(token)) return null;
        if (FractionElement(token, count, before) is { } fraction) return fraction;
        if (_failure is not null) return null;

        var run = Runs.At(_tokens, _at);
        if (run.Count > 1) return CodeElement(run, count, before);
        var number = Thousands(token, out var used);
        _at += used;
        var unit = UnitAt(_at, afterNumber: true);
        // MFD 40-30-20 VOLTS 150-150-25: a unit before the next number is not this one's.
        if (unit is not null && _pendingUnit is { } pending && unit.Role != pending.Role && Peek(unit.Tokens) is { IsNumber: true }) unit = null;
        if (unit is not null) _at += unit.Tokens;
        return Checked(new(number, count, token.Start, before, unit, []));
    }

    // 104J 2A: the voltage code after a three-digit code.
    private bool VoltageCodeAfter(Token token)
    {
        if (_facts.Values.Count == 0 || _facts.Volts.Count > 0 || !token.IsFigures(1) || Peek(1) is not { IsLetter: true, Glued: true } letter || Peek(2) is { Glued: true, Kind: not TokenKind.Sign }) return false;
        if (!_facts.Values[^1].Candidates.Any(c => c.Form == Form.ThreeDigitCode && c.Unit == Unit.Farad) || VoltageCodes.Of(token.Text[0] - '0', letter.Text[0]) is not { } volts) return false;
        if (letter.Text[0] is 'V' or 'v' or 'W' or 'w') return false;
        _facts.Volts.Add(new(volts, VoltTraits.None, token.Start, _voltGroup++));
        _at += 2;
        return true;
    }

    // 105C after a value and volts: the highest temperature.
    private bool Celsius(Token token)
    {
        if (!_facts.HasValue || !token.IsNumber || token.Number.Value is not (40 or 55 or 65 or 70 or 71 or 85 or 100 or 105 or 125 or 155) || Peek(1) is not { Text: "C" or "c", Glued: true } || Peek(2) is { Glued: true, Kind: not TokenKind.Sign }) return false;
        _at += 2;
        return true;
    }

    private Element? CodeElement(List<Token> run, int count, char before)
    {
        if (run.Count < 2) return null;
        var candidates = CompactCode.Read(run, out var failure);
        if (failure is not null)
        {
            var zero = run[0].IsNumber && run[0].Number.Value == 0 && (run.Count < 3 || run.Skip(2).All(t => !t.IsNumber || t.Number.Value == 0));
            if (zero) Fail(run[0].Start, "the value is zero", "Leave a wire link without a value; look at the figures again.");
            _failure ??= failure;
            return null;
        }
        _at += run.Count;
        // "4K7 OHM", "250M OHM", "100n F": the unit once more.
        if (UnitAt(_at, afterNumber: false) is { Role: UnitRole.Value } again && again.Senses.All(s => s.Sense.Exponent == 0) && candidates.Any(c => c.Unit == again.Senses[0].Sense.Unit && c.Form is Form.LetterPoint or Form.LetterTail))
        {
            candidates = [.. candidates.Where(c => c.Unit == again.Senses[0].Sense.Unit && c.Form is Form.LetterPoint or Form.LetterTail && c.Tolerance is null)];
            _at += again.Tokens;
        }
        return candidates.IsEmpty ? null : new(run[0].Number, count, run[0].Start, before, null, candidates);
    }

    private void Code(List<Token> run)
    {
        var elements = new List<Element>();
        if (CodeElement(run, 1, '\0') is not { } first) return;
        elements.Add(first);
        while (_failure is null && Separator() is { } sign && NextElement(sign) is { } more)
        {
            elements.Add(more);
            if (more.Unit is { Role: not (UnitRole.Value or UnitRole.Volts) }) break;
        }
        if (_failure is null) Distribute(elements);
    }

    // 1/2W, 1/4 MEG, 1 1/2 MEG, 1-1/2 W; not 20/20 MFD or .0047/600.
    private Element? FractionElement(Token token, int count, char before)
    {
        var whole = 0.0;
        var at = _at;
        if (token.IsNumber && token.Number is { IsWhole: true, Value: < 10 } && at + 3 < _tokens.Count)
        {
            var dash = _tokens[at + 1].Is('-') && _tokens[at + 1].Glued;
            var start = at + (dash ? 2 : 1);
            if (IsFraction(start) && UnitAt(start + 3, afterNumber: true) is { } mixedUnit && (mixedUnit.Role == UnitRole.Value || dash || _facts.HasValue && mixedUnit.Role == UnitRole.Watts))
            {
                whole = token.Number.Value;
                at = start;
            }
        }
        if (!IsSlashed(at)) return null;
        var (over, under) = (_tokens[at].Number.Value, _tokens[at + 2].Number.Value);
        var unit = UnitAt(at + 3, afterNumber: true);
        var lonely = unit is null && _facts.HasValue && IsFraction(at) && under is 2 or 4 or 8 && over == 1;   // 47K 1/2
        if (under == 0)
        {
            Fail(_tokens[at + 2].Start, "a division by zero", "Write the fraction as 1/4 or as .25.");
            return null;
        }
        if (!IsFraction(at) || !(unit is { Role: UnitRole.Value or UnitRole.Watts or UnitRole.Amperes } || lonely)) return null;
        var first = _tokens[_at];
        _at = at + 3 + (unit?.Tokens ?? 0);
        unit ??= new(UnitRole.Watts, [], 0, VoltTraits.None, 0, first.Start);
        return new(Numeral.Of(whole + over / under), count, first.Start, before, unit, []);
    }

    private bool IsSlashed(int at) => at + 2 < _tokens.Count && _tokens[at].IsNumber && _tokens[at + 1].Is('/') && _tokens[at + 2].IsNumber
        && _tokens[at].Number.IsWhole && _tokens[at + 2].Number.IsWhole;

    private bool IsFraction(int at)
    {
        if (!IsSlashed(at)) return false;
        var (over, under) = (_tokens[at].Number.Value, _tokens[at + 2].Number.Value);
        if (over is not (1 or 2 or 3 or 5 or 7) || under is not (2 or 3 or 4 or 5 or 8 or 10 or 16 or 20) || over >= under) return false;
        return over == 1 || (over == 3 && under is 4 or 5 or 8 or 16) || (over == 2 && under == 3) || (over is 5 or 7 && under == 8);
    }

    // 27 000 ohm: figures in groups of three, when the unit after them leaves no doubt.
    private Numeral Thousands(Token token, out int used)
    {
        used = 1;
        if (!token.IsNumber || !token.Number.IsWhole || token.Text.Length > 3 || !token.Text.All(char.IsAsciiDigit) || token.Text[0] == '0') return token.Number;
        var figures = token.Text;
        while (Peek(used) is { } group && group.IsFigures(3) && !group.Glued)
        {
            figures += group.Text;
            used++;
        }
        if (used == 1) return token.Number;
        var unit = UnitAt(_at + used, afterNumber: true);
        var plain = unit is { Role: UnitRole.Value } && unit.Senses.Any(s => s.Sense is { Unit: Unit.Ohm, Exponent: 0 } or { Unit: Unit.Farad, Exponent: -12 });
        var round = figures.EndsWith("000", StringComparison.Ordinal) || unit is { Role: UnitRole.Volts } && token.Text.Length == 1 && _facts.HasValue;
        if (plain || (round && (unit is null || unit.Role is UnitRole.Volts))) return new(figures, null, true);
        used = 1;
        return token.Number;
    }

    private Element? Checked(Element element)
    {
        if (element.Number.Value == 0 && element.Unit is not { Role: UnitRole.Temperature or UnitRole.Percent })
            Fail(element.Start, element.Unit is { Role: UnitRole.Volts } ? "the voltage is zero" : "the value is zero", "Look at the figures again; write ? for what cannot be read.");
        else if (!double.IsFinite(element.Number.Value))
            Fail(element.Start, "the number is beyond all measure", "Look at the figures again.");
        return _failure is null ? element : null;
    }
}

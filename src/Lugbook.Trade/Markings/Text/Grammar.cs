using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Goes through the tokens once and collects what they say. Value, volts, watts and the rest may stand in any order.</summary>
/// <remarks>
/// Files: this one has the loop and the words; Grammar.Numbers the numbers and fractions, Grammar.Units their units, Grammar.Lists what a list of them says;
/// Grammar.Marks tolerances, classes and dielectrics. What the value is in the end is decided in <see cref="Assembly"/>.
/// </remarks>
internal sealed partial class Grammar
{
    private readonly List<Token> _tokens;
    private readonly string _text;
    private readonly Facts _facts = new();
    private int _at;
    private Failure? _failure;
    private UnitWord? _pendingUnit;
    private bool _mark;          // a section mark stood before what comes now
    private int _voltGroup;

    private Grammar(string text, List<Token> tokens) => (_text, _tokens) = (text, tokens);

    /// <summary>A unit as found: value, volts, watts and so on, with how many tokens it took.</summary>
    private sealed record UnitWord(UnitRole Role, IReadOnlyList<LetterSense> Senses, int Exponent, VoltTraits Traits, int Tokens, int Start, char ToleranceLetter = '\0');

    private enum UnitRole { Value, Volts, Watts, Amperes, Percent, Hertz, Temperature }

    /// <summary>Reads all tokens; the facts, or the failure.</summary>
    public static Facts? Read(string text, List<Token> tokens, out Failure? failure)
    {
        var grammar = new Grammar(text, tokens);
        grammar._facts.Length = text.Length;
        while (grammar._failure is null && grammar._at < tokens.Count)
        {
            var before = grammar._at;
            grammar.Step();
            if (grammar._at == before) grammar.Fail(tokens[before].Start, "this is in no marking that I know", "Take it out, or write ? for what cannot be read.");
        }
        failure = grammar._failure;
        return failure is null ? grammar._facts : null;
    }

    private Token? Peek(int ahead = 0) => _at + ahead < _tokens.Count ? _tokens[_at + ahead] : null;

    private void Fail(int at, string problem, string remedy) => _failure ??= new(at, problem, remedy);

    private void Step()
    {
        if (Tolerance() || Climatic() || Class() || Dielectric() || Multiplied()) return;
        var token = _tokens[_at];
        if (token.IsNumber)
        {
            Numbers();
            return;
        }
        if (token.Kind == TokenKind.Sign)
        {
            Sign(token);
            return;
        }
        Word(token);
    }

    private void Sign(Token token)
    {
        var next = Peek(1);
        if (token.Is('-') && next is { IsNumber: true, Glued: true } && !_facts.HasValue && (_at == 0 || !token.Glued))
        {
            Fail(token.Start, "a value below zero", "Leave the minus out, or put a blank after a dash.");
            return;
        }
        if (token.Is('~')) _facts.VoltTraits |= VoltTraits.Ac;
        if (token.Is('+') && next is null) _facts.Polarised = true;
        if (token.Is('±') || token.Is('%'))
        {
            Fail(token.Start, token.Is('%') ? "a per cent sign without its number" : "a tolerance without its number", "Write a tolerance as ±10 % or +80-20 %.");
            return;
        }
        if (token.Is('?')) _facts.Doubts.Add("something that could not be read was left out");
        if ("+/&,;-".Contains(token.Text[0], StringComparison.Ordinal)) _mark = true;
        if (token.Is('@')) _pendingUnit = new(UnitRole.Volts, [], 0, VoltTraits.None, 0, token.Start);
        _at++;
    }

    private void Word(Token token)
    {
        var next = Peek(1);
        if (token.Text is "and" or "AND" or "und") { _mark = true; _at++; return; }
        if (token.Text is "at" or "AT" && next is { IsNumber: true } && _facts.HasValue)
        {
            _pendingUnit = new(UnitRole.Volts, [], 0, VoltTraits.None, 0, token.Start);
            _at++;
            return;
        }
        if (token.Text.ToUpperInvariant() is "GMV" or "GUARANTEED")
        {
            _facts.Tolerance = Quantities.Tolerance.Between(0, 1);
            _at++;
            while (Peek() is { IsWord: true } more && more.Text.ToUpperInvariant() is "MIN" or "MINIMUM" or "VALUE" or "VAL") _at++;
            return;
        }
        if (VoltWords.Qualifier(token.Text) is { } traits)
        {
            _facts.VoltTraits |= traits;
            _at++;
            return;
        }
        if (TypePrefix(token) || Numbering(token)) return;
        if (Runs.At(_tokens, _at) is { Count: > 1 } run && (TypeNumbers.Begins(token.Text) || (token.IsLetter && run[1].IsNumber && LetterCodeOpens())))
        {
            Code(run);
            return;
        }
        if (Taper(token)) return;
        if (PrefixUnit(token)) return;
        if (ToleranceLetter(token)) return;
        if (OtherWords.Kind(token.Text) is { } kind && token.Text.Length > 1)
        {
            // "silver mica" and "mica capacitor": the more telling word stands.
            if (_facts.Kind is null or Parts.PartKind.Capacitor || kind.Kind is Parts.PartKind.SilverMica) _facts.Kind = _facts.Kind == Parts.PartKind.SilverMica ? _facts.Kind : kind.Kind;
            _facts.DielectricWord ??= kind.Dielectric;
            _at++;
            if (kind.Dielectric is not null && Peek() is { IsNumber: true, Glued: true } && _tokens.Skip(_at + 1).Any(t => t.IsNumber)) _at++;   // MKT1822 0.1
            return;
        }
        Skip(token, next);
    }

    // Words that say nothing of the value: known idle ones silently, others with a doubt; a likely misspelt unit is a failure.
    private void Skip(Token token, Token? next)
    {
        _at++;
        if (OtherWords.IsIdle(token.Text)) return;
        if (token.IsLetter && token.Text.ToUpperInvariant() is "R" or "C" or "L" && !_facts.HasValue && next is { } after && (after.IsNumber || after.Is(':') || after.Is('='))) return;
        var afterNumber = _at >= 2 && _tokens[_at - 2].IsNumber && !_tokens[_at - 2].Spelt;
        var isUnit = UnitSpellings.Find(token.Text) is not null || (token.IsLetter && Letters.IsMultiplier(token.Text[0]));
        if (isUnit && !_facts.HasValue && next is null)
            Fail(token.Start, "no figure stands with this unit", "Write the value's figures too: 47K, .05 MFD.");
        else if (isUnit)
            Fail(token.Start, "a second unit, or a unit without its number", "Write one unit after each value.");
        else if (next is { Glued: true, IsNumber: true } || token.Text.Length == 1)
            Fail(token.Start, $"'{token.Text}' is in no marking that I know", "Take it out, or write ? for what cannot be read.");
        else if (afterNumber && (token.Text.Length <= 3 || UnitSpellings.Near(token.Text) is not null))
            Fail(token.Start, $"'{token.Text}' is no unit that I know", CompactCode.Suggest(token.Text));
        else
            _facts.Unread.Add(token.Text);
    }

    // MFD .05: the unit before its number. Also volts: "WV 400".
    private bool PrefixUnit(Token token)
    {
        if (UnitAt(_at, afterNumber: false) is not { } unit || unit.Role is UnitRole.Percent or UnitRole.Temperature) return false;
        var after = _at + unit.Tokens;
        while (after < _tokens.Count && (_tokens[after].Is('=') || _tokens[after].Is(':') || _tokens[after].Is('.'))) after++;
        if (after >= _tokens.Count || !_tokens[after].IsNumber) return false;
        if (unit.Role == UnitRole.Value && (_facts.HasValue || (token.IsLetter && token.Text[0] is not ('Ω' or 'µ')))) return false;
        if (unit.Role is UnitRole.Amperes or UnitRole.Hertz or UnitRole.Watts && token.IsLetter) return false;
        if (unit.Role == UnitRole.Volts && _facts.Volts.Count > 0) return false;
        _pendingUnit = unit;
        _at = after;
        return true;
    }

    // A letter code that opens with its letter: R47, µ22, M1; not the R12 that names a part when a value follows.
    private bool LetterCodeOpens() => Letters.Opens(_tokens[_at].Text[0]) && _tokens[_at + 1].Text.All(char.IsAsciiDigit);

    // "Pat. No. 1,234,567": a number that says nothing of the value, as long as another one follows.
    private bool Numbering(Token token)
    {
        if (token.Text.ToUpperInvariant() is not ("PAT" or "PATS" or "PATENT" or "PATENTS" or "NO" or "NR" or "SERIAL" or "LOT")) return false;
        var at = _at + 1;
        while (at < _tokens.Count && (_tokens[at].IsWord || _tokens[at].Is('.') || _tokens[at].Is('#')) && _tokens[at].Text.ToUpperInvariant() is "NO" or "NOS" or "NR" or "PEND" or "PENDING" or "." or "#") at++;
        if (at < _tokens.Count && _tokens[at].IsNumber && _tokens.Skip(at + 1).Any(t => t.IsNumber)) at++;
        _at = at;
        return true;
    }

    // DM15-471J: the case size before the code.
    private bool TypePrefix(Token token)
    {
        if (!TypeNumbers.Begins(token.Text) || Peek(1) is not { Glued: true } size || !size.IsFigures(2) || Peek(2) is not { } dash || !dash.Is('-') || Peek(3) is not { IsNumber: true, Glued: true }) return false;
        _facts.Kind ??= token.Text is "DM" or "CM" or "CMR" or "CB" ? Parts.PartKind.Mica : null;
        _at += 3;
        return true;
    }

    // B500K, A1M: the taper of a control before its value.
    private bool Taper(Token token)
    {
        if (!token.IsLetter || token.Text is not ("A" or "B" or "C") || _facts.HasValue || Peek(1) is not { IsNumber: true, Glued: true } || Peek(2) is not { IsLetter: true, Glued: true } unit) return false;
        if (char.ToUpperInvariant(unit.Text[0]) is not ('K' or 'M')) return false;
        _facts.Doubts.Add($"{token.Text} before the value is taken as the taper of a control");
        _facts.Kind ??= Parts.PartKind.Control;
        _at++;
        return true;
    }
}

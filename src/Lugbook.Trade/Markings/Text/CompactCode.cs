using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Reads a code written without blanks: 4K7J, R47, 473J630, 2G104K, 470JN, .1K63.</summary>
internal sealed class CompactCode
{
    private readonly IReadOnlyList<Token> _run;
    private readonly List<Candidate> _found = [];
    private int _furthest;

    private CompactCode(IReadOnlyList<Token> run) => _run = run;

    /// <summary>All ways to take the whole run; empty with a failure when there is none.</summary>
    public static ImmutableArray<Candidate> Read(IReadOnlyList<Token> run, out Failure? failure)
    {
        failure = null;
        var code = new CompactCode(run);
        code.LetterForPoint();
        code.LetterAfter();
        code.ThreeDigits();
        code.VoltageFirst();
        code.VoltageLast();
        code.NumberAndTolerance();
        code.OldBritish();
        code._found.AddRange(TypeNumbers.Read(run));
        if (code._found.Count == 0) failure = code.Explain();
        return [.. code._found];
    }

    // 4K7, R47, with a tolerance letter or volts after it.
    private void LetterForPoint()
    {
        string figures;
        int next;
        char letter;
        if (_run[0].IsLetter && _run.Count > 1 && Plain(1))
        {
            (figures, letter, next) = ("0." + _run[1].Text, _run[0].Text[0], 2);
            if (!Letters.Opens(letter)) return;
        }
        else if (Plain(0) && _run.Count > 2 && _run[1].IsLetter && Plain(2) && _run[2].Text.Length <= 3)
            (figures, letter, next) = (_run[0].Text + "." + _run[2].Text, _run[1].Text[0], 3);
        else return;

        var weight = _run[0].Text.Length >= 3 && next == 3 ? 0.1 : 1;   // 100K5 is an odd thing to print
        foreach (var sense in Letters.Senses(letter, asPoint: true))
        {
            var value = sense.Sense.Of(new(figures, null, false));
            Finish(new(sense.Sense.Unit, [value], Form.LetterPoint, sense.Code, sense.Reason) { Habit = sense.Habit, Weight = sense.Weight * weight }, next);
        }
    }

    // 47K, 100n, 470R, 1M5 is above; 47KK has a tolerance after it.
    private void LetterAfter()
    {
        if (!_run[0].IsNumber || _run.Count < 2 || !_run[1].IsWord) return;
        var word = _run[1].Text;
        foreach (var number in Both(_run[0].Number))
            foreach (var sense in Letters.Senses(word[0], asPoint: false))
            {
                var candidate = new Candidate(sense.Sense.Unit, [sense.Sense.Of(number.Number)], Form.LetterTail, sense.Code, sense.Reason)
                {
                    Habit = sense.Habit,
                    OtherMark = number.OtherWay ? _run[0].Number.OtherMark : null,
                    Weight = sense.Weight,
                };
                Finish(candidate, 1, word[1..]);
            }
    }

    // 473, 473J, 473J630; and the same figures as a true value.
    private void ThreeDigits()
    {
        if (!_run[0].IsFigures(3)) return;
        if (CodeValue(_run[0].Text) is { } coded)
            Finish(new(Unit.Farad, [coded], Form.ThreeDigitCode, "three-digit code", $"{_run[0].Text[..2]} and {Noughts(_run[0].Text[2])} in picofarads"), 1);
        if (CodeOhms(_run[0].Text) is { } ohms)
            Finish(new(Unit.Ohm, [ohms], Form.ThreeDigitCode, "three-digit code", $"{_run[0].Text[..2]} and {Noughts(_run[0].Text[2])} in ohms, as on modern controls and small resistors"), 1);
        if (_run[0].Text[0] != '0')
            Finish(new(Unit.Farad, [_run[0].Number.Times(-12)], Form.TrueValue, "true value", "the figures as they stand, in picofarads"), 1);
    }

    // 2G104K
    private void VoltageFirst()
    {
        if (_run.Count < 3 || !_run[0].IsFigures(1) || !_run[1].IsLetter || !_run[2].IsFigures(3)) return;
        if (VoltageCodes.Of(_run[0].Text[0] - '0', _run[1].Text[0]) is not { } volts || CodeValue(_run[2].Text) is not { } value) return;
        Finish(new(Unit.Farad, [value], Form.ThreeDigitCode, "voltage code and three-digit code", $"{_run[0].Text}{_run[1].Text} is {Volt(volts)}, then two figures and the noughts") { Volts = volts }, 3);
    }

    // 104K2G, 104J2A
    private void VoltageLast()
    {
        if (_run.Count != 4 || !_run[0].IsFigures(3) || !_run[1].IsLetter || !_run[2].IsFigures(1) || !_run[3].IsLetter) return;
        if (VoltageCodes.Of(_run[2].Text[0] - '0', _run[3].Text[0]) is not { } volts || CodeValue(_run[0].Text) is not { } value) return;
        if (ToleranceLetters.Of(_run[1].Text[0], Unit.Farad, value) is not { } tolerance) return;
        _found.Add(new(Unit.Farad, [value], Form.ThreeDigitCode, "three-digit code and voltage code", $"two figures and the noughts, then {_run[2].Text}{_run[3].Text} is {Volt(volts)}") { Tolerance = tolerance, Volts = volts });
    }

    // .047K, 1K63, 47J: a number, its tolerance, perhaps volts.
    private void NumberAndTolerance()
    {
        if (!_run[0].IsNumber || _run.Count < 2 || !_run[1].IsWord || _run[1].Text.Length > 1) return;
        var letter = _run[1].Text[0];
        var number = _run[0].Number;
        var plain = number.IsWhole && number.Value < 100;
        if (plain && !ToleranceLetters.IsCommon(letter)) return;   // 47Q is no marking
        if (number.Value is > 0 and < 20)
            Finish(new(Unit.Farad, [number.Times(-6)], Form.MicrofaradsAndLetter, "microfarads and tolerance letter", "a small number with a tolerance letter is in microfarads"), 1);
        if (number.Value >= 1 && !_run[0].IsFigures(3))
            Finish(new(Unit.Farad, [number.Times(-12)], Form.TrueValue, "picofarads and tolerance letter", "the figures as they stand, in picofarads, then the tolerance"), 1);
        if (char.ToUpperInvariant(letter) is 'J' or 'G' or 'F' or 'D')
            Finish(new(Unit.Ohm, [number.Value], Form.OhmsAndLetter, "ohms and tolerance letter", "the figures as they stand, in ohms, then the tolerance"), 1);
    }

    // 470JN
    private void OldBritish()
    {
        if (_run.Count != 2 || !_run[0].IsNumber || !_run[1].IsWord || _run[1].Text.Length != 2 || !(_run[0].Number.Value > 0)) return;
        var value = _run[0].Number.Times(-12);
        if (ToleranceLetters.OldBritish(_run[1].Text[0], value) is not { } tolerance || ToleranceLetters.OldBritishTempco(_run[1].Text[1]) is not { } ppm) return;
        _found.Add(new(Unit.Farad, [value], Form.OldBritish, "old British ceramic", "old British tubular ceramics print the true value, the tolerance and the temperature coefficient") { Tolerance = tolerance, TempcoPpm = ppm, Weight = _run[1].Text.Any(char.IsLower) ? 0.03 : _run[1].Text[0] == 'R' ? 0.3 : 1 });
        if (_run[0].IsFigures(3) && CodeValue(_run[0].Text) is { } coded)
            _found.Add(new(Unit.Farad, [coded], Form.ThreeDigitCode, "three-digit code", "by the modern code two figures and the noughts") { Tolerance = ToleranceLetters.Of(_run[1].Text[0], Unit.Farad, coded), TempcoPpm = ppm, Weight = 0.15 });
    }

    // What may follow the value: a unit, a tolerance letter, volts. All of the run must be used.
    private void Finish(Candidate candidate, int next, string? tail = null)
    {
        if (!(candidate.Value > 0) || !double.IsFinite(candidate.Value)) return;
        if (tail is null && next < _run.Count && _run[next].IsWord) tail = _run[next++].Text;
        else if (tail is not null) next = 2;
        tail ??= "";
        foreach (var done in WithTail(candidate, tail))
        {
            if (next == _run.Count)
            {
                _found.Add(done);
                continue;
            }
            _furthest = Math.Max(_furthest, next);
            var last = next == _run.Count - 1 && _run[next].IsNumber && done.Unit == Unit.Farad && done.Volts is null ? _run[next].Number.Value : 0;
            if (!VoltageCodes.IsPrinted(last)) continue;
            if (tail.Length > 0 || done.Form == Form.LetterPoint) _found.Add(done with { Volts = last });
            else if (done.Form == Form.LetterTail && done.Habit == Habit.None) _found.Add(done with { Volts = last, Weight = done.Weight * 0.3 });   // 22n400
        }
    }

    private static IEnumerable<Candidate> WithTail(Candidate candidate, string tail)
    {
        // 2m5H: a multiplier of henries needs its H.
        var whole = candidate.Unit == Unit.Henry && candidate.Reason.StartsWith("H is", StringComparison.Ordinal);
        if (candidate.Unit == Unit.Henry && !whole && tail is not ("H" or "h" or "HY" or "Hy")) yield break;
        if (candidate.Unit == Unit.Farad && candidate.Form is Form.LetterPoint or Form.LetterTail && tail is "H" or "h") candidate = candidate with { Weight = candidate.Weight * 0.1 };
        if (tail.Length == 0)
        {
            if (candidate.Form is not (Form.MicrofaradsAndLetter or Form.OhmsAndLetter)) yield return candidate;
            yield break;
        }
        if (UnitSpellings.Find(tail) is { } unit && unit.Unit == candidate.Unit && unit.Exponent == 0 && candidate.Form is Form.LetterPoint or Form.LetterTail)
        {
            yield return candidate;
            yield break;
        }
        var units = candidate.Unit switch { Unit.Farad => "F", Unit.Ohm => "ΩωR", _ => "H" };
        var lettered = candidate.Form is Form.LetterPoint or Form.LetterTail;
        if (lettered && units.Contains(char.ToUpperInvariant(tail[0]), StringComparison.Ordinal) && !(candidate.Unit == Unit.Farad && tail[0] is 'R' or 'r'))
        {
            if (tail.Length == 1) yield return candidate;
            else if (tail.Length == 2 && ToleranceLetters.Of(tail[1], candidate.Unit, candidate.Value) is { } after) yield return candidate with { Tolerance = after };
        }
        if (candidate.Unit is not (Unit.Ohm or Unit.Farad) || tail.Length > 2) yield break;
        if (candidate.Unit == Unit.Ohm && tail.Length == 1 && char.ToUpperInvariant(tail[0]) is 'A' or 'B' or 'C')
        {
            yield return candidate with { Doubt = $"{tail} after the value is the taper if this is a control" };
            yield break;
        }
        if (ToleranceLetters.Of(tail[0], candidate.Unit, candidate.Value) is not { } tolerance) yield break;
        if (candidate.Unit == Unit.Ohm && !ToleranceLetters.IsCommon(tail[0]) && candidate.Form != Form.LetterPoint) yield break;
        if (candidate.Form == Form.LetterTail && candidate.Unit == Unit.Farad && !ToleranceLetters.IsCommon(tail[0]) && tail[0] is not ('Z' or 'z' or 'S' or 's')) yield break;
        if (tail.Length == 1) yield return candidate with { Tolerance = tolerance, Weight = candidate.Weight * LetterWeight(tail[0]) };
        else if (candidate.Unit == Unit.Farad && candidate.Form is Form.LetterPoint or Form.LetterTail && ToleranceLetters.OldBritishTempco(tail[1]) is { } ppm)
            yield return candidate with { Tolerance = tolerance, TempcoPpm = ppm, Weight = candidate.Weight * 0.5 };
    }

    // n and m in lower case are multipliers, and N for 30 per cent is rare; the others are typed in either case.
    private static double LetterWeight(char letter) => letter switch { 'n' or 'm' or 'p' or 'u' => 0.03, 'N' => 0.3, 'P' => 0.05, 'H' or 'h' => 0.2, _ => char.IsLower(letter) ? 0.6 : 1 };

    private Failure Explain()
    {
        var first = _run[0];
        if (first.IsFigures(1) && _run.Count > 2 && _run[1].IsLetter && _run[2].IsFigures(3))
            return CodeValue(_run[2].Text) is null
                ? new(_run[2].Start + 2, "no three-digit code ends so: 0 to 6, 8 and 9 are its last figures", "Look at the figures again.")
                : new(first.Start, $"{first.Text}{_run[1].Text} is no voltage code", "The codes run from 0B (1.25 V) to 3K (8000 V). Look at the figure and the letter again.");
        if (first.IsFigures(3) && CodeValue(first.Text) is null)
            return new(first.Start + 2, "no three-digit code ends so: 0 to 6, 8 and 9 are its last figures", "Look at the figures again.");
        for (var i = 1; i < _run.Count; i++)
        {
            if (!_run[i].IsWord) continue;
            var seen = _run.Take(i).Any(t => t.IsWord && Letters.IsMultiplier(t.Text[0]));
            if (seen && Letters.IsMultiplier(_run[i].Text[0]) && i >= 2)
                return new(_run[i].Start, "two value letters in one value", "Write 4K7 for 4700 Ω, and put a blank between two values.");
            if (!Letters.IsMultiplier(_run[i].Text[0]) && !ToleranceLetters.IsCommon(_run[i].Text[0]) && i == 1)
                return new(_run[i].Start, $"{_run[i].Text} is neither a unit nor a tolerance after this number", Suggest(_run[i].Text));
        }
        var at = _run[Math.Min(_furthest == 0 ? 1 : _furthest, _run.Count - 1)];
        return new(at.Start, "no code that I know goes on like this", "Put a blank between value, tolerance and volts, or write ? for what cannot be read.");
    }

    /// <summary>What to do about an unknown word: the known one that is nearest, or a rule.</summary>
    public static string Suggest(string word) => UnitSpellings.Near(word) is { } near
        ? $"Write {near} if that is meant."
        : "Write a unit such as MFD, MMF, K, MEG or OHMS, or ? for what cannot be read.";

    /// <summary>Farads of a three-digit code, or null when it is none: the last figure counts noughts, 8 and 9 divide by 100 and 10.</summary>
    public static double? CodeValue(string figures)
    {
        if (figures[0] == '0' || figures[2] == '7') return null;
        var exponent = figures[2] switch { '8' => -2, '9' => -1, var c => c - '0' };
        return Numeral.Scale(figures[..2], exponent - 12);
    }

    /// <summary>Ohms of a three-digit code that has noughts to add, or null.</summary>
    public static double? CodeOhms(string figures) =>
        figures[0] != '0' && figures[2] is >= '1' and <= '6' ? Numeral.Scale(figures[..2], figures[2] - '0') : null;

    private static string Noughts(char c) => c switch
    {
        '0' => "no nought",
        '1' => "one nought",
        '8' => "a hundredth",
        '9' => "a tenth",
        _ => c + " noughts",
    };

    private static string Volt(double volts) => volts.ToString(CultureInfo.InvariantCulture) + " V";

    private bool Plain(int index) => _run[index].IsNumber && !_run[index].Spelt && _run[index].Text.All(char.IsAsciiDigit);

    private static IEnumerable<(Numeral Number, bool OtherWay)> Both(Numeral number)
    {
        yield return (number, false);
        if (number.Other is { } other) yield return (other, true);
    }
}

using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Numbers, with units or bare, and tolerances.</summary>
internal sealed partial class NoteReader
{
    [GeneratedRegex(@"^(?<n>\d+\.?\d*|\.\d+|\d+/\d+)(?<u>[A-Za-zµΩ%~.]*)$", RegexOptions.CultureInvariant)]
    private static partial Regex NumberAndUnit();

    [GeneratedRegex(@"^(\d+\.?\d*|\.\d+)([-/x@+](\d+\.?\d*|\.\d+)){1,3}(?<u>[A-Za-zµ.]*)$", RegexOptions.CultureInvariant)]
    private static partial Regex Joint();

    [GeneratedRegex(@"^(?:(?<n>\d+/\d+|\d+\.?\d*|\.\d+)(?<u>[A-Za-zµΩ]+|%)){2,4}$", RegexOptions.CultureInvariant)]
    private static partial Regex GluedPairs();

    [GeneratedRegex(@"^(±|\+/-|\+-)(?<n>\d+(\.\d+)?)?%?$", RegexOptions.CultureInvariant)]
    private static partial Regex BothWays();

    [GeneratedRegex(@"^(?<s>[-+])(?<n>\d{1,3}(\.\d+)?)%?((?<s2>[-+])(?<n2>\d{1,3}(\.\d+)?)%?)?$", RegexOptions.CultureInvariant)]
    private static partial Regex OneWay();

    private static double Figure(string text) => double.Parse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);

    /// <summary>The value of a figure or fraction; null for a fraction of nothing.</summary>
    private static double? FigureOf(string text)
    {
        var slash = text.IndexOf('/', StringComparison.Ordinal);
        if (slash < 0) return text.Length <= 15 ? Figure(text) : null;
        if (text.Length > 9) return null;
        var under = Figure(text[(slash + 1)..]);
        return under == 0 ? null : Figure(text[..slash]) / under;
    }

    private bool ToleranceHere()
    {
        if (BothWays().Match(Now.Text) is { Success: true } both)
        {
            var number = both.Groups["n"].Success ? both.Groups["n"].Value : Ahead(1) is { } next && next.Text.TrimEnd('%').Length > 0 && next.Text.TrimEnd('%').All(c => char.IsAsciiDigit(c) || c == '.') ? next.Text.TrimEnd('%') : null;
            if (number is null || !double.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var percent)) return false;
            SetTolerance(percent, percent, both.Groups["n"].Success ? 1 : 2);
            return true;
        }
        if (Now.Is("gmv")) { SetTolerance(0, 100, 1); return true; }
        if (OneWay().Match(Now.Text) is not { Success: true } one) return false;
        double? minus = null, plus = null;
        void Take(string sign, string n) { if (sign == "-") minus = Figure(n); else plus = Figure(n); }
        Take(one.Groups["s"].Value, one.Groups["n"].Value);
        var used = 1;
        if (one.Groups["n2"].Success) Take(one.Groups["s2"].Value, one.Groups["n2"].Value);
        else if (Ahead(1) is { } second && OneWay().Match(second.Text) is { Success: true } other && !other.Groups["n2"].Success)
        {
            Take(other.Groups["s"].Value, other.Groups["n"].Value);
            used = 2;
        }
        if (minus is null || plus is null) return false;
        SetTolerance(minus.Value, plus.Value, used);
        return true;
    }

    private void SetTolerance(double minus, double plus, int words)
    {
        var last = _words[Math.Min(_i + words, _words.Length) - 1];
        if (Ahead(words) is { } sign && Units.Of(sign.Text) == UnitWord.Percent) { last = sign; words++; }
        if (minus > 100 || plus > 1000) _note.Complain(Now.At, "no tolerance is as wide as that", "Write the percentage that is marked: 10% or -10 +100 %.");
        else if (_note.Tolerance is not null) _note.Complain(Now.At, "a second tolerance", "Write one tolerance.");
        else _note.Tolerance = new(Tolerance.Between(minus / 100, plus / 100), Now.At, last.End);
        _note.Marking.Add((Now.At, last.End));
        _i += words;
    }

    private bool Quantity()
    {
        var match = NumberAndUnit().Match(Now.Text);
        if (match.Success && IsOneNumber(match.Groups["n"].Value)) return Plain(match);
        if (Joint().Match(Now.Text) is { Success: true } joint) return Joined(joint);
        if (GluedPairs().Match(Now.Text) is { Success: true } glued && Pairs(glued)) return true;
        // "50mfd/150v", "47k/1W", "20@25v": pieces that each are a number with or without a unit.
        var pieces = Now.Text.Split('/', '@');
        if (pieces.Length is < 2 or > 4 || !pieces.All(p => NumberAndUnit().Match(p) is { Success: true } m && (m.Groups["u"].Length == 0 || Units.Of(m.Groups["u"].Value) != UnitWord.None))) return false;
        var at = Now.At;
        foreach (var piece in pieces)
        {
            var m = NumberAndUnit().Match(piece);
            Take(m.Groups["n"].Value, m.Groups["u"].Value, Units.Of(m.Groups["u"].Value), at, at + piece.Length);
            at += piece.Length + 1;
        }
        _i++;
        return true;
    }

    /// <summary>1/2, 3/4, 1/10 are fractions; 20/25 and 8/450 are two numbers.</summary>
    private static bool IsOneNumber(string text)
    {
        var slash = text.IndexOf('/', StringComparison.Ordinal);
        if (slash < 0) return true;
        var (over, under) = (text[..slash], text[(slash + 1)..]);
        return under is "2" or "3" or "4" or "8" or "16" or "0" ? over.Length == 1 && (under == "0" || over[0] - '0' < Figure(under)) && over != "0" : under == "10" && over == "1";
    }

    /// <summary>".1uf400v", "47k5%": a value and ratings without a space.</summary>
    private bool Pairs(Match glued)
    {
        var (numbers, units) = (glued.Groups["n"].Captures, glued.Groups["u"].Captures);
        if (!Units.Of(units[0].Value).IsValue() || !numbers.All(n => IsOneNumber(n.Value)) || units.Skip(1).Any(u => Units.Of(u.Value) is not (UnitWord.Volt or UnitWord.KiloVolt or UnitWord.VoltAc or UnitWord.Watt or UnitWord.Percent))) return false;
        var at = Now.At;
        _i++;
        for (var k = 0; k < units.Count; k++)
            Take(numbers[k].Value, units[k].Value, Units.Of(units[k].Value), at + numbers[k].Index, at + units[k].Index + units[k].Length);
        return true;
    }

    private bool Plain(Match match)
    {
        var (number, glued) = (match.Groups["n"].Value, match.Groups["u"].Value.TrimEnd('.'));
        if (glued.Length > 0)
        {
            var unit = Units.Of(glued);
            if (unit == UnitWord.None || IsThreeDigitCode(number, unit, glued)) return false;
            var (more, moreCount) = Units.At(_words, _i + 1);
            // "25M ohm", "47K ohms", "400V DC": the unit goes on in the next word.
            var joined = unit is UnitWord.Kilo or UnitWord.LetterM && more == UnitWord.Ohm;
            var last = joined ? _words[_i + moreCount] : Now;
            if (unit == UnitWord.Volt && Ahead(1) is { } dc && dc.Is("dc", "ac", "vdc", "working", "wkg", "wdc", "dcw"))
            {
                if (dc.Is("ac")) unit = UnitWord.VoltAc;
                (joined, moreCount, last) = (true, 1, dc);
            }
            var place = Now.At;
            _i += joined ? moreCount + 1 : 1;
            Take(number, joined && unit == UnitWord.LetterM ? "M OHM" : glued, unit, place, last.End);
            return true;
        }
        var (after, count) = Now.CommaAfter ? (UnitWord.None, 0) : Units.At(_words, _i + 1);
        if (after != UnitWord.None && count == 1 && IsMountRather(after)) (after, count) = (UnitWord.None, 0);
        var (start, end) = (Now.At, count > 0 ? _words[_i + count].End : Now.End);
        var written = string.Concat(_words.Skip(_i + 1).Take(count).Select(w => w.Text));
        if (after == UnitWord.None && BareLug(number)) return true;
        _i += count + 1;
        Take(number, written, after, start, end);
        return true;
    }

    /// <summary>473K is a code; 470K on a resistor is a value.</summary>
    private bool IsThreeDigitCode(string number, UnitWord unit, string glued) =>
        unit is UnitWord.Kilo or UnitWord.LetterM && glued.Length == 1 && number.Length == 3 && number.All(char.IsAsciiDigit)
        && Kind is { } k && k.IsCapacitor();

    /// <summary>"A 3" after a number is a mount, not amperes; so is any single letter that names a mount and has a number after it.</summary>
    private bool IsMountRather(UnitWord unit)
    {
        var word = _words[_i + 1];
        if (word.Text.Length > 1 || word.CommaAfter) return false;
        if (unit == UnitWord.Ampere && Kind is not (PartKind.Fuse or PartKind.Lamp or PartKind.SeleniumRectifier or PartKind.Winding or PartKind.Switch)) return true;
        var next = Ahead(2);
        if (unit == UnitWord.Ampere && next is { } n && _lugs.Of(n.Text) is not null) return true;
        return _lugs.Mount(word.Text) is not null && next is { } number && number.Text.All(char.IsAsciiDigit);
    }

    private bool Joined(Match joint)
    {
        var text = Now.Text[..(joint.Groups["u"].Index)];
        var glued = joint.Groups["u"].Value;
        var unit = Units.Of(glued);
        if (glued.Length > 0 && unit == UnitWord.None) return false;
        var (count, end) = (0, Now.End);
        if (glued.Length == 0 && !Now.CommaAfter)
        {
            (unit, count) = Units.At(_words, _i + 1);
            if (unit != UnitWord.None && count == 1 && IsMountRather(unit)) (unit, count) = (UnitWord.None, 0);
            if (count > 0) end = _words[_i + count].End;
        }
        var numbers = text.Split('-', '/', 'x', '@', '+').Select(FigureOf).ToArray();
        if (numbers.Any(n => n is null)) return false;
        var place = Now.At;
        _i += count + 1;
        if (unit == UnitWord.Volt && numbers.Length > 1 && (_note.Values.Count > 0 || _note.Joined.Count > 0) && numbers.All(n => n >= 3))
        {
            _note.SectionVolts = string.Join('-', text.Split('-', '/', 'x', '@', '+'));
            _note.Marking.Add((place, end));
        }
        else _note.Joined.Add(new([.. numbers.Select(n => n!.Value)], text, unit, _mount, place, end));
        return true;
    }

    private void Take(string number, string written, UnitWord unit, int at, int end)
    {
        if (FigureOf(number) is not { } value)
        {
            _note.Complain(at, $"'{Shown(number)}' is no number", "Write the figure as it is marked.");
            return;
        }
        // A worn point: 05 MFD is .05 MFD.
        if (number.Length > 1 && number[0] == '0' && number.All(char.IsAsciiDigit) && value > 0 && (unit.IsCapacitance() || (unit == UnitWord.None && Kind is { } k && k.IsCapacitor())))
        {
            _note.Assumed.Add($"{number} is .{number}");
            number = "." + number;
            value = Figure(number);
        }
        var figure = number.Contains('/', StringComparison.Ordinal) ? value.ToString("0.######", CultureInfo.InvariantCulture) : number;
        switch (unit)
        {
            case UnitWord.None:
                _note.Bare.Add(new(value, number, _mount, HintedAt(at), at, end));
                return;
            case UnitWord.Volt or UnitWord.VoltAc or UnitWord.KiloVolt:
                if (_i < _words.Length && Now.Is("peak", "surge", "test") && !(Ahead(1) is { } n && char.IsAsciiDigit(n.Text[0]))) { _note.Remarks.Add(($"{number} V {Now.Key}", at)); _i++; return; }
                if (value == 0) _note.Complain(at, "a rating of 0 V", "Write the volts that are marked, or leave them out.");
                else if (_note.Volts is { } v && v.Value != value) _note.Complain(at, "a second voltage", "Write one rating; put the other in quotation marks as a remark.");
                else (_note.Volts, _note.VoltsAreAc) = (new(unit == UnitWord.KiloVolt ? value * 1000 : value, at, end), unit == UnitWord.VoltAc);
                break;
            case UnitWord.Watt or UnitWord.MilliWatt:
                if (value == 0) _note.Complain(at, "a rating of 0 W", "Write the watts that are marked, or leave them out.");
                else if (_note.Watts is { } w && w.Value != value) _note.Complain(at, "a second power", "Write one rating.");
                else _note.Watts = new(unit == UnitWord.MilliWatt ? value / 1000 : value, at, end);
                break;
            case UnitWord.Ampere or UnitWord.MilliAmpere:
                if (value == 0) _note.Complain(at, "a current of 0 A", "Write the current that is marked.");
                _note.Amperes ??= new(unit == UnitWord.MilliAmpere ? value / 1000 : value, at, end);
                break;
            case UnitWord.Percent:
                if (value > 100) _note.Complain(at, "no tolerance is as wide as that", "Write the percentage that is marked: 10%.");
                else if (_note.Tolerance is not null) _note.Complain(at, "a second tolerance", "Write one tolerance.");
                else _note.Tolerance = new(Tolerance.Percent(value), at, end);
                break;
            case UnitWord.Henry or UnitWord.MilliHenry or UnitWord.MicroHenry:
                _note.Inductance ??= new($"{figure} {(unit == UnitWord.Henry ? "H" : unit == UnitWord.MilliHenry ? "mH" : "µH")}", at, end);
                break;
            default:
                AddValue(new(TextFor(figure, written, unit), unit, value, at, end));
                return;
        }
        _note.Marking.Add((at, end));
    }

    /// <summary>The value in a spelling that a marking would have.</summary>
    private static string TextFor(string figure, string written, UnitWord unit) => unit switch
    {
        UnitWord.Ohm => figure + " OHM",
        UnitWord.Kilo => figure + "K",
        UnitWord.Meg => figure + " MEG",
        UnitWord.LetterM => written.Length > 1 ? figure + "M OHM" : figure + (written == "m" ? "m" : "M"),
        UnitWord.Micro => figure + " MFD",
        UnitWord.Nano => figure + " nF",
        UnitWord.Pico => figure + " MMF",
        UnitWord.Centimetre => figure + " cm",
        _ => figure,
    };

    private void AddValue(ValueMark mark)
    {
        if (_note.Values.Count > 0 && !(_note.Values[0].Text == mark.Text))
            _note.Complain(mark.At, "a second value", "Write one value to a part; put the other in quotation marks as a remark.");
        else if (_note.Values.Count == 0) _note.Values.Add(mark);
        _note.Marking.Add((mark.At, mark.End));
    }
}

using System.Text.RegularExpressions;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>What is left once names, numbers and kinds are taken: codes, fillers, remarks, and what cannot be read.</summary>
internal sealed partial class NoteReader
{
    [GeneratedRegex(@"^[0-9.?]*[KMRGTNUPµFkmrgtnupf]?[0-9.?]*[A-Z]?$|^\d[A-Z]\d{3}[A-Z]?$|^[XY][1-4]$|^\.?\d+[A-Z]\d{2,4}$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex CodePattern();

    /// <summary>A value code such as 4K7, n47, 473J, 2G104K, or one with what cannot be read: .0?.</summary>
    private bool Code()
    {
        if (!Now.Text.Any(char.IsAsciiDigit) || !CodePattern().IsMatch(Now.Text)) return false;
        if (Kind is not null && Kind != PartKind.Capacitor && !Kind.Value.IsFixedCapacitor() && !Kind.Value.IsResistive()) return false;
        if (Now.Text.Length == 2 && Now.Text[0] is 'X' or 'Y' or 'x' or 'y')
        {
            _note.HasSafetyClass = true;
            _note.Remarks.Add(($"class {Now.Text.ToUpperInvariant()}", Now.At));
            _i++;
            return true;
        }
        var (unit, count) = Units.At(_words, _i + 1);
        var end = unit.IsValue() ? _words[_i + count].End : Now.End;
        var text = unit switch
        {
            UnitWord.Ohm => Now.Text + " OHM",
            _ when unit.IsValue() => Now.Text + " " + string.Concat(_words.Skip(_i + 1).Take(count).Select(w => w.Text)),
            _ => Now.Text,
        };
        AddValue(new(text, unit.IsValue() ? unit : UnitWord.None, null, Now.At, end));
        _i += unit.IsValue() ? count + 1 : 1;
        return true;
    }

    private bool Rest()
    {
        var word = Now;
        if (Vocabulary.IsFiller(word.Key) || word.Text.All(c => !char.IsLetterOrDigit(c)))
        {
            if (word.Text.Trim('?').Length == 0) _note.ValueIsOpen |= _note.Values.Count == 0 && _note.Bare.Count == 0 && _note.Joined.Count == 0;
            if (word.Is("from")) _from = true;
            else if (word.Is("to", "and")) _from = false;
            if (word.Text.Trim('?').Length > 0 && word.Text is not ("?" or "-" or "--" or "&" or "/" or "." or ".." or "..." or "…" or "+" or "~" or "±" or "#" or "_" or "@" or ">" or "<" or "*" or "·" or "•") && word.Text.All(c => !char.IsLetterOrDigit(c)))
                _note.Complain(word.At, $"'{Shown(word.Text)}' says nothing here", "Leave it out, or put it in quotation marks as a remark.");
            _i++;
            return true;
        }
        if (word.Is("ground", "gnd", "earth", "common", "b-") && _note.Ground is null)
        {
            _note.Ground = new(word.Text, word.At, word.End);
            _i++;
            return true;
        }
        // "with switch on R4": a part named in passing
        if (_i > 0 && _words[_i - 1].Is("on", "with", "near", "by", "of", "in", "under", "behind", "beside") && ReferencePattern().IsMatch(word.Text))
        {
            _note.Remarks.Add(($"{_words[_i - 1].Text} {word.Text.ToUpperInvariant()}", word.At));
            _i++;
            return true;
        }
        var letters = word.Text.All(c => char.IsLetter(c) || c is '-' or '\'' or '/' or '.');
        if (letters && Vocabulary.Near(word.Key) is { } near)
            _note.Complain(word.At, $"'{Shown(word.Text)}' is no word of a bench note; is it '{near}'?", $"Write {near}, or put a remark in quotation marks.");
        else if ((letters && (word.Text.Length >= 3 || word.Is("if", "rf", "af", "ht", "lt", "hv", "lv", "bc", "sw", "am", "fm", "ok"))) || word.Is("b+", "b++", "ht+")) _note.Remarks.Add((word.Text, word.At));
        else
            _note.Complain(word.At, $"'{Shown(word.Text)}' cannot be read", "Write a reference, a value with its unit, a lug such as V3-6, or put it in quotation marks as a remark.");
        _i++;
        return true;
    }

    private static string Shown(string text) => text.Length <= 24 ? text : text[..24] + "…";
}

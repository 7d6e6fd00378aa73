using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Reads a bench note about a part, word by word. What the words mean for the book is decided afterwards.</summary>
/// <remarks>Begin with <see cref="Run"/>: the order of its questions is the order in which a word's meanings are tried.</remarks>
internal sealed partial class NoteReader
{
    [GeneratedRegex(@"^[A-Za-z]{1,4}\d{1,4}([A-Za-z]{1,2}\d?)?$", RegexOptions.CultureInvariant)]
    private static partial Regex ReferencePattern();

    [GeneratedRegex(@"^(R|C|L|T|F|S|SW|LM|D|CR|SE|SP|RV|TH|V)\d{1,4}([A-Za-z]{1,2}\d?)?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex UsualReference();

    [GeneratedRegex(@"^(\d{1,3}[A-Z]{1,3}\d{1,4}[A-Z]{0,4}|[A-Z]{1,4}\d{1,4}[A-Z]{0,2}|\d{2,5}[A-Z]{0,2}|VR-?\d{2,3}(-\d\d)?)(/[A-Z0-9]+)?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex TypePattern();

    private readonly BenchNote _note;
    private readonly Book _book;
    private readonly ValveHandbook _handbook;
    private readonly PartKind? _kindAhead;
    private readonly LugNames _lugs;
    private readonly ImmutableArray<Word> _words;
    private readonly bool _hasPlus;
    private bool _partsOnly = true;
    private int _i;
    private string? _mount;
    private bool _from;

    private NoteReader(string line, EntryContext context, string? lastMount)
    {
        (_book, _handbook, _lugs, _mount) = (context.Book, context.Handbook, new(context.Book), lastMount);
        _words = NumberWords.ToFigures(Words.Of(line));
        _hasPlus = _words.Any(w => w.Is("+", "plus", "pos", "positive", "+ve") || (w.Text.Length > 1 && w.Text[0] == '+' && char.IsLetter(w.Text[1])) || (w.Text.Length > 2 && w.Text[^1] == '+' && w.Text[^2] != '+' && !w.Is("b+", "ht+")));
        _note = new() { Line = line };
        for (var i = 0; i < _words.Length && _kindAhead is null; i++)
            if (Vocabulary.KindAt(_words, i).Kind is { } kind && PartKinds.Of(kind) != PartKind.Capacitor) _kindAhead = PartKinds.Of(kind);
    }

    /// <summary>What the line says; complaints are in the note. Never throws.</summary>
    /// <param name="line">The line.</param>
    /// <param name="context">What the book has.</param>
    /// <param name="lastMount">The mount of bare lug numbers, until the line names another.</param>
    /// <param name="partsOnly">True for a line about a part; false for one about lugs only, such as a wire's.</param>
    public static BenchNote Read(string line, EntryContext context, string? lastMount, bool partsOnly = true)
    {
        var reader = new NoteReader(line, context, lastMount) { _partsOnly = partsOnly };
        reader.Run();
        reader.PlaceRoles();
        reader._note.LastMount = reader._mount;
        return reader._note;
    }

    private Word Now => _words[_i];

    private Word? Ahead(int by) => _i + by < _words.Length ? _words[_i + by] : null;

    /// <summary>The kind that the reference or the words so far stand for.</summary>
    private PartKind? Kind => ByLetter is { } letter && IsDecisive(letter) ? letter : _note.WrittenKind is { } w and not PartKind.Capacitor ? w : _kindAhead ?? _note.WrittenKind ?? ByLetter;

    private PartKind? ByLetter => _note.Reference is { } r ? _book.Parts.Named(r)?.Kind ?? References.KindOf(r) : null;

    /// <summary>With these references a word for another kind is a remark: "V5 35Z5GT rectifier", "T1 speaker transformer".</summary>
    private static bool IsDecisive(PartKind kind) => kind is PartKind.Valve or PartKind.Winding or PartKind.Switch or PartKind.Fuse or PartKind.Lamp or PartKind.Speaker;

    private void Run()
    {
        var (referenceAt, length) = _partsOnly ? FindReference() : (-1, 0);
        if (referenceAt >= 0)
        {
            _note.Reference = string.Concat(_words.Skip(referenceAt).Take(length).Select(w => w.Text)).ToUpperInvariant();
            _note.ReferenceAt = _words[referenceAt].At;
        }
        while (_i < _words.Length)
        {
            var at = _i;
            if (_i == referenceAt) { _i += length; continue; }
            if (Remark() || Same() || Verb() || ColourRun() || LugHere() || Role() || (Kind == PartKind.Valve && TypeHere()) || ToleranceHere() || Quantity() || TypeHere() || MountHere()
                || Lamp() || KindHere() || Code() || Rest()) { }
            if (_i == at) _i++;
        }
    }

    private (int Index, int Length) FindReference()
    {
        var first = 0;
        while (first < _words.Length && _words[first].Is("part", "add", "new", "then", "next", "found", "moved", "move", "change", "changed", "remove", "delete", "now", "correct", "swap", "reversed", "turned")) first++;
        if (first >= _words.Length) return (-1, 0);
        var word = _words[first];
        if (word.Is("r", "c", "l", "t", "v", "f", "s") && first + 1 < _words.Length && _words[first + 1].Text.All(char.IsAsciiDigit)
            && (first + 2 < _words.Length || _lugs.Mount(word.Text) is null)) return (first, 2);
        if (!word.Quoted && (_book.Parts.Named(word.Text) is not null || (ReferencePattern().IsMatch(word.Text) && _lugs.Exact(word.Text) is null && (UsualReference().IsMatch(word.Text) || _lugs.Of(word.Text) is null) && !IsCode(word.Text)))) return (first, 1);
        for (var k = first + 1; k < _words.Length; k++)
        {
            if (_words[k].Quoted || !UsualReference().IsMatch(_words[k].Text) || _lugs.Exact(_words[k].Text) is not null) continue;
            if (_words[k - 1].Is("as", "like", "of", "on", "at", "to", "from", "note", "with", "between", "pin")) continue;
            var next = k + 1 < _words.Length ? _words[k + 1] : (Word?)null;
            if (next is { } n && (n.Text.All(char.IsAsciiDigit) || n.Is("pin", "lug", "tag", "pins", "lugs", "tags") || Vocabulary.LugFunction(n.Key) is not null)
                && (_words[k].Text[0] is 'V' or 'v' || _lugs.Mount(_words[k].Text) is not null)) continue;
            return (k, 1);
        }
        return (-1, 0);
    }

    /// <summary>A value code that looks like a reference: n47, M22.</summary>
    private bool IsCode(string text) =>
        text.Length <= 4 && text[0] is 'n' or 'N' or 'M' or 'K' or 'p' && text[1..].All(char.IsAsciiDigit) && _words.Any(w => w.Text != text && UsualReference().IsMatch(w.Text));

    private bool Remark()
    {
        if (Now.Quoted)
        {
            if (Now.Text.Length > 0) _note.Remarks.Add((Now.Text, Now.At));
            _i++;
            return true;
        }
        // "was 50k", "reads 52k": not what is marked.
        if (Now.Is("was", "orig", "originally", "measures", "measured", "reads", "actual", "actually") && Ahead(1) is { Quoted: false } after && char.IsDigit(after.Text.TrimStart('.')[..1] is { Length: 1 } c ? c[0] : 'x'))
        {
            var (measure, count) = Units.At(_words, _i + 2);
            var unit = measure.IsValue() || measure is UnitWord.Volt or UnitWord.Percent ? count : 0;
            _note.Remarks.Add((string.Join(' ', _words.Skip(_i).Take(2 + unit).Select(w => w.Text)), Now.At));
            _i += 2 + unit;
            return true;
        }
        // "475 V surge 525": not the rating.
        if (Now.Is("surge", "peak", "test") && Ahead(1) is { Quoted: false } surge && surge.Text.Length > 1 && char.IsAsciiDigit(surge.Text[0]))
        {
            var unit = Units.At(_words, _i + 2) is (UnitWord.Volt or UnitWord.KiloVolt, var length) ? length : 0;
            _note.Remarks.Add((string.Join(' ', _words.Skip(_i).Take(2 + unit).Select(w => w.Text)), Now.At));
            _i += 2 + unit;
            return true;
        }
        if (!Now.Is("note", "remark", "nb", "//")) return false;
        if (Ahead(1) is { Quoted: true }) { _i++; return true; }
        var rest = _i + 1 < _words.Length ? _note.Line[_words[_i + 1].At.._words[^1].End].Trim() : "";
        if (rest.Length > 0) _note.Remarks.Add((rest.Replace('"', '\''), _words[_i + 1].At));
        _i = _words.Length;
        return true;
    }

    private bool Same()
    {
        if (Now.Is("ditto", "do"))
        {
            _note.SameAs = new("", Now.At, Now.End);
            _i++;
            return true;
        }
        if (!Now.Is("same", "as", "like")) return false;
        var by = 0;
        while (Ahead(by) is { } word && word.Is("same", "as", "like", "value")) by++;
        if (Ahead(by) is { Quoted: false } name && ReferencePattern().IsMatch(name.Text))
        {
            _note.SameAs = new(name.Text, name.At, name.End);
            _i += by + 1;
            return true;
        }
        if (Now.Is("same") && by > 0 && Ahead(by) is null)
        {
            _note.SameAs = new("", Now.At, Now.End);
            _i += by;
            return true;
        }
        _i += by;
        return true;
    }

    private bool Verb()
    {
        if (_note.Reference is null) return false;
        if (Now.Is("moved", "move")) _note.Moves = _note.Forces = true;
        else if (Now.Is("change", "changed", "now", "correct", "corrected", "value", "is")) (_note.Forces, _note.Changes) = (true, _note.Changes || Now.Is("change", "changed", "correct"));
        else return false;
        _i++;
        return true;
    }

    private bool ColourRun()
    {
        var (colours, at) = (new List<string>(), _i);
        for (var k = _i; k < _words.Length && !_words[k].Quoted; k++)
        {
            if (Colours.Name(_words[k].Text) is { } one) colours.Add(one);
            else if (Colours.Glued(_words[k].Text) is { } several) colours.AddRange(several);
            else if (_words[k].Is("?", "none", "no") && colours.Count > 0) colours.Add(_words[k].Is("?") ? "?" : "none");
            else if (_words[k].Is("body", "end", "dot", "tip", "band") && (colours.Count > 0 || (k + 1 < _words.Length && Colours.Name(_words[k + 1].Text) is not null))) colours.Add(_words[k].Key);
            else break;
            at = k + 1;
        }
        if (colours.Count(c => Colours.Name(c) is not null) < 3 || _note.Colours.Count > 0) return false;
        while (colours.Count > 0 && colours[^1] is "?" && at - _i > 5) { colours.RemoveAt(colours.Count - 1); at--; }
        _note.Colours.AddRange(colours);
        _note.ColoursPlace = (Now.At, _words[at - 1].End);
        _i = at;
        return true;
    }

    /// <summary>"6V6GT" for a valve, "1N34" for a diode, also a bare "80".</summary>
    private bool TypeHere()
    {
        var isValve = Kind == PartKind.Valve;
        if (_note.TypeMark is not null || !(isValve || Kind is { } k && k.IsRectifier()) || !TypePattern().IsMatch(Now.Text) || _lugs.Of(Now.Text) is not null) return false;
        if (!isValve && !Now.Text.Any(char.IsLetter)) return false;
        _note.TypeMark = new(Now.Text.ToUpperInvariant(), Now.At, Now.End);
        _i++;
        return true;
    }

    private bool Lamp()
    {
        if (Kind != PartKind.Lamp) return false;
        var number = Now.Is("no", "number", "#") ? Ahead(1) : Now.Text[0] == '#' ? Now : null;
        if (number is not { } word || !word.Text.TrimStart('#').All(char.IsAsciiLetterOrDigit) || word.Text.TrimStart('#').Length == 0) return false;
        _note.TypeMark = new("No. " + word.Text.TrimStart('#').ToUpperInvariant(), Now.At, word.End);
        _i += word == Now ? 1 : 2;
        return true;
    }

    private bool KindHere()
    {
        var (kind, count) = Vocabulary.KindAt(_words, _i);
        if (kind is null) return SocketWord();
        if (ByLetter is { } letter && IsDecisive(letter) && PartKinds.Of(kind) != letter)
        {
            _note.Remarks.Add((string.Join(' ', _words.Skip(_i).Take(count).Select(w => w.Text)), Now.At));
            _i += count;
            return true;
        }
        if (_note.KindWord is null || PartKinds.Of(_note.KindWord) is PartKind.Capacitor) (_note.KindWord, _note.KindAt) = (kind, Now.At);
        else if (PartKinds.Of(kind) is not PartKind.Capacitor && PartKinds.Of(kind) != PartKinds.Of(_note.KindWord) && !AlsoFits(kind))
            _note.Complain(Now.At, $"two kinds in one line: {_note.KindWord} and {kind}", "Write one kind; put the rest in quotation marks as a remark.");
        _i += count;
        return true;
    }

    /// <summary>"500K pot with switch", "volume control … resistor": the first kind stands.</summary>
    private bool AlsoFits(string kind)
    {
        if (_note.WrittenKind != PartKind.Control || PartKinds.Of(kind) is not (PartKind.Switch or PartKind.Resistor)) return false;
        if (PartKinds.Of(kind) == PartKind.Switch) _note.Remarks.Add(("with switch", Now.At));
        return true;
    }

    private bool SocketWord()
    {
        if (Kind != PartKind.Valve || Chassis.Templates.MountTemplates.Socket(Now.Key) is not { } socket) return false;
        _note.Socket = socket;
        _i++;
        if (_i < _words.Length && Now.Is("socket", "base", "based")) _i++;
        return true;
    }
}

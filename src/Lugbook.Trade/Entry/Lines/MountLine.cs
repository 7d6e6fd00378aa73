using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade.Chassis.Templates;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>A bench note about a mount: "mount A strip 5 foot 3 at 120 45", "mount V3 octal".</summary>
internal sealed partial class MountLine
{
    [GeneratedRegex(@"^[A-Za-z]{1,3}\d{0,3}[A-Za-z]?$", RegexOptions.CultureInvariant)]
    private static partial Regex NamePattern();

    [GeneratedRegex(@"^(?<n>-?\d{1,4}(\.\d+)?|-?\.\d+)(mm|°|deg)?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex NumberPattern();

    private readonly string _line;
    private readonly EntryContext _context;
    private readonly ImmutableArray<Word> _words;
    private readonly List<Text.Complaint> _complaints = [];
    private string? _name, _kind, _what;
    private MountTemplate? _socket;
    private int? _count;
    private int _countAt, _kindAt;
    private readonly List<int> _feet = [];
    private double? _x, _y;
    private double _turn;
    private string? _note;

    private MountLine(string line, EntryContext context) => (_line, _context, _words) = (line, context, NumberWords.ToFigures(Words.Of(line)));

    /// <summary>Is the line about a mount?</summary>
    public static bool IsOne(ImmutableArray<Word> words) => words.Length > 0 && words[0].Is("mount", "mounts");

    /// <summary>What the line means for the book.</summary>
    public static EntryResult Read(string line, EntryContext context) => new MountLine(line, context).Run();

    private void Complain(int at, string problem, string remedy) => _complaints.Add(new("the bench note", _line, at, problem, remedy));

    private EntryResult Run()
    {
        Scan();
        if (_name is null) Complain(_line.Length, "a mount of which name?", "Write: mount A strip 5 foot 3, or mount V3 octal.");
        else if (_context.Book.Mounts.Named(_name) is { } there) Complain(_words[0].At, $"there is a mount {there.Name} already ({there.KindAsWritten})", "Give the new one another name.");
        if (_complaints.Count == 0 && _x is null != _y is null) Complain(_line.Length, "one measure only", "Write both: at 120 45 is 120 mm to the right and 45 mm to the rear.");
        var template = _complaints.Count == 0 ? Template() : null;
        if (template is null || _complaints.Count > 0) return new() { Line = _line, Complaints = [.. _complaints], Next = _context };
        var (mount, lugs) = template.Place(_name!, _x, _y, _turn);
        if (_note is not null) mount = mount with { Note = _note };
        var edits = new List<BookEdit> { new AddMount(mount, Implied: false) };
        edits.AddRange(lugs.Where(l => _context.Book.Lugs.Named(l.Name) is null).Select(l => new AddLug(l, Implied: false)));
        return new()
        {
            Line = _line,
            Edits = [.. edits],
            Understood = Say(lugs.Length),
            Next = _context with { Book = edits.Aggregate(_context.Book, (b, e) => e.Apply(b)), LastMount = mount.Name, LastLug = _context.Mode == EntryMode.AllOnLug ? _context.LastLug : null },
        };
    }

    private string Say(int lugs)
    {
        var count = _kind is "strip" or "switch" or "transformer" or "choke" or "jack" ? $" {ValueText.Number(lugs)} lugs" : _kind == "can" ? $" {ValueText.Number(lugs - 1)} sections" : "";
        var feet = _feet.Count > 0 ? $", foot {string.Join(" and ", _feet.Select(f => ValueText.Number(f)))}" : "";
        var place = _x is { } x && _y is { } y ? $", at {ValueText.Number(x)} {ValueText.Number(y)} mm" : "";
        var turn = _turn != 0 ? $", turned {ValueText.Number(_turn)}" : "";
        var note = _note is null ? "" : $"; note \"{_note.Replace('"', '\'')}\"";
        return $"mount {_name}: {_what}{count}{feet}{place}{turn}{note}";
    }

    private void Scan()
    {
        for (var i = 1; i < _words.Length; i++)
        {
            var word = _words[i];
            if (word.Quoted) _note = word.Text;
            else if (word.Is("note")) { if (i + 1 < _words.Length && !_words[i + 1].Quoted) { _note = _line[_words[i + 1].At..].Trim().Replace('"', '\''); return; } }
            else if (word.Is("foot", "feet", "earthed", "grounded")) i = Numbers(i, n => _feet.Add((int)n), whole: true);
            else if (word.Is("at", "position", "pos")) i = Place(i);
            else if (word.Is("x") && Number(i + 1) is { } x) { _x = x; i++; }
            else if (word.Is("y") && Number(i + 1) is { } y) { _y = y; i++; }
            else if (word.Is("turned", "rotated", "rot", "turn", "rotation", "angle")) { if (Number(i + 1) is { } turn) { _turn = turn % 360; i++; } else Complain(word.At, "turned by how much?", "Write the angle clockwise as seen from beneath: turned 90."); }
            else if (_kind is null && KindAt(i) is (not null, var used)) i += used - 1;
            else if (_name is null && NamePattern().IsMatch(word.Text) && !word.Is("a", "an", "the", "is", "of") | (word.Is("a") && _name is null)) _name = word.Text.ToUpperInvariant();
            else if (Number(i) is { } n) SetCount(n, word.At);
            else if (LugsGlued(word)) { }
            else if (word.Is("lug", "lugs", "tags", "tag", "leads", "lead", "section", "sections", "way", "with", "and", "is", "an", "of", "the", "mm", "deg", "degrees", "socket", "strip", "by", "pins", "on", "-", "clockwise", "terminals")) { }
            else Complain(word.At, $"'{(word.Text.Length <= 24 ? word.Text : word.Text[..24] + "…")}' is no word about a mount", "Write: mount A strip 5 foot 3 at 120 45, or mount V3 octal; put remarks in quotation marks.");
        }
    }

    /// <summary>"5-lug", "3-section".</summary>
    private bool LugsGlued(Word word)
    {
        var hyphen = word.Text.IndexOf('-', StringComparison.Ordinal);
        if (hyphen <= 0 || !int.TryParse(word.Text.AsSpan(0, hyphen), NumberStyles.None, CultureInfo.InvariantCulture, out var n) || word.Text[(hyphen + 1)..].ToLowerInvariant() is not ("lug" or "lugs" or "tag" or "section" or "way" or "lead")) return false;
        SetCount(n, word.At);
        return true;
    }

    private void SetCount(double n, int at)
    {
        if (_count is not null) Complain(at, "a second number of lugs", "Write the place after 'at': at 120 45.");
        else if (n != Math.Floor(n) || n is < 1 or > 99) Complain(at, "no number of lugs", "Write a whole number.");
        else (_count, _countAt) = ((int)n, at);
    }

    private double? Number(int i) => i < _words.Length && NumberPattern().Match(_words[i].Text) is { Success: true } m ? double.Parse(m.Groups["n"].Value, NumberStyles.Float, CultureInfo.InvariantCulture) : null;

    private int Numbers(int i, Action<double> take, bool whole)
    {
        var at = i;
        while (i + 1 < _words.Length && (Number(i + 1) is not null || (i > at && _words[i + 1].Is("and", "&") && Number(i + 2) is not null)))
        {
            if (Number(++i) is not { } n) continue;
            if (whole && (n != Math.Floor(n) || n < 1)) Complain(_words[i].At, "no number of a lug", "Write a whole number.");
            else take(n);
        }
        if (i == at) Complain(_words[at].At, "which lug?", "Write its number: foot 3.");
        return i;
    }

    /// <summary>"at 120 45", "at x 120 y 45", "at 120 x 45 mm".</summary>
    private int Place(int i)
    {
        var values = new List<double>();
        var k = i + 1;
        for (; k < _words.Length && values.Count < 2; k++)
        {
            if (Number(k) is { } n) values.Add(n);
            else if (!_words[k].Is("x", "y", "mm", "by", "and")) break;
        }
        if (values.Count < 2) Complain(_words[i].At, "at which place?", "Write both measures in mm: at 120 45.");
        else (_x, _y) = (values[0], values[1]);
        return k - 1;
    }

    private (string? Kind, int Used) KindAt(int i)
    {
        for (var count = Math.Min(3, _words.Length - i); count >= 1; count--)
        {
            var text = string.Join(' ', _words.Skip(i).Take(count).Select(w => w.Key));
            if (MountTemplates.Socket(text) is { } socket) (_kind, _what, _socket, _kindAt) = ("socket", socket.KindAsWritten, socket, _words[i].At);
            else
            {
                var kind = text switch
                {
                    "strip" or "tag strip" or "tagstrip" or "terminal strip" or "lug strip" => "strip",
                    "can" or "capacitor can" or "electrolytic can" => "can",
                    "control" or "pot" or "potentiometer" or "volume control" => "control",
                    "switch" => "switch",
                    "jack" => "jack",
                    "fuse holder" or "fuseholder" or "fuse" => "fuse holder",
                    "lamp holder" or "lampholder" or "lamp" => "lamp holder",
                    "line cord" or "cord" or "mains lead" or "power cord" => "line cord",
                    "earth lug" or "ground lug" or "solder lug" => "earth lug",
                    "if can" or "if transformer" or "ift" => "IF can",
                    "transformer" or "power transformer" or "output transformer" => "transformer",
                    "choke" => "choke",
                    "speaker" or "loudspeaker" => "speaker",
                    "chassis" => "chassis",
                    _ => null,
                };
                if (kind is null) continue;
                (_kind, _what, _kindAt) = (kind, kind == "strip" ? "tag strip" : kind, _words[i].At);
            }
            return (_kind, count);
        }
        return (null, 0);
    }

    private MountTemplate? Template()
    {
        MountTemplate? Counted(int least, int most, Func<int, MountTemplate> make, int? usual, string what)
        {
            if ((_count ?? usual) is not { } n) Complain(_line.Length, $"how many {what}?", $"Write the number: {_kind} {ValueText.Number(Math.Min(5, most))}.");
            else if (n < least || n > most) Complain(_countAt, $"{ValueText.Number(n)} {what}", $"Write {ValueText.Number(least)} to {ValueText.Number(most)}.");
            else return make(n);
            return null;
        }
        if (_feet.Count > 0 && _kind != "strip") Complain(_kindAt, "only a tag strip has feet", "Leave the foot out.");
        MountTemplate? template = _kind switch
        {
            "socket" => _socket,
            "strip" => Counted(1, 10, n => _feet.Any(f => f > n) ? MountTemplates.TagStrip(1) : MountTemplates.TagStrip(n, [.. _feet]), null, "lugs"),
            "can" => Counted(1, 4, MountTemplates.Can, 1, "sections"),
            "control" => MountTemplates.Control,
            "switch" => Counted(2, 12, MountTemplates.Switch, 2, "lugs"),
            "jack" => Counted(2, 3, MountTemplates.Jack, 2, "lugs"),
            "fuse holder" => MountTemplates.FuseHolder,
            "lamp holder" => MountTemplates.LampHolder,
            "line cord" => MountTemplates.LineCord,
            "earth lug" => MountTemplates.EarthLug,
            "IF can" => MountTemplates.IfCan,
            "transformer" or "choke" => Counted(2, 24, n => MountTemplates.Transformer(n, _kind), _kind == "choke" ? 2 : null, "leads"),
            "speaker" => MountTemplates.Speaker,
            "chassis" => MountTemplates.ChassisMetal,
            _ => null,
        };
        if (_kind is null) Complain(_line.Length, "what kind of mount?", "Write strip 5, octal, noval, 7-pin, loctal, duodecal, can 3, control, switch, jack, fuse holder, lamp holder, line cord, earth lug, IF can, transformer 8, speaker or chassis.");
        else if (template is not null && _feet.FirstOrDefault(f => f > template.Lugs.Length || f > (_count ?? 99)) is > 0 and var foot) Complain(_countAt, $"foot {ValueText.Number(foot)} of {ValueText.Number(_count ?? 0)} lugs", "Write a lug that the strip has.");
        return template;
    }
}

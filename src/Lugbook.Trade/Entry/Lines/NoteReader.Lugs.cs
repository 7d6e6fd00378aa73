using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Lugs, mounts and which lead is which.</summary>
internal sealed partial class NoteReader
{
    private readonly List<(LeadRole Role, int LeadsBefore, bool Glued, int At, bool CommaAfter, bool CommaBefore)> _roles = [];

    private void AddLead((string Lug, string Mount, int? No) lug, Word word, int end)
    {
        _note.Leads.Add(new(lug.Lug, lug.Mount, lug.No, word.At, end) { IsFrom = _from, CommaAfter = word.CommaAfter });
        (_mount, _from) = (lug.Mount, false);
    }

    private bool LugHere()
    {
        if (PinsOf() || FunctionOf()) return true;
        var word = Now;
        var text = word.Text;
        var (before, after) = (LeadRole.None, LeadRole.None);
        if (text.Length > 2 && text[0] is '+' or '-' && char.IsLetter(text[1])) { before = text[0] == '+' ? LeadRole.Plus : LeadRole.Minus; text = text[1..]; }
        if (text.Length > 2 && text[^1] is '+' or '-' && char.IsLetter(text[0])) { after = text[^1] == '+' ? LeadRole.Plus : LeadRole.Minus; text = text[..^1]; }

        if (_lugs.Of(text) is { } lug)
        {
            if (before != LeadRole.None) _roles.Add((before, _note.Leads.Count, true, word.At, false, false));
            AddLead(lug, word, word.End);
            if (after != LeadRole.None) _roles.Add((after, _note.Leads.Count - 1, true, word.At, false, false));
            _i++;
            return true;
        }
        if (SeveralLugs(text, word)) return true;
        if (word.Is("chassis"))
        {
            AddLead(_lugs.Chassis() is { } metal ? (metal.Name, metal.Mount, metal.No) : ("CH", "CH", null), word, word.End);
            _i++;
            return true;
        }
        return MountAndNumber();
    }

    /// <summary>"V3-6/V4-5", "V3-6-V4-5", "A-2/4".</summary>
    private bool SeveralLugs(string text, Word word)
    {
        foreach (var sign in (ReadOnlySpan<char>)['/', '>', '+', '&', '-'])
        {
            var pieces = sign == '-' ? PairsOfHyphens(text) : text.Split(sign);
            if (pieces is null || pieces.Length < 2 || _lugs.Of(pieces[0]) is not { } first) continue;
            var lugs = new List<(string, string, int?)> { first };
            var mount = first.Mount;
            foreach (var piece in pieces.Skip(1))
            {
                if (piece.Length is 1 or 2 && piece.All(char.IsAsciiDigit) && piece != "0") lugs.Add(_lugs.On(mount, piece));
                else if (_lugs.Of(piece) is { } next) { lugs.Add(next); mount = next.Mount; }
                else break;
            }
            if (lugs.Count != pieces.Length) continue;
            foreach (var lug in lugs) AddLead(lug, word, word.End);
            _i++;
            return true;
        }
        return false;
    }

    private static string[]? PairsOfHyphens(string text)
    {
        var pieces = text.Split('-');
        if (pieces.Length == 2) return pieces;
        return pieces.Length is 4 or 6 ? [.. Enumerable.Range(0, pieces.Length / 2).Select(k => $"{pieces[2 * k]}-{pieces[(2 * k) + 1]}")] : null;
    }

    /// <summary>"V3 pin 6", "A lug 2", "v3 5", "V3 plate".</summary>
    private bool MountAndNumber()
    {
        var word = Now;
        var known = _lugs.Mount(word.Text);
        var looksLikeMount = known is not null || (ReferencePattern().IsMatch(word.Text) && word.Text[0] is 'V' or 'v' or 'K' or 'k' or 'X');
        if (!looksLikeMount || word.Quoted) return false;
        var name = known?.Name ?? word.Text.ToUpperInvariant();
        var by = 1;
        var says = Ahead(1) is { } w && w.Is("pin", "lug", "tag", "terminal", "no", "#", "pins", "lugs", "tags");
        if (says) by++;
        // "A" and "a" are also an article and a lead's letter.
        if (Ahead(by) is { } number && number.Text.TrimStart('#') is { Length: 1 or 2 } digits && digits.All(char.IsAsciiDigit) && digits.Trim('0').Length > 0
            && (says || Units.At(_words, _i + by + 1) is var (unit, _) && (unit == UnitWord.None || number.CommaAfter || unit is UnitWord.Ampere)))
        {
            AddLead(_lugs.On(name, digits), word with { CommaAfter = number.CommaAfter }, number.End);
            _i += by + 1;
            return true;
        }
        return known is not null && Function(known, by);
    }

    private bool Function(Mount mount, int by)
    {
        if (Ahead(by) is not { Quoted: false } word || Vocabulary.LugFunction(word.Key) is not { } names) return false;
        // "grid 2", "grid 3"
        var count = by + 1;
        if (word.Is("grid") && Ahead(by + 1) is { Text: "1" or "2" or "3" } which) { names = which.Text switch { "2" => ["grid 2", "screen"], "3" => ["grid 3", "suppressor"], _ => ["grid 1"] }; count++; }
        var lugs = _lugs.Of(mount).Where(l => l.Function is { } f && names.Any(n => f.Contains(n, StringComparison.OrdinalIgnoreCase))
            || word.Is("cap") && l.Name.EndsWith("-cap", StringComparison.OrdinalIgnoreCase)).ToArray();
        var exact = lugs.Where(l => names.Contains(l.Function, StringComparer.OrdinalIgnoreCase)).ToArray();
        if (lugs.Length > 1 && exact.Length == 1) lugs = exact;
        if (lugs.Length == 0) lugs = [.. SocketPins.Of(mount, _book, _handbook, names).Select(pin => _lugs.Numbered(mount.Name, pin)).OfType<Lug>()];
        if (lugs.Length == 1)
        {
            AddLead((lugs[0].Name, lugs[0].Mount, lugs[0].No), Now, word.End);
            _note.Assumed.Add($"{mount.Name} {word.Key} is {lugs[0].Name}");
        }
        else
            _note.Complain(word.At, lugs.Length == 0 ? $"the book does not say which lug of {mount.Name} is its {word.Key}" : $"{mount.Name} has {lugs.Length} lugs for {word.Key}: {string.Join(", ", lugs.Select(l => l.Name))}",
                $"Write the lug by its number: {mount.Name}-{(lugs.Length > 0 ? lugs[0].No ?? 1 : 1)}.");
        _i += count;
        return true;
    }

    /// <summary>"plate of V3", "grid on V4".</summary>
    private bool FunctionOf()
    {
        if (Now.Quoted || Vocabulary.LugFunction(Now.Key) is null || RoleOf(Now) != LeadRole.None) return false;
        var by = Ahead(1) is { } w && w.Is("of", "on") ? 2 : 1;
        if (Ahead(by) is not { Quoted: false } name || _lugs.Mount(name.Text) is not { } mount || !mount.Kind.IsSocket()) return false;
        if (Ahead(by + 1) is { } next && (next.Text.All(char.IsAsciiDigit) || next.Is("pin", "lug", "tag") || Vocabulary.LugFunction(next.Key) is not null)) return false;
        var found = Function(mount, 0);
        _i += by;
        return found;
    }

    /// <summary>"pin 5", "lugs 3 and 5", "pins 3, 5 of V4", "3 and 5 on B".</summary>
    private bool PinsOf()
    {
        var says = Now.Is("pin", "pins", "lug", "lugs", "tag", "tags", "terminal", "terminals");
        var k = says ? 1 : 0;
        var numbers = new List<Word>();
        while (Ahead(k) is { } w)
        {
            if (w.Text.Length <= 2 && w.Text.All(char.IsAsciiDigit) && w.Text.Trim('0').Length > 0 && (says || Units.At(_words, _i + k + 1).Unit == UnitWord.None)) { numbers.Add(w); k++; }
            else if (numbers.Count > 0 && w.Is("and", "to", "&", "pin", "lug", "tag") && Ahead(k + 1) is { } n && (n.Text.All(char.IsAsciiDigit) || n.Is("pin", "lug", "tag"))) k++;
            else break;
        }
        if (numbers.Count == 0) return false;
        string? mount = null;
        var (of, name) = (Ahead(k), Ahead(k + 1));
        while (of is { } filler && name is not null && filler.Is("of", "on", "in", "the", "strip", "socket", "valve", "tube", "board") && name.Value.Is("strip", "socket", "valve", "tube", "the", "board")) (of, name, k) = (name, Ahead(k + 2), k + 1);
        if (of is { } o && o.Is("of", "on", "in", "strip", "socket", "valve", "tube", "board", "the") && name is { Quoted: false } m && (_lugs.Mount(m.Text) is not null || UsualReference().IsMatch(m.Text))
            && !(Ahead(k + 2) is { } after && after.Text.All(char.IsAsciiDigit)))
            mount = _lugs.Mount(m.Text)?.Name ?? m.Text.ToUpperInvariant();
        // "pin 3 V3 pin 5 V4": the mount straight after its pin; but in "lug 2 V3 pin 5" V3 belongs to what follows.
        if (mount is null && says && of is { Quoted: false, CommaAfter: var ends } direct && (_lugs.Mount(direct.Text) is not null || direct.Text[0] is 'V' or 'v' && UsualReference().IsMatch(direct.Text))
            && !(name is { } digits && digits.Text.All(char.IsAsciiDigit)) && !direct.Is("a")
            && (ends || name is not { } then || !then.Is("pin", "lug", "tag", "terminal") || (Ahead(k + 3) is { } other && _lugs.Mount(other.Text) is not null)))
        {
            mount = _lugs.Mount(direct.Text)?.Name ?? direct.Text.ToUpperInvariant();
            k--;
        }
        if (mount is null && !says) return false;
        if (mount is not null && !says && numbers.Count > 2) numbers.RemoveRange(0, numbers.Count - 2);
        if (mount is not null && !says && numbers[0] != Now) return false;
        if ((mount ?? _mount) is not { } on)
        {
            _note.Complain(numbers[0].At, $"lug {numbers[0].Text} of which mount?", $"Write the mount too: V3-{numbers[0].Text}.");
            _i += k;
            return true;
        }
        foreach (var number in numbers) AddLead(_lugs.On(on, number.Text), number, number.End);
        _i += mount is null ? k : k + 2;
        return true;
    }

    /// <summary>A bare number straight after "wiper", "plus", a lead's letter: a lug of the mount at hand.</summary>
    private bool BareLug(string number)
    {
        if (_roles.Count == 0 || _roles[^1].LeadsBefore != _note.Leads.Count || _i == 0 || !IsRole(_words[_i - 1])) return false;
        if (number.Length > 2 || !number.All(char.IsAsciiDigit) || number.Trim('0').Length == 0) return false;
        var own = Kind == PartKind.Control && _note.Leads.Count == 0 ? _note.Reference : null;
        if ((own ?? _mount) is not { } on) return false;
        AddLead(_lugs.On(on, number), Now, Now.End);
        _i++;
        return true;
    }

    /// <summary>Do the words round a bare number say that it is a lug? "to 5", "A-2,4", "A-2 and 4", "3 to 5".</summary>
    private bool HintedAt(int at)
    {
        bool IsLug(Word word) => _note.Leads.Any(l => l.End == word.End);
        for (var k = 0; k < _words.Length; k++)
            if (_words[k].At == at)
                return (k > 0 && _words[k - 1].CommaAfter && _words[k - 1].End == at - 1 && IsLug(_words[k - 1]))
                    || (k > 1 && _words[k - 1].Is("and", "&", "-", "/") && IsLug(_words[k - 2]))
                    || (k > 0 && _words[k - 1].Is("to", "from", "between", "pin", "lug", "tag"))
                    || (k > 0 && k + 1 < _words.Length && _words[k + 1].Is("to", "and") && k + 2 < _words.Length && _words[k + 2].Text is { Length: <= 2 } next && next.All(char.IsAsciiDigit))
                    || (k > 1 && _words[k - 1].Is("and") && _words[k - 2].Text is { Length: <= 2 } previous && previous.All(char.IsAsciiDigit));
        return false;
    }

    /// <summary>A mount by itself: bare numbers that follow are its lugs.</summary>
    private bool MountHere()
    {
        if (Now.Quoted || _lugs.Mount(Now.Text) is not { } mount) return false;
        if (Now.Text.Length == 1 && Now.Is("a") && Now.Text == "a") return false;
        _mount = mount.Name;
        _i++;
        return true;
    }

    private bool IsRole(Word word) => RoleOf(word) != LeadRole.None;

    private LeadRole RoleOf(Word word) => word switch
    {
        _ when word.Quoted => LeadRole.None,
        _ when word.Is("+", "plus", "pos", "positive", "+ve") => LeadRole.Plus,
        _ when word.Is("minus", "neg", "negative", "-ve") => LeadRole.Minus,
        _ when word.Is("-") && _hasPlus => LeadRole.Minus,
        _ when word.Is("common") && Kind is { } can && can.IsCapacitor() && _i + 1 < _words.Length && _words[_i] == word && _lugs.Of(_words[_i + 1].Text) is not null => LeadRole.Minus,
        _ when word.Is("wiper", "slider", "arm", "centre", "center") && Kind is PartKind.Control or PartKind.Resistor or null => LeadRole.Wiper,
        _ when word.Is("cathode", "banded", "band", "k") && Kind is { } c && c.IsRectifier() => LeadRole.Plus,
        _ when word.Is("anode") && Kind is { } a && a.IsRectifier() => LeadRole.Minus,
        _ => LeadRole.None,
    };

    private bool Role()
    {
        var role = RoleOf(Now);
        var glued = false;
        if (role == LeadRole.None && Now.Is("a", "b", "c") && Now.Text.Length == 1 && Ahead(1) is { } next
            && (_lugs.Of(next.Text) is not null || (_lugs.Mount(next.Text) is not null && Ahead(2) is { } no && no.Text.All(char.IsAsciiDigit)) || (_note.Moves && next.Is("to"))))
            (role, glued) = (Now.Is("a") ? LeadRole.A : Now.Is("b") ? LeadRole.B : LeadRole.Wiper, true);
        if (role == LeadRole.None) return false;
        _roles.Add((role, _note.Leads.Count, glued, Now.At, Now.CommaAfter, _i > 0 && _words[_i - 1].CommaAfter));
        _i++;
        while (_i < _words.Length && Now.Is("on", "to", "at", "is", "end", "lead", "lug", "pin", "tag", "side", "goes") && !PinsAhead()) _i++;
        return true;
    }

    private bool PinsAhead() => Now.Is("pin", "lug", "tag") && Ahead(1) is { } n && n.Text.All(char.IsAsciiDigit);

    /// <summary>Gives each role its lug: the next one, or the one before when the note puts its roles last.</summary>
    private void PlaceRoles()
    {
        var leads = _note.Leads;
        var free = _roles.Where(r => !r.Glued).ToArray();
        var last = free.Length > 0 && free[^1].LeadsBefore == leads.Count && leads.Count > 0;
        var first = free.Length > 0 && free[0].LeadsBefore == 0;
        // A single role between two lugs belongs to the next one ("K1-4 plus K1-1"), unless a comma says otherwise; the reader asks.
        _note.RoleIsUnclear = free.Length == 1 && !first && !last && leads.Count == 2 && free[0].Role is LeadRole.Plus or LeadRole.Minus
            && !free[0].CommaAfter && !free[0].CommaBefore && _words.Any(w => w.At == free[0].At && w.Text is "+");
        foreach (var role in _roles)
        {
            var isLast = !role.Glued && (last && !first || role is { CommaAfter: true, CommaBefore: false } && role.LeadsBefore > 0);
            var at = isLast ? role.LeadsBefore - 1 : role.LeadsBefore;
            if (at >= 0 && at < leads.Count)
            {
                if (leads[at].Role is not LeadRole.None && leads[at].Role != role.Role)
                    _note.Complain(role.At, $"{leads[at].Lug} is said to be two different leads", "Write each lead's word before its lug: plus K1-1 minus K1-4.");
                else leads[at].Role = role.Role;
            }
            else _note.LooseRole = role.Role;
        }
    }
}

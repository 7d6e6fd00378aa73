using System.Collections.Immutable;
using Lugbook.Trade.Chassis;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>A bench note about a wire or a bond: "wire V3-8 K1-5 black", "W12 bond A-3 CH".</summary>
internal static class WireLine
{
    private static readonly string[] WireWords = ["wire", "bond", "bonded", "jumper", "link", "strap", "rivet", "riveted", "hookup", "wires"];

    /// <summary>Is the line about a wire?</summary>
    public static bool IsOne(ImmutableArray<Word> words, Book book)
    {
        if (words.IsEmpty) return false;
        if (IsName(words[0].Text) && book.Parts.Named(words[0].Text) is null) return true;
        if (words[0].Is(WireWords) && !(words.Length > 1 && words[1].Is("wound"))) return true;
        // "black wire from V3-8 to K1-5", "V3-8 to K1-5 red wire": no word that could be a part's reference or value
        return words.Any(w => w.Is("wire", "jumper", "link", "bond", "bonded", "strap", "riveted", "twisted", "shielded", "screened")) && !words.Any(w => w.Is("wound", "wirewound"))
            && words.Any(w => new LugNames(book).Of(w.Text) is not null)
            && !words.Any(w => book.Parts.Named(w.Text) is not null && new LugNames(book).Of(w.Text) is null && book.Mounts.Named(w.Text) is null)
            && (words[0].Is("from", "between") || Colours.OfWire(words[0].Text) is not null || new LugNames(book).Of(words[0].Text) is not null || words[0].Is("bare", "twisted", "shielded", "screened", "black"));
    }

    private static bool IsName(string text) => text.Length is >= 2 and <= 5 && text[0] is 'W' or 'w' && text[1..].All(char.IsAsciiDigit);

    /// <summary>What the line means for the book.</summary>
    public static EntryResult Read(string line, EntryContext context)
    {
        var (book, onLug) = (context.Book, context is { Mode: EntryMode.AllOnLug, LastLug: not null } ? context.LastLug : null);
        var words = Words.Of(line);
        string? name = null, kind = null, colour = null;
        var rest = line.ToCharArray();
        var remarks = new List<string>();
        void Blank(Word word) { for (var k = word.At; k < word.End; k++) rest[k] = ' '; }
        for (var i = 0; i < words.Length; i++)
        {
            var word = words[i];
            if (word.Quoted) { remarks.Add(word.Text); Blank(word); continue; }
            if (word.Is("note")) { remarks.Add(line[word.End..].Trim(' ', '"')); for (var k = word.At; k < line.Length; k++) rest[k] = ' '; break; }
            if (i == 0 && IsName(word.Text)) name = word.Text.ToUpperInvariant();
            else if (word.Is("bond", "bonded", "rivet", "riveted", "bare", "strap", "bus", "twisted", "shielded", "screened"))
                kind = kind is "bond" ? kind : word.Is("bonded", "rivet", "riveted") ? "bond" : word.Is("screened") ? "shielded" : word.Is("strap", "bus") ? "bare" : word.Key;
            else if (word.Is("line") && i + 1 < words.Length && words[i + 1].Is("cord")) { kind = "line cord"; Blank(words[++i]); }
            else if (word.Is("wire", "wires", "jumper", "link", "hookup", "pair", "insulated", "coloured", "colored", "tracer", "stripe", "sleeved", "solid", "stranded", "new")) { }
            else if (Colours.OfWire(word.Text) is { } c) colour = colour is null ? c : $"{colour}/{c}";
            else continue;
            Blank(word);
        }
        var note = NoteReader.Read(new string(rest), context, context.LastMount, partsOnly: false);
        var complaints = note.Complaints.Select(c => c with { Text = line }).ToList();
        void Complain(int at, string problem, string remedy) => complaints.Add(new("the bench note", line, at, problem, remedy));
        EntryResult Refused() => new() { Line = line, Complaints = [.. complaints], Next = context };

        BareNumbers.Sort(note, new(book), Parts.PartKind.Switch, true, false, 8);
        complaints.AddRange(note.Complaints.Skip(complaints.Count).Select(c => c with { Text = line }));
        if (note.Ground is { } ground) Complain(ground.At, $"'{ground.Value}' may be the chassis, the common negative or earth", "Write the lug itself, or 'chassis'.");
        if (note.Values.Count > 0) Complain(note.Values[0].At, "a wire has no value", "Leave it out, or begin with the part's reference.");
        var lugs = note.Leads.Select(l => l.Lug).ToList();
        if (onLug is not null && !lugs.Contains(onLug, StringComparer.OrdinalIgnoreCase))
        {
            if (lugs.Count > 1) Complain(note.Leads[0].At, $"no end of this wire is on {onLug}", "Write 'done' first, or one lug only: the other end.");
            lugs.Insert(0, onLug);
        }
        remarks.AddRange(note.Remarks.Select(r => r.Text));
        var existing = name is null ? null : book.Wires.Named(name);
        if (complaints.Count == 0 && lugs.Count < 2)
            Complain(line.Length, lugs.Count == 0 ? "a wire between which lugs?" : $"from {lugs[0]} to which lug?", "Write both lugs: wire V3-8 K1-5 black.");
        for (var i = 1; i < lugs.Count; i++)
            if (Same(lugs[i - 1], lugs[i])) Complain(Math.Max(0, i < note.Leads.Count ? note.Leads[i].At : 0), $"both ends on {lugs[i]}", "Look again at the lugs.");
        if (complaints.Count == 0 && lugs.Count > 2 && name is not null) Complain(note.Leads[^1].At, $"{lugs.Count} lugs for one wire", "Leave out the name: a run of lugs gets a wire for each step.");
        if (complaints.Count > 0) return Refused();

        var edits = new List<BookEdit>();
        var questions = new List<EntryQuestion>();
        var said = new List<string>();
        var taken = book.Wires.Select(w => w.Name).ToList();
        for (var i = 1; i < lugs.Count; i++)
        {
            var remark = remarks.Count > 0 ? string.Join(" ", remarks) : null;
            if (existing is null && book.Wires.FirstOrDefault(w => Joins(w, lugs[i - 1], lugs[i]) && (colour is null || w.Colour is null || Same(w.Colour, colour)) && (kind == "bond") == (w.Kind == WireKind.Bond) && name is null) is { } there)
            {
                said.Add(ReadBack.Of(there));
                continue;
            }
            var wire = new Wire { Name = name ?? References.NextWire(taken), From = lugs[i - 1], To = lugs[i], KindAsWritten = kind ?? "wire", Colour = colour, Note = remark };
            if (existing is not null)
            {
                if (!Joins(existing, lugs[i - 1], lugs[i]))
                {
                    Complain(note.Leads.Count > 0 ? note.Leads[0].At : 0, $"{existing.Name} is in the book from {existing.From} to {existing.To}", "Give this wire another name, or leave the name out.");
                    return Refused();
                }
                said.Add(ReadBack.Of(existing));
                continue;
            }
            foreach (var lug in new[] { wire.From, wire.To }) NewMounts.Lug(edits, lug, note.Leads.FirstOrDefault(l => Same(l.Lug, lug))?.At ?? 0, note, book, new(book), questions);
            taken.Add(wire.Name);
            edits.Add(new AddWire(wire));
            said.Add(ReadBack.Of(wire));
        }
        complaints.AddRange(note.Complaints.Select(c => c with { Text = line }));
        if (complaints.Count > 0) return Refused();
        var sentence = Sentence.Of(said, null, [.. edits], [], []) + (edits.OfType<AddWire>().Any() ? "" : "; before: the same");
        return new()
        {
            Line = line,
            Edits = [.. edits],
            Understood = sentence,
            Questions = [.. questions],
            Next = context with
            {
                Book = edits.Aggregate(book, (b, e) => e.Apply(b)),
                LastMount = onLug is not null ? context.LastMount : note.LastMount,
                LastLug = onLug ?? lugs[^1],
            },
        };
    }

    private static bool Joins(Wire wire, string a, string b) => (Same(wire.From, a) && Same(wire.To, b)) || (Same(wire.From, b) && Same(wire.To, a));

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}

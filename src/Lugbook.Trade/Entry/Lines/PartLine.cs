using System.Collections.Immutable;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>A bench note about a part, held against the book: a new part, an open field filled, or a change asked for.</summary>
internal sealed class PartLine
{
    private readonly EntryContext _context;
    private readonly BenchNote _note;
    private readonly LugNames _lugs;
    private readonly Func<string, MarkingContext, MarkingResult> _reader;
    private readonly Part? _existing;
    private readonly List<EntryQuestion> _questions = [];

    private PartLine(BenchNote note, EntryContext context, Func<string, MarkingContext, MarkingResult> reader)
    {
        (_note, _context, _reader, _lugs) = (note, context, reader, new(context.Book));
        _existing = note.Reference is { } r ? context.Book.Parts.Named(r) : null;
    }

    /// <summary>What the note means for the book.</summary>
    public static EntryResult Read(string line, EntryContext context, Func<string, MarkingContext, MarkingResult> reader)
    {
        var mount = context is { Mode: EntryMode.AllOnLug, LastLug: { } on } ? context.Book.Lugs.Named(on)?.Mount ?? context.LastMount : context.LastMount;
        return new PartLine(NoteReader.Read(line, context, mount), context, reader).Run();
    }

    private bool OnOneLug => _context is { Mode: EntryMode.AllOnLug, LastLug: not null };

    private EntryResult Run()
    {
        var source = Source();
        if (_existing is null && _note.Reference is not null && (_note.Moves || _note.Changes))
            _note.Complain(_note.ReferenceAt, $"there is no {_note.Reference} in the book to change", "Look at its reference again, or enter it as a new part.");
        if (_note.Ground is not null && AskGround() is { } asked) return asked;
        if (_note.RoleIsUnclear) AskRole();
        var kind = _note.WrittenKind is { } w && w != PartKind.Capacitor ? w : _existing?.Kind ?? source?.Kind ?? _note.WrittenKind ?? (_note.Reference is { } r ? References.KindOf(r) : null);
        kind ??= FromUnit();
        var wanted = kind is { } k ? PartKinds.LeadsOf(k) : 2;
        BareNumbers.Sort(_note, _lugs, kind, source?.Value is not null || _note.Inductance is not null && kind == PartKind.Winding && _note.Bare.Count < 3, _existing?.Value is not null && !_note.Forces,
            wanted - (_existing is null || _note.Moves ? 0 : _existing.Leads.Length) - (OnOneLug ? 1 : 0));
        kind ??= FromUnit();
        if (kind is null && _note.Complaints.Count == 0 && _note.Reference is null && _note.Values.Count > 0 && AskLetter() is { } letter) return letter;
        if (kind is null && _note.Complaints.Count == 0)
            _note.Complain(_note.Reference is null ? 0 : _note.ReferenceAt, _note.Reference is null ? "it is not clear what part this is" : $"it is not clear what kind of part {_note.Reference} is",
                "Begin with a reference (R3, C7), or write the value with its unit, or add the kind in words (resistor, paper, lamp).");
        if (_note.Complaints.Count > 0) return Refused();

        var marked = MarkedValue.Read(_note, kind == PartKind.Other ? null : kind, _context.Book, _reader);
        if (_note.Complaints.Count > 0) return Refused();
        _questions.AddRange(marked.Questions);
        var name = _note.Reference ?? NextName(kind!.Value);
        if (marked.Sections.Length > 1 && _existing is null) return SeveralSections(name, kind!.Value, marked);
        return One(name, kind!.Value, marked, source);
    }

    private string NextName(PartKind kind) => References.Next(_context.Book, References.LettersOf(kind), _context.LastReference);

    /// <summary>The part that "same as R2" names.</summary>
    private Part? Source()
    {
        if (_note.SameAs is not { } same) return null;
        var letters = _note.Reference is { } r ? Reference.Split(r).Letters : null;
        var part = same.Value.Length > 0 ? _context.Book.Parts.Named(same.Value)
            : _context.Book.Parts.Named(_context.LastReference) is { } last && (letters is null || Reference.Split(last.Name).Letters == letters) ? last
            : _context.Book.Parts.LastOrDefault(p => letters is null || Reference.Split(p.Name).Letters == letters);
        if (part is null || part == _existing)
            _note.Complain(same.At, same.Value.Length > 0 ? $"there is no other part {same.Value.ToUpperInvariant()}" : "there is no part before this one", "Name a part that is in the book, or write the value.");
        return part;
    }

    /// <summary>The kind that the value's own unit leaves no doubt about.</summary>
    private PartKind? FromUnit()
    {
        if (_note.Colours.Count > 0) return PartKind.Resistor;
        if (_note.Values.Count == 0) return _note.Inductance is not null ? PartKind.Winding : null;
        var value = _note.Values[0];
        if (value.Unit.IsCapacitance() || (value.Unit == UnitWord.None && value.Number < 1)) return PartKind.Capacitor;
        if (value.Unit is UnitWord.Ohm or UnitWord.Kilo or UnitWord.Meg or UnitWord.LetterM) return PartKind.Resistor;
        return value.Number is not null ? null
            : _reader(value.Text, new() { MegHabit = _context.Book.Facts.MegHabit, Year = _context.Book.Facts.Year }).Best?.Unit switch { Unit.Ohm => PartKind.Resistor, Unit.Farad => PartKind.Capacitor, _ => null };
    }

    private EntryResult One(string name, PartKind kind, MarkedValue marked, Part? source)
    {
        var draft = new PartDraft(_note, _context.Book, _existing).Make(name, kind, marked, source, _questions);
        if (draft is null || _note.Complaints.Count > 0) return Refused();
        var placed = Leads(draft);
        if (placed is null || _note.Complaints.Count > 0) return Refused();
        if (placed.Waits) return Waiting();
        var part = PartDraft.WithGroup(placed.Part, _context.Book);
        var edits = NewMounts.For(part, _note, _context, _questions);
        if (_note.Complaints.Count > 0) return Refused();
        if (_existing is null) edits.Add(new AddPart(part));
        else if (part != _existing) edits.Add(new ChangePart(_existing, part));
        return Entered([part], [.. edits]);
    }

    private LeadPlaces? Leads(Part draft)
    {
        var leads = _note.Leads.ToList();
        if (OnOneLug && !leads.Any(l => Same(l.Lug, _context.LastLug!)))
        {
            var here = _context.LastLug!;
            leads.Insert(0, new(here, _context.Book.Lugs.Named(here)?.Mount ?? NewMounts.MountOf(here), null, 0, 0) { Role = _note.LooseRole });
        }
        else if (_note.LooseRole != LeadRole.None && leads.Count == 0 && draft.Kind != PartKind.Control && _existing is null)
            _note.Assumed.Add("a lead was named without a lug");
        return LeadPlaces.Put(draft, _existing, leads, _note, _lugs, _context);
    }

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);

    /// <summary>A can with several sections: C12 becomes C12A, C12B, … with one common − lead.</summary>
    private EntryResult SeveralSections(string name, PartKind kind, MarkedValue marked)
    {
        var count = marked.Sections.Length;
        var leads = _note.Leads.Where(l => l.Role != LeadRole.Minus).ToList();
        var minus = _note.Leads.FirstOrDefault(l => l.Role == LeadRole.Minus);
        if (minus is null && leads.Count == count + 1) { minus = leads[^1]; leads.RemoveAt(count); _note.Assumed.Add($"{minus.Lug} is the common lead"); }
        if (leads.Count > count)
        {
            _note.Complain(leads[count].At, $"{leads.Count} lugs for {count} sections", "Write one lug for each section and one for the common lead: K1-1 K1-2 minus K1-3.");
            return Refused();
        }
        var (book, parts, edits) = (_context.Book, new List<Part>(), new List<BookEdit>());
        for (var i = 0; i < count; i++)
        {
            var section = marked.Sections[i];
            var stem = Reference.Split(name).Body;
            var one = marked with { Value = section.Value, Volts = section.RatedVolts ?? marked.Volts, Sections = [section], Questions = [] };
            var draft = new PartDraft(_note, book, null).Make(References.NextSection(book, stem), kind, one, null, _questions);
            if (draft is null || _note.Complaints.Count > 0) return Refused();
            if (draft.Kind == PartKind.Electrolytic) draft = draft with { PlusLead = 'a' };
            draft = PartDraft.WithGroup(draft with { LeadA = i < leads.Count ? leads[i].Lug : null, LeadB = minus?.Lug }, book);
            foreach (var edit in NewMounts.For(draft, _note, _context with { Book = book }, _questions).Append(new AddPart(draft)))
            {
                book = edit.Apply(book);
                edits.Add(edit);
            }
            parts.Add(draft);
        }
        if (_note.Complaints.Count > 0) return Refused();
        if (parts.Any(p => p.Kind == PartKind.Electrolytic)) _note.Assumed.Add("each section's own lug is +");
        return Entered([.. parts], [.. edits]);
    }

    /// <summary>"ground" may be the chassis or the common negative: they are different things.</summary>
    private EntryResult? AskGround()
    {
        var (word, at, end) = _note.Ground!.Value;
        var choices = new List<EntryAlternative>();
        void Offer(string lug, string what) => choices.Add(new($"{lug}, {what}", _note.Line[..at] + lug + _note.Line[end..]));
        if (_lugs.Chassis() is { } metal) Offer(metal.Name, "the chassis");
        if (_context.Book.Facts.CommonLug is { } common) Offer(common, "the common negative (B-)");
        if (choices.Count < 2)
        {
            _note.Complain(at, $"'{word}' may be the chassis, the common negative or earth: they are different things", "Write the lug itself, such as A-3, or 'chassis'.");
            return Refused();
        }
        _questions.Add(new($"Which is '{word}'?", [.. choices]));
        return Waiting();
    }

    /// <summary>"47 A-1 A-2": a resistor or a capacitor?</summary>
    private EntryResult AskLetter()
    {
        EntryAlternative As(string letter, string what)
        {
            var name = References.Next(_context.Book, letter, _context.LastReference);
            return new($"{name}, {what}", $"{name} {_note.Line.Trim()}");
        }
        _questions.Add(new($"What is it, with {_note.Values[0].Text} and no unit?", [As("R", "a resistor"), As("C", "a capacitor")]));
        return Waiting();
    }

    /// <summary>"K1-1 + K1-4": which of the two is +?</summary>
    private void AskRole()
    {
        var (a, b) = (_note.Leads[0], _note.Leads[1]);
        string With(string first, string second) => $"{_note.Line[..a.At]}{first}{_note.Line[b.End..]} {second}";
        _questions.Add(new("Which lead is +?", [new($"{b.Lug} is +", With($"minus {a.Lug}", $"plus {b.Lug}")), new($"{a.Lug} is +", With($"plus {a.Lug}", $"minus {b.Lug}"))]));
    }

    private EntryResult Refused() => new() { Line = _note.Line, Complaints = [.. _note.Complaints], Next = _context };

    private EntryResult Waiting() => new() { Line = _note.Line, Questions = [.. _questions], Next = _context };

    private EntryResult Entered(ImmutableArray<Part> parts, ImmutableArray<BookEdit> edits)
    {
        var open = parts.SelectMany(p => Unfinished.FieldsOf(p)).ToImmutableArray();
        var book = edits.Aggregate(_context.Book, (b, e) => e.Apply(b));
        var last = parts[^1];
        return new()
        {
            Line = _note.Line,
            Edits = edits,
            Understood = Sentence.Of(parts.Select(ReadBack.Of), _existing, edits, [.. _note.Assumed.Distinct()], open),
            Assumed = [.. _note.Assumed.Distinct()],
            Open = open,
            Questions = [.. _questions],
            NextReference = References.Next(book, Reference.Split(last.Name).Letters, last.Name),
            Next = _context with
            {
                Book = book,
                LastMount = OnOneLug ? _context.LastMount : _note.LastMount,
                LastLug = OnOneLug ? _context.LastLug : _note.Leads.Count > 0 ? _note.Leads[^1].Lug : _context.LastLug,
                LastReference = last.Name,
            },
        };
    }
}

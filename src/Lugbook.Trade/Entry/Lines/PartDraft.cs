using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Makes the part that a note describes, without its leads; on an existing part fills what is open.</summary>
internal sealed class PartDraft(BenchNote note, Book book, Part? existing)
{
    /// <summary>The part, or null when the note contradicts the book; then the note complains.</summary>
    public Part? Make(string name, PartKind kind, MarkedValue marked, Part? source, List<EntryQuestion> questions)
    {
        if (note.VoltsAreAc && kind.IsFixedCapacitor() && note.Remarks.All(r => !r.Text.EndsWith("V is AC", StringComparison.Ordinal)))
            note.Remarks.Add(($"{ValueText.Number(note.Volts!.Value.Value)} V is AC", note.Volts.Value.At));
        var volts = note.Volts?.Value ?? marked.Volts;
        var watts = note.Watts?.Value ?? marked.Watts;
        var (value, unit) = (marked.Value, marked.Unit);
        var tolerance = note.Tolerance?.Value ?? marked.Tolerance;
        if (kind == PartKind.Lamp && value is null && volts is { } v && note.Amperes is { } lamp)
        {
            (value, unit, watts) = (v / lamp.Value, Unit.Ohm, watts ?? v * lamp.Value);
            note.Assumed.Add($"hot resistance {ValueText.Number(Math.Round(value.Value, 1))} Ω");
        }
        if (source is not null && Contradicts(source.Value, value))
        {
            note.Complain(note.SameAs!.Value.At, $"{source.Name} is {ValueText.Of(source.Value!.Value, source.Unit)}, not {ValueText.Of(value!.Value, unit)}", "Leave out the value or the 'same as'.");
            return null;
        }
        value ??= source?.Value;
        unit ??= source?.Unit;
        var written = Kind(kind, value, volts ?? source?.RatedVolts, source, questions);
        var draft = new Part
        {
            Name = name,
            KindAsWritten = written,
            Marked = Marking(PartKinds.Of(written)) ?? source?.Marked,
            Value = value,
            Unit = value is null ? null : unit,
            RatedVolts = volts ?? source?.RatedVolts,
            RatedWatts = watts ?? source?.RatedWatts,
            Tolerance = tolerance ?? source?.Tolerance,
            Code = note.Colours.Count > 0 ? string.Join(' ', note.Colours) : source?.Code,
            Note = note.Remarks.Count > 0 ? string.Join(" ", note.Remarks.OrderBy(r => r.At).Select(r => r.Text)) : null,
        };
        return existing is null ? draft : Fill(existing, draft);
    }

    private static bool Contradicts(double? a, double? b) => a is { } x && b is { } y && !MarkedValue.Close(x, y);

    /// <summary>The kind as it will be written in the book.</summary>
    private string Kind(PartKind kind, double? value, double? volts, Part? source, List<EntryQuestion> questions)
    {
        if (note.WrittenKind is { } w && w != PartKind.Capacitor) return note.KindWord!;
        if (existing is not null && existing.Kind != PartKind.Capacitor) return existing.KindAsWritten;
        if (source is not null) return source.KindAsWritten;
        if (kind != PartKind.Capacitor) return PartKinds.Spelling(kind);
        var polar = note.Leads.Any(l => l.Role is LeadRole.Plus or LeadRole.Minus) || note.LooseRole is LeadRole.Plus or LeadRole.Minus;
        var inPicofarads = note.Values.Count > 0 && (note.Values[0].Unit is UnitWord.Pico or UnitWord.Nano or UnitWord.Centimetre || (note.Values[0].Unit == UnitWord.None && !(note.Values[0].Number < 1) && !note.Values[0].Text.Contains('.', StringComparison.Ordinal)));
        var (guess, why, ask) = KindGuess.Capacitor(value ?? existing?.Value, inPicofarads, volts, polar, book.Facts.Year);
        if (note.HasSafetyClass && guess == PartKind.Paper) (guess, why, ask) = (PartKind.Film, "a safety class is marked", []);
        if (guess != PartKind.Capacitor) note.Assumed.Add($"{PartKinds.Spelling(guess)} ({why})");
        if (ask.Length > 1)
            questions.Add(new($"Is it {string.Join(" or ", ask.Select(PartKinds.Spelling))}?", [.. ask.Select(k => new EntryAlternative(PartKinds.Spelling(k), WithKind(PartKinds.Spelling(k))))]));
        return PartKinds.Spelling(guess);
    }

    private string WithKind(string kind) => note.KindWord is null ? $"{note.Line.TrimEnd()} {kind}" : note.Line[..note.KindAt] + kind + " " + note.Line[note.KindAt..];

    /// <summary>What is printed on the part, in the words of the note.</summary>
    private string? Marking(PartKind kind)
    {
        if (note.TypeMark is { } type) return type.Value;
        if (kind == PartKind.Winding) return note.Inductance?.Value;
        if (kind is PartKind.Fuse or PartKind.Switch || kind.IsRectifier())
        {
            if (note.Amperes is not { } amperes) return null;
            var speed = note.Remarks.FindIndex(r => r.Text.ToLowerInvariant() is "slow" or "fast" or "quick" or "delay");
            var text = (amperes.Value < 1 && kind.IsRectifier() ? $"{ValueText.Number(amperes.Value * 1000)} mA" : $"{ValueText.Number(amperes.Value)} A") + (speed >= 0 ? " " + note.Remarks[speed].Text.ToLowerInvariant() : "");
            if (speed >= 0) note.Remarks.RemoveAt(speed);
            return text;
        }
        if (kind == PartKind.Lamp && note.Amperes is { } lamp) return $"{(note.Volts is { } v ? ValueText.Number(v.Value) + " V " : "")}{ValueText.Number(lamp.Value)} A";
        var pieces = note.Marking.Distinct().OrderBy(m => m.At).Select(m => note.Line[m.At..m.End].Trim(' ', ',', ';')).ToArray();
        return pieces.Length > 0 ? string.Join(' ', pieces) : null;
    }

    /// <summary>The existing part with what the draft adds; what differs is taken only when the note asks for a change.</summary>
    private Part? Fill(Part old, Part draft)
    {
        var result = old;
        var before = note.Complaints.Count;
        void Number(string what, double? had, double? has, int at, string shown, Func<Part, Part> set)
        {
            if (has is null || (had is { } h && MarkedValue.Close(h, has.Value))) return;
            if (had is null || note.Forces) result = set(result);
            else note.Complain(at, $"{old.Name} is in the book with {what} {shown}", $"To change it write: change {old.Name} …; to enter another part give it another reference.");
        }
        var at = note.Values.Count > 0 ? note.Values[0].At : note.Colours.Count > 0 ? note.ColoursPlace.At : note.ReferenceAt;
        Number("the value", old.Value, draft.Value, at, old.Value is { } v ? ValueText.Of(v, old.Unit) : "", p => p with { Value = draft.Value, Unit = draft.Unit, Marked = draft.Marked, Code = draft.Code ?? (old.Value is null ? old.Code : null) });
        Number("rated volts", old.RatedVolts, draft.RatedVolts, note.Volts?.At ?? at, $"{ValueText.Number(old.RatedVolts ?? 0)} V", p => p with { RatedVolts = draft.RatedVolts });
        Number("rated watts", old.RatedWatts, draft.RatedWatts, note.Watts?.At ?? at, $"{ValueText.Number(old.RatedWatts ?? 0)} W", p => p with { RatedWatts = draft.RatedWatts });
        if (draft.Tolerance is { } t && t != old.Tolerance && (note.Tolerance is not null || old.Tolerance is null))
            Number("the tolerance", old.Tolerance is null ? null : 0, 1, note.Tolerance?.At ?? at, old.Tolerance is { } o ? ValueText.Of(o) : "", p => p with { Tolerance = t });
        if (PartKinds.Of(draft.KindAsWritten) != old.Kind)
        {
            if (note.Forces || old.Kind is PartKind.Capacitor or PartKind.Other) result = result with { KindAsWritten = draft.KindAsWritten };
            else note.Complain(note.KindAt, $"{old.Name} is in the book as {old.KindAsWritten}", $"To change it write: change {old.Name} {draft.KindAsWritten}.");
        }
        if (draft.Marked is not null && old.Marked is null && (old.Value is null || note.TypeMark is not null || note.Inductance is not null)) result = result with { Marked = draft.Marked };
        else if (note.TypeMark is { } type && !string.Equals(type.Value, old.Marked, StringComparison.OrdinalIgnoreCase))
        {
            if (note.Forces) result = result with { Marked = type.Value };
            else note.Complain(type.At, $"{old.Name} is in the book as {old.Marked}", $"To change it write: change {old.Name} {type.Value}.");
        }
        if (draft.Code is not null && old.Code is null) result = result with { Code = draft.Code };
        if (draft.Note is { } remark && old.Note?.Contains(remark, StringComparison.OrdinalIgnoreCase) != true)
            result = result with { Note = old.Note is null ? remark : $"{old.Note}; {remark}" };
        return note.Complaints.Count > before ? null : result;
    }

    /// <summary>The part with the body that it shares: a can, a transformer, a socket.</summary>
    public static Part WithGroup(Part part, Book book)
    {
        if (part.Group is not null) return part;
        var can = part.Kind == PartKind.Electrolytic && part.PlusLug is { } plus && book.Lugs.Named(plus) is { } lug
            && book.Mounts.Named(lug.Mount) is { Kind: MountKind.Can } mount ? mount.Name : null;
        var reference = Reference.Split(part.Name);
        var body = reference.Suffix.Length > 0 && reference.Number > 0 ? reference.Body : null;
        var own = part.Kind is PartKind.Valve or PartKind.Control ? part.Name : null;
        return part with { Group = can ?? body ?? own };
    }
}

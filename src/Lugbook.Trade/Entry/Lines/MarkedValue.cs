using System.Collections.Immutable;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>The value of a note, as the marking reader understands it.</summary>
internal sealed record MarkedValue
{
    public double? Value { get; init; }
    public Unit? Unit { get; init; }
    public Tolerance? Tolerance { get; init; }
    public double? Volts { get; init; }
    public double? Watts { get; init; }
    public ImmutableArray<Section> Sections { get; init; } = [];
    public ImmutableArray<EntryQuestion> Questions { get; init; } = [];

    /// <summary>A meaning with less than this share of belief is not asked about.</summary>
    private const double ShareWorthAsking = 0.1;

    /// <summary>Colours are told in reading order: read from the other end they are seldom meant.</summary>
    private const double ColourShareWorthAsking = 0.25;

    /// <summary>Reads the value; complaints go into the note. Nothing to read gives an empty value.</summary>
    public static MarkedValue Read(BenchNote note, PartKind? kind, Book book, Func<string, MarkingContext, MarkingResult> reader)
    {
        var unit = kind is { } k ? PartKinds.UnitOf(k) : null;
        var polar = note.Leads.Any(l => l.Role is LeadRole.Plus or LeadRole.Minus) && unit == Quantities.Unit.Farad;
        var context = new MarkingContext
        {
            Kind = polar || LooksElectrolytic(note, kind) ? PartKind.Electrolytic : kind == PartKind.Winding ? PartKind.Resistor : kind,
            MegHabit = book.Facts.MegHabit,
            Year = book.Facts.Year,
            OtherMarkings = [.. book.Parts.Where(p => p.Marked is not null && p.Kind is PartKind.Resistor or PartKind.Control).Select(p => p.Marked!)],
        };
        var printed = note.Values.Count > 0 ? Printed(note, unit, context, reader) : null;
        if (note.Colours.Count == 0) return printed ?? new();
        var bands = Bands(note, unit, context, reader, printed);
        return printed is null ? bands ?? new() : printed with { Tolerance = printed.Tolerance ?? bands?.Tolerance };
    }

    /// <summary>A bare "8 450" or "25 25": common practice, no source; a mica or ceramic of so few picofarads is marked for 500 V.</summary>
    private static bool LooksElectrolytic(BenchNote note, PartKind? kind) => kind == PartKind.Capacitor && note.Volts is { Value: <= 475 }
        && note.Values is [{ Unit: UnitWord.None, Number: >= 4 and <= 80 }] && note.WrittenKind is null or PartKind.Capacitor;

    private static MarkedValue? Printed(BenchNote note, Unit? unit, MarkingContext context, Func<string, MarkingContext, MarkingResult> reader)
    {
        var mark = note.Values[0];
        var isFarad = unit == Quantities.Unit.Farad || mark.Unit.IsCapacitance() || (unit is null && mark.Number < 1 && mark.Unit == UnitWord.None);
        var text = mark.Text;
        if (isFarad && note.SectionVolts is { } each) text += $" {each}V";
        else if (isFarad && note.Volts is { } volts) text += $" {ValueText.Number(volts.Value)}{(note.VoltsAreAc ? "VAC" : "V")}";
        var result = reader(text, context);
        // Without a unit or with M or K the reader may know better than the reference's letter; with one it must agree.
        var fitting = unit is null ? result.Meanings : [.. result.Meanings.Where(m => m.Unit == unit)];
        if (fitting.IsEmpty)
        {
            if (mark.Text.Contains('?', StringComparison.Ordinal)) return null;
            if (result.Complaint is { } complaint)
                note.Complain(mark.At + Math.Min(complaint.At, Math.Max(0, mark.End - mark.At - 1)), complaint.Problem, complaint.Remedy);
            else
                note.Complain(mark.At, $"{result.Best!.Unit switch { Quantities.Unit.Ohm => "a resistance", Quantities.Unit.Farad => "a capacitance", _ => "an inductance" }} is no value for {(note.Reference is { } r ? r + ", " : "")}a {PartKinds.Spelling(context.Kind ?? PartKind.Other)}",
                    "Write the value in the part's own unit, or correct the reference or the kind.");
            return null;
        }
        return From(fitting, note, mark.At, mark.End, note.Line[mark.At..mark.End], inPlace: true);
    }

    private static MarkedValue? Bands(BenchNote note, Unit? unit, MarkingContext context, Func<string, MarkingContext, MarkingResult> reader, MarkedValue? printed)
    {
        var text = string.Join(' ', note.Colours);
        var (at, end) = note.ColoursPlace;
        var result = reader(text, context);
        var fitting = unit is null ? result.Meanings : [.. result.Meanings.Where(m => m.Unit == unit)];
        if (printed?.Value is { } value)
        {
            var same = fitting.Where(m => Close(m.Value, value)).ToImmutableArray();
            if (same.IsEmpty && !fitting.IsEmpty && !note.Colours.Contains("?"))
                note.Complain(at, $"the colours say {ValueText.Of(fitting[0].Value, fitting[0].Unit)}, the line says {ValueText.Of(value, printed.Unit)}", "Look again; write the one that is right, the other in quotation marks.");
            return same.IsEmpty ? null : From([same[0]], note, at, end, text, inPlace: false);
        }
        if (!fitting.IsEmpty) return From(fitting, note, at, end, text, inPlace: false);
        if (note.Colours.Contains("?")) return null;
        if (result.Complaint is { } complaint) note.Complain(at, complaint.Problem, complaint.Remedy);
        else note.Complain(at, "these colours give no value for this kind of part", "Look again at the order of the colours, or write the kind.");
        return null;
    }

    private static MarkedValue From(ImmutableArray<Meaning> meanings, BenchNote note, int at, int end, string shown, bool inPlace)
    {
        var best = meanings[0];
        var worth = meanings.Where(m => m == best || m.Share >= (inPlace ? ShareWorthAsking : ColourShareWorthAsking)).DistinctBy(m => (m.Unit, ValueText.Number(m.Value * 1e12), m.Sections.Length)).Take(4).ToArray();
        ImmutableArray<EntryQuestion> questions = worth.Length < 2 || worth.Any(m => m.Sections.Length > 1) ? [] :
            [new($"What does {shown} mean?", [.. worth.Select(m => new EntryAlternative($"{ValueText.Of(m.Value, m.Unit)}: {m.Code}",
                note.Line[..at] + ValueText.Plain(m.Value, m.Unit) + (inPlace ? "" : " " + note.Line[at..end]) + note.Line[end..]))])];
        return new()
        {
            Value = best.Value,
            Unit = best.Unit,
            Tolerance = best.Tolerance,
            Volts = best.RatedVolts,
            Watts = best.RatedWatts,
            Sections = best.Sections,
            Questions = questions,
        };
    }

    /// <summary>The same value, to a part in a million.</summary>
    public static bool Close(double a, double b) => Math.Abs(a - b) <= 1e-6 * Math.Max(Math.Abs(a), Math.Abs(b));
}

using Lugbook.Trade;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Store.Exchange;

/// <summary>What a row says of a part's value and ratings, in the chassis' list and in the sheet's alike.</summary>
internal sealed record Electrical(string? Marked, double? Value, Unit? Unit, double? RatedVolts, double? RatedWatts, Tolerance? Tolerance)
{
    /// <summary>Reads the columns marked, value, unit, rated_v, rated_w, tol_pct and rating of one row.</summary>
    public static Electrical Read(RowCells row, string name, PartKind kind, MarkingContext context)
    {
        var read = new Electrical(row.Words("marked"), null, UnitOf(row, out var looseUnit), row.Number("rated_v", 0, 1e5), row.Number("rated_w", 0, 1e5), ToleranceOf(row));
        read = Rating(row, kind, read);
        var text = row.Raw("value").Trim();
        if (row.Table.Context.Exact) return read with { Value = row.Number("value", 0, 0) };
        if (text.Length == 0 || RowCells.IsNothing(text)) return TakeMarked(row, name, kind, context, read);

        var plain = NumberText.Plain(text, row.Table.Habit, out var at, out var problem);
        if (plain is null && problem is not "this is not a number.")
        {
            row.Complain("value", at, problem!, "Leave the mark out if it parts thousands; otherwise write another number of decimals.");
            return read;
        }
        if (RowCells.IsDate(text))
        {
            row.Complain("value", 0, "the spreadsheet has made a date of this.", "Format the column as text and write the value again.");
            return read;
        }
        if (plain is not null && looseUnit is null && (read.Unit is not null || IsBase(plain, kind)))
        {
            var scaled = HeaderOrCellUnit(row);
            var value = NumberText.Scaled(plain, scaled?.Power ?? 0);
            var unit = read.Unit ?? PartKinds.UnitOf(kind);
            return row.InBounds("value", value, 0, Most(unit)) ? read with { Value = value, Unit = unit } : read;
        }
        return FromWords(row, name, kind, context, read, looseUnit is null ? text : $"{text} {looseUnit}", plain is not null && looseUnit is null);
    }

    /// <summary>Largest value that a part of this unit can have in this trade.</summary>
    private static double Most(Unit? unit) => unit switch { Trade.Quantities.Unit.Ohm => 1e12, Trade.Quantities.Unit.Farad => 1, Trade.Quantities.Unit.Henry => 1e5, _ => 1e12 };

    private static ScaledUnit? HeaderOrCellUnit(RowCells row) =>
        row.Words("unit") is { } word ? UnitWords.Of(word) : row.Has("value") && row.Table.Header.Known["value"].Unit is { } header ? UnitWords.Of(header) : null;

    private static Unit? UnitOf(RowCells row, out string? loose)
    {
        loose = null;
        if (HeaderOrCellUnit(row) is { } scaled) return scaled.Unit;
        loose = row.Words("unit");
        if (loose is null || RowCells.IsNothing(loose)) { loose = null; return null; }
        // M and MF have two meanings, and cm was a unit of capacitance (electrostatic units): the marking reader knows what they may be.
        if (!row.Table.Context.Exact && loose.TrimEnd('.').ToUpperInvariant() is "M" or "MF" or "CM") return null;
        row.Complain("unit", 0, "this is not a unit of a part's value.", "Write ohm, kohm, megohm, F, µF, nF, pF, H, mH, V, W or A.");
        loose = null;
        return null;
    }

    /// <summary>
    /// Is a number without any unit in base units? Ohms always are. Of capacitors, 5e-8 or 0.00000005 must be farads, and an electrolytic's
    /// 0.000008; but .05 on a paper capacitor means microfarads and 250 on a mica one picofarads: those are markings, to be read as such.
    /// </summary>
    private static bool IsBase(string plain, PartKind kind)
    {
        if (!kind.IsCapacitor() || plain.Contains('e', StringComparison.OrdinalIgnoreCase)) return true;
        var value = NumberText.Scaled(plain, 0);
        return value <= 0 || value < (kind == PartKind.Electrolytic ? 0.05 : 5e-7);
    }

    private static Tolerance? ToleranceOf(RowCells row)
    {
        var text = row.Raw("tol_pct").Trim();
        if (text.Length == 0 || RowCells.IsNothing(text)) return null;
        // A column formatted as per cent comes out of a workbook as fractions.
        if (row.Table.TolerancesAreFractions && NumberText.Plain(text, row.Table.Habit, out _, out _) is { } fraction)
            return Trade.Quantities.Tolerance.Symmetric(NumberText.Scaled(fraction, 0));
        if (ToleranceText.Read(text, row.Table.Habit, out var at, out var problem) is { } tolerance) return tolerance;
        row.Complain("tol_pct", at, problem!, "Write 20 for ±20 %, -10+100, or GMV.");
        return null;
    }

    /// <summary>The column "rating", which strangers fill with volts, watts or both.</summary>
    private static Electrical Rating(RowCells row, PartKind kind, Electrical read)
    {
        if (row.Table.Context.Exact || row.Words("rating") is not { } text || RowCells.IsNothing(text)) return read;
        foreach (var piece in RatingText.Pieces(text, kind))
        {
            if (piece.Volts is null && piece.Watts is null && piece.Tolerance is null)
            {
                row.Complain("rating", piece.At, "this is neither volts nor watts.", "Write 400 V or 1/2 W, or use the columns rated_v and rated_w.");
                return read;
            }
            read = read with { RatedVolts = read.RatedVolts ?? piece.Volts, RatedWatts = read.RatedWatts ?? piece.Watts, Tolerance = read.Tolerance ?? piece.Tolerance };
        }
        return read;
    }

    /// <summary>The value column holds words: 47K, .02 MFD, 4k7.</summary>
    private static Electrical FromWords(RowCells row, string name, PartKind kind, MarkingContext context, Electrical read, string text, bool bare)
    {
        // A valve's type, a fuse's current: what has no value is marked so.
        if (PartKinds.UnitOf(kind) is null && kind != PartKind.Other) return Marks(row, read, text, complain: true);
        if (PlainNotation.Read(text, kind, row.Table.Habit) is { } plain && (read.Unit is null || read.Unit == plain.Unit))
            return row.InBounds("value", plain.Value, 0, Most(plain.Unit)) ? read with { Marked = read.Marked ?? text, Value = plain.Value, Unit = plain.Unit } : read;
        var all = TextMarking.Read(WithPoint(text, row.Table.Habit), context);
        var result = Fitting(all, read.Unit ?? PartKinds.UnitOf(kind), context.MegHabit);
        if (result.Meanings.IsEmpty && all.Best is { } misfit)
        {
            if (kind == PartKind.Winding && read.Unit is null)
            {
                row.Remark($"{name}: '{text}' is kept as its marking; the value of a winding is its DC resistance, which is left open.");
                return Marks(row, read, text, complain: false);
            }
            row.Complain("value", 0, $"this reads in {UnitWords.Spelling(misfit.Unit)}, which is not what {(read.Unit is { } said ? $"the unit {UnitWords.Spelling(said)}" : $"the kind {PartKinds.Spelling(kind)}")} says.", "Mend one of the two.");
            return read;
        }
        if (result is { IsCertain: true, Best: { Sections.Length: 1 } meaning })
        {
            if (!meaning.Doubts.IsEmpty) row.Remark($"{name}: '{text}' was read as {Said(meaning)}; {string.Join("; ", meaning.Doubts)}.");
            else if (bare) row.Remark($"{name}: '{text}' has no unit and was read as {Said(meaning)} ({meaning.Code}).");
            return Taken(read with { Marked = read.Marked ?? text }, meaning);
        }
        if (!result.Meanings.IsEmpty)
        {
            var sections = result.Meanings.All(m => m.Sections.Length > 1);
            if (read.Marked is { } marked && !marked.Equals(text, StringComparison.OrdinalIgnoreCase))
            {
                row.Complain("value", 0, sections ? "this has more than one section." : $"this may mean {Several(result)}.", sections ? "Give each section a row of its own." : "Write the value as a number with its unit.");
                return read;
            }
            if (sections) row.Remark($"{name}: '{text}' has {result.Meanings[0].Sections.Length} sections; its value is left open until each has a row of its own.");
            else row.Remark($"{name}: '{text}' may mean {Several(result)}; its value is left open.");
            return read with { Marked = read.Marked ?? text };
        }
        if (kind == PartKind.Other) return Marks(row, read, text, complain: false);
        var problem = result.Complaint!;
        row.Complain("value", problem.At, problem.Problem, problem.Remedy);
        return read;
    }

    /// <summary>No value: the marking gives it, when it has one meaning alone.</summary>
    private static Electrical TakeMarked(RowCells row, string name, PartKind kind, MarkingContext context, Electrical read)
    {
        var reads = kind is PartKind.Resistor or PartKind.Control or PartKind.Trimmer || kind.IsFixedCapacitor();
        if (read.Marked is not { } marked || !reads) return read;
        var result = Fitting(TextMarking.Read(WithPoint(marked, row.Table.Habit), context), read.Unit ?? PartKinds.UnitOf(kind), context.MegHabit);
        if (result is { IsCertain: true, Best: { Sections.Length: 1 } meaning })
        {
            row.Remark($"{name}: value {Said(meaning)} taken from its marking '{marked}'{(meaning.Doubts.IsEmpty ? "" : $"; {string.Join("; ", meaning.Doubts)}")}.");
            return Taken(read, meaning);
        }
        row.Remark(!result.Meanings.IsEmpty && result.Meanings.All(m => m.Sections.Length > 1)
            ? $"{name}: the marking '{marked}' has {result.Meanings[0].Sections.Length} sections; its value is left open until each has a row of its own."
            : result.Meanings.IsEmpty
            ? $"{name}: the marking '{marked}' could not be read; its value is left open."
            : $"{name}: the marking '{marked}' may mean {Several(result)}; its value is left open.");
        return read;
    }

    /// <summary>Of all meanings those that agree with what the row and the sheet state: a resistor's marking is no capacitance, and once M is known to mean a thousand, it does.</summary>
    private static MarkingResult Fitting(MarkingResult result, Unit? unit, MegHabit habit)
    {
        var other = habit switch { MegHabit.Thousand => "M as million", MegHabit.Million => "M as thousand", _ => null };
        var meanings = unit is { } wanted ? result.Meanings.RemoveAll(m => m.Unit != wanted) : result.Meanings;
        return result with { Meanings = meanings.Any(m => m.Code != other) ? meanings.RemoveAll(m => m.Code == other) : meanings };
    }

    private static Electrical Taken(Electrical read, Meaning meaning) => read with
    {
        Value = meaning.Value,
        Unit = meaning.Unit,
        RatedVolts = read.RatedVolts ?? meaning.RatedVolts,
        RatedWatts = read.RatedWatts ?? meaning.RatedWatts,
        Tolerance = read.Tolerance ?? meaning.Tolerance,
    };

    private static Electrical Marks(RowCells row, Electrical read, string text, bool complain)
    {
        if (read.Marked is null || read.Marked.Equals(text, StringComparison.OrdinalIgnoreCase)) return read with { Marked = text };
        if (complain) row.Complain("value", 0, "a part of this kind has no such value, and what is marked on it is given already.", "Leave the value empty.");
        else row.Complain("value", 0, "this is not a value that can be read.", "Write a number with its unit, or leave the value empty.");
        return read;
    }

    /// <summary>A leading number with a comma, as the marking reader expects it.</summary>
    private static string WithPoint(string text, CommaHabit habit)
    {
        var end = 0;
        while (end < text.Length && (char.IsAsciiDigit(text[end]) || text[end] is ',' or '.')) end++;
        var number = text[..end].TrimEnd(',', '.');
        return number.Contains(',', StringComparison.Ordinal) && NumberText.Plain(number, habit, out _, out _) is { } plain ? plain + text[number.Length..] : text;
    }

    private static string Several(MarkingResult result) =>
        string.Join(" or ", result.Meanings.Take(3).Select(m => $"{Said(m)} ({m.Code})")) + (result.Meanings.Length > 3 ? " or more" : "");

    private static string Said(Meaning meaning) =>
        string.Join(" + ", meaning.Sections.Select(s => Notation.Print(s.Value, meaning.Unit)));
}

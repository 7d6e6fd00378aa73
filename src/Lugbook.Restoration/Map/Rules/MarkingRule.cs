using System.Collections.Immutable;
using Lugbook.Restoration.Compare;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>A part's value against what its marking and its colours say.</summary>
/// <remarks>
/// Only when no valid meaning lies within 2 % of the value is anything said; where the marking has one meaning alone it is a contradiction, else a doubt.
/// A marking that cannot be read says nothing.
/// </remarks>
internal static class MarkingRule
{
    private const double Alike = 0.02;

    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        foreach (var part in c.Book.Parts.Where(p => p.Value is > 0 && (p.Kind is PartKind.Resistor or PartKind.Control || p.Kind.IsFixedCapacitor())))
        {
            // Every valid meaning counts, so nothing that only ranks them is given.
            MarkingContext context = new() { Kind = part.Kind, MegHabit = c.Book.Facts.MegHabit, Year = c.Book.Facts.Year };
            if (part.Marked is { Length: > 0 } marked && Differs(part, MarkingReader.Read(marked, context)) is { } text)
                yield return new("marking-against-value", text.IsCertain ? Weight.Contradiction : Weight.Doubt, part.Name,
                    $"{part.Name} is marked '{marked}', which is {Words(part, text)}, but its value is entered as {Figures.Value(part.Value!.Value, part.Unit)}.", "Correct the value or the marking; a thousand between them is often an M.");
            if (part.Code is { Length: > 0 } code && ColourMarking.LooksLikeColours(code) && Differs(part, ColourMarking.Read(code, context)) is { } colours
                && !(InRows(part, code) is { } rows && Differs(part, ColourMarking.Read(rows, context)) is null))
                yield return new("colours-against-value", colours.IsCertain ? Weight.Contradiction : Weight.Doubt, part.Name,
                    $"The colours of {part.Name}, {code}, are {Words(part, colours)}, but its value is entered as {Figures.Value(part.Value!.Value, part.Unit)}.", "Read the colours again in good light and from both ends.");
        }
    }

    /// <summary>A part's code is kept in reading order, and six dots are read round: the reader wants them row by row.</summary>
    private static string? InRows(Part part, string code) =>
        part.Kind != PartKind.Resistor && code.Split(' ', StringSplitOptions.RemoveEmptyEntries) is [var a, var b, var c, var d, var e, var f] ? $"{a} {b} {c} {f} {e} {d}" : null;

    /// <summary>The meanings when none of them is the value, or null.</summary>
    private static MarkingResult? Differs(Part part, MarkingResult result)
    {
        var unit = part.Unit ?? PartKinds.UnitOf(part.Kind);
        var fitting = result.Meanings.Where(m => m.Unit == unit).ToImmutableArray();
        if (fitting.IsEmpty || fitting.Any(m => m.Sections.Any(s => Math.Abs(s.Value - part.Value!.Value) <= Alike * part.Value.Value))) return null;
        return result with { Meanings = fitting };
    }

    private static string Words(Part part, MarkingResult result)
    {
        var values = result.Meanings.Select(m => Figures.Value(m.Value, part.Unit)).Distinct().ToArray();
        return values.Length <= 3 ? string.Join(" or ", values) : $"{values[0]} or {values[1]} or another value";
    }
}

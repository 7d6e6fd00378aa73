using System.Collections.Immutable;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>A colour code, as one would explain it.</summary>
/// <param name="Id">Its name in commands and in data/reference/colour-codes.csv: "mica-rma-6".</param>
/// <param name="Title">In words: "mica, six dots (RMA)".</param>
/// <param name="Layout">The order of the colours, in words.</param>
/// <param name="Notes">Where it is found and what to mind.</param>
/// <param name="Kinds">Kinds of parts that carry it.</param>
/// <param name="FromYear">About the first year; null when not known.</param>
/// <param name="ToYear">About the last year; null when still in use or not known.</param>
/// <param name="IsCertain">False when makers differ and only a measurement tells.</param>
public sealed record ColourFamily(string Id, string Title, string Layout, string Notes, ImmutableArray<PartKind> Kinds, int? FromYear, int? ToYear, bool IsCertain);

/// <summary>One colour to look for.</summary>
/// <param name="Place">Where on the part: "band 1", "body", "top left".</param>
/// <param name="Role">What it says: "first figure", "multiplier", "tolerance".</param>
/// <param name="Colour">The colour; <see cref="Colour.None"/> when there is none to see.</param>
/// <param name="IsFree">True when what was asked for does not fix it: then the colour is only an example.</param>
public sealed record ColourMark(string Place, string Role, Colour Colour, bool IsFree);

/// <summary>How one code shows a value.</summary>
/// <param name="Family">The code.</param>
/// <param name="Marks">The colours in the order in which they are written and read.</param>
/// <param name="Exact">True when the colours say the value, tolerance and volts asked for, as far as the code has places for them.</param>
/// <param name="Shows">What the colours say, in words: "220 kΩ ±10 %".</param>
/// <param name="IsUsual">True when parts of this value were common with this code.</param>
/// <param name="Note">What else to know when looking; empty when nothing.</param>
public sealed record ColourLook(ColourFamily Family, ImmutableArray<ColourMark> Marks, bool Exact, string Shows, bool IsUsual, string Note)
{
    /// <summary>The colours as one writes them: "red red yellow silver"; reads back with the family's code.</summary>
    public string Marking => string.Join(' ', Marks.Select(m => m.Colour.Name()));
}

/// <summary>The colour codes: which there are, and how each shows a value.</summary>
public static class ColourCodes
{
    /// <summary>All codes, resistors first.</summary>
    public static ImmutableArray<ColourFamily> Families { get; } = [.. CodeLayouts.All.Select(Describe)];

    /// <summary>What to look for: the value in each code that can show it, the likeliest first.</summary>
    /// <param name="value">In the base unit: Ω or F; above 0.</param>
    /// <param name="unit">Ohm or farad; other units have no colour code.</param>
    /// <param name="tolerance">As marked; null when it does not matter. Only what is the same both ways can be shown.</param>
    /// <param name="ratedVolts">DC volts as marked; null when they do not matter.</param>
    /// <param name="tempcoPpm">Temperature coefficient, parts in 10⁶ per kelvin; null when it does not matter.</param>
    /// <returns>Empty when no code shows such a value. A value between two that can be shown comes as the nearest, not exact.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is not a number above 0.</exception>
    /// <remarks>Button mica is left out: its code is not certain.</remarks>
    public static ImmutableArray<ColourLook> LookFor(double value, Unit unit, Tolerance? tolerance = null, double? ratedVolts = null, double? tempcoPpm = null)
    {
        if (!(value > 0) || !double.IsFinite(value))
            throw new ArgumentOutOfRangeException(nameof(value), value, "A value to look for is a number above 0, in the base unit.");
        var asked = new Asked(value, tolerance, ratedVolts, tempcoPpm);
        return [.. from layout in CodeLayouts.All
                   where layout.Unit == unit && layout.Id != "mica-button"
                   let look = Encoder.Show(layout, asked)
                   where look is not null
                   orderby look.IsUsual descending, look.Exact descending, layout.Unasked descending
                   select look];
    }

    internal static ColourFamily Describe(CodeLayout layout) =>
        new(layout.Id, layout.Title, layout.Order, layout.Notes, layout.Kinds, layout.Years.From, layout.Years.To, layout.Id != "mica-button");
}

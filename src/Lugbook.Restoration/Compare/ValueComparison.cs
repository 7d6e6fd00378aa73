using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Compare;

/// <summary>How two nominal values of one position compare.</summary>
internal enum ValueVerdict
{
    Same,
    Near,
    Thousand,
    Outside,
}

/// <summary>Is a chassis value the sheet's value?</summary>
/// <remarks>
/// The sheet's tolerance counts, else the chassis part's. Where neither gives one: resistors and controls ±20 %, electrolytics −20 +100 %, other capacitors ±20 %,
/// windings ±30 % (common practice, no source).
/// </remarks>
internal static class ValueComparison
{
    public static ValueVerdict Of(double sheet, double chassis, PartKind kind, Tolerance? sheetTolerance, Tolerance? chassisTolerance)
    {
        if (!(sheet > 0 && chassis > 0)) return sheet == chassis ? ValueVerdict.Same : ValueVerdict.Outside;
        var ratio = chassis / sheet;
        if (Math.Abs(ratio - 1) < 0.002) return ValueVerdict.Same;
        if (Tolerances(kind, sheetTolerance, chassisTolerance).Any(t => t.Holds(1, ratio))) return ValueVerdict.Near;
        var thousand = ratio > 1 ? ratio / 1000 : ratio * 1000;
        return kind is PartKind.Resistor or PartKind.Control && Math.Abs(thousand - 1) < 0.05 ? ValueVerdict.Thousand : ValueVerdict.Outside;
    }

    private static IEnumerable<Tolerance> Tolerances(PartKind kind, Tolerance? sheet, Tolerance? chassis)
    {
        if (sheet is { } s) yield return s;
        // The chassis part's own mark must not widen the window of a tight position.
        if (sheet is null && chassis is { } c) yield return c;
        if (sheet is null && chassis is null || kind == PartKind.Electrolytic)
            yield return kind switch
            {
                PartKind.Electrolytic => Tolerance.Between(0.2, 1),
                PartKind.Winding => Tolerance.Symmetric(0.3),
                _ => Tolerance.Symmetric(0.2),
            };
    }
}

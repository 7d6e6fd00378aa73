using System.Collections.Immutable;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>What numbers without any unit can be: ohms, picofarads, a three-digit code, microfarads.</summary>
/// <remarks>Source: data/reference/letter-codes.csv, reading-rule.</remarks>
internal static class BareNumbers
{
    /// <summary>All ways to take these numbers as one value or several sections.</summary>
    public static ImmutableArray<Candidate> Candidates(ImmutableArray<Numeral> numbers, Situation situation)
    {
        var found = new List<Candidate>();
        Candidate Make(Unit unit, int exponent, Form form, string code, string reason, bool otherWay = false) =>
            new(unit, [.. numbers.Select(n => (otherWay ? n.Other ?? n : n).Times(exponent))], form, code, reason) { OtherMark = otherWay ? numbers.First(n => n.Other is not null).OtherMark : null };

        foreach (var otherWay in numbers.Any(n => n.Other is not null) ? new[] { false, true } : [false])
        {
            var first = otherWay ? numbers[0].Other ?? numbers[0] : numbers[0];
            found.Add(Make(Unit.Ohm, 0, Form.BareOhms, "bare number in ohms", "a bare number on a resistor is in ohms", otherWay));
            found.Add(Make(Unit.Farad, -6, Form.BareMicrofarads, "bare number in microfarads",
                first.Value < 1 ? "a bare number below 1 on a capacitor is in microfarads" : "a bare number on an electrolytic or a large capacitor is in microfarads", otherWay));
            if (first.Value >= 1)
                found.Add(Make(Unit.Farad, -12, Form.TrueValue, "true value", "a bare number on mica or ceramic is in picofarads", otherWay));
        }
        if (numbers.Length == 1 && numbers[0] is { IsWhole: true, Figures.Length: 3 } && CompactCode.CodeValue(numbers[0].Figures) is { } coded)
            found.Add(new(Unit.Farad, [coded], Form.ThreeDigitCode, "three-digit code", "the modern code: two figures and the number of noughts, in picofarads"));
        if (numbers.Length == 1 && numbers[0] is { IsWhole: true, Figures.Length: 3 } && CompactCode.CodeOhms(numbers[0].Figures) is { } ohms)
            found.Add(new(Unit.Ohm, [ohms], Form.ThreeDigitCode, "three-digit code", "two figures and the number of noughts, in ohms, as on modern controls and small resistors"));
        if (situation.Facts.TolerancePicofarads is not null) return [.. found.Where(c => c.Form == Form.TrueValue)];
        return EndsInSeven(numbers, situation) ? [.. found.Where(c => IsFine(c.Value))] : [.. found];
    }

    /// <summary>Three figures that look like a code whose last figure is not used, on nothing known to show true values?</summary>
    public static bool EndsInSeven(ImmutableArray<Numeral> numbers, Situation situation) =>
        numbers.Length == 1 && numbers[0] is { IsWhole: true, Figures.Length: 3 } n && n.Figures[2] == '7' && n.Figures[0] != '0'
        && !(situation.Kind is { } k && (k.IsResistive() || k is PartKind.Trimmer or PartKind.VariableCapacitor || !k.IsCapacitor()));

    private static bool IsFine(double value) => PreferredValues.Contains(value, PreferredSeries.E192);
}

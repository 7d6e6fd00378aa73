using Lugbook.Restoration.Compare;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>Values that cannot be, and values that differ from the sheet's.</summary>
internal static class ValueRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        foreach (var part in c.Book.Parts)
        {
            if (part.Value is { } value && (value < 0 || double.IsNaN(value) || Limits(part.Kind) is var (low, high) && value != 0 && (value < low || value > high)))
                yield return new("value-impossible", Weight.Doubt, part.Name, $"{part.Name} is a {part.KindAsWritten} of {Figures.Value(value, part.Unit)}: no such part is made.", "Look at the unit: a multiple may be wrong by a thousand or a million.");
            if (part.Unit is { } unit && PartKinds.UnitOf(part.Kind) is { } usual && unit != usual && !(part.Kind == PartKind.Winding && unit == Unit.Henry))
                yield return new("unit-does-not-fit", Weight.Contradiction, part.Name, $"{part.Name} is a {part.KindAsWritten}, but its value is in {unit.ToString().ToLowerInvariant()}.", "Correct the kind or the unit.");
            if (part.RatedVolts is <= 0 || part.RatedWatts is <= 0)
                yield return new("rating-impossible", Weight.Doubt, part.Name, $"{part.Name} has a rating of zero or less.", "Leave the rating empty when it is not known.");
        }
        foreach (var difference in CompareStage.Run(c.Book).Differences)
            if (difference.Kind is DifferenceKind.Value or DifferenceKind.MegHabit)
                yield return new("sheet-against-part", difference.Kind == DifferenceKind.Value ? Weight.Doubt : Weight.Remark, difference.Name, difference.Sentence, difference.Remedy);
    }

    /// <summary>Widest range in which parts of this kind are made; Ω or F. Generous: only slips of the unit fall outside. Common practice, no source.</summary>
    private static (double Low, double High)? Limits(PartKind kind) => kind switch
    {
        PartKind.Resistor => (0.01, 1e10),
        PartKind.Control => (0.5, 50e6),
        PartKind.Electrolytic => (0.1e-6, 0.1),
        PartKind.Paper or PartKind.Film => (10e-12, 50e-6),
        PartKind.Mica or PartKind.SilverMica => (0.3e-12, 0.2e-6),
        PartKind.Ceramic => (0.2e-12, 1e-6),
        PartKind.Trimmer or PartKind.VariableCapacitor => (0.3e-12, 10e-9),
        PartKind.Capacitor => (0.2e-12, 0.1),
        _ => null,
    };
}

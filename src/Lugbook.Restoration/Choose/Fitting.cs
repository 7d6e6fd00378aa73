using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>May this item stand here, and if not, why not? The one gate that everything on offer passes: catalogue, drawer and supplier lists.</summary>
/// <remarks>What the requirement asks for and the item does not state counts as not met.</remarks>
internal static class Fitting
{
    /// <summary>Null when the item may stand here; else the first reason against it, as a sentence.</summary>
    public static string? Of(Requirement need, ChosenPart part)
    {
        if (part.Unit != need.Unit) return need.Unit == Unit.Ohm ? "A resistor is asked for." : "A capacitor is asked for.";
        if (OfClass(need, part.SafetyClass) is { } wrongClass) return wrongClass;
        if (!need.Kinds.Contains(part.Kind)) return $"Of kind {Show.Kind(part.Kind)}; asked for: {Show.List([.. need.Kinds.Select(Show.Kind)])}.";
        if (need.Value is not { } window) return "The old value is not known.";
        if (!window.Holds(part.Value)) return $"{Show.Value(part.Value, need.Unit)} lies outside {Show.Value(window.Low, need.Unit)} to {Show.Value(window.High, need.Unit)}.";
        if (need.VoltsAtLeast is null && need.SafetyClass == SafetyClass.None) return "The voltage of the position is not known.";
        return OfRatings(need, part.Volts, part.LineVolts, part.Watts, part.TolerancePercent) ?? CategoryTemperature.Fault(need, part.Kind, part.Celsius) ?? RippleRating.Fault(need, part.RippleAmperes, part.RippleHertz);
    }

    /// <summary>The class alone: null when it may stand here. A position on the line takes nothing without a class.</summary>
    public static string? OfClass(Requirement need, SafetyClass offered) => need.Accepts(offered) ? null
        : need.SafetyClass == SafetyClass.None ? $"Class {offered} belongs on the line; none is asked for here."
        : $"Class {need.SafetyClass} is asked for here; it has {(offered == SafetyClass.None ? "none" : offered.ToString())}.";

    /// <summary>The ratings alone, whatever the value: null when all are met.</summary>
    public static string? OfRatings(Requirement need, double? volts, double? lineVolts, double? watts, double? tolerancePercent) =>
        Least(volts, need.VoltsAtLeast, "V") ?? Least(lineVolts, need.LineVoltsAtLeast, "V AC") ?? Least(watts, need.WattsAtLeast, "W")
        ?? (need.TolerancePercentAtMost is not { } widest || tolerancePercent <= widest ? null
            : tolerancePercent is { } t ? $"±{Show.Number(t)} % is wider than ±{Show.Number(widest)} %." : $"Its tolerance is not stated; ±{Show.Number(widest)} % is asked for.");

    private static string? Least(double? has, double? asked, string unit) => asked is not { } least || has >= least ? null
        : has is { } h ? $"{Show.Number(h)} {unit} is less than {Show.Number(least)} {unit}." : $"Its rating in {unit} is not stated; {Show.Number(least)} {unit} are asked for.";
}

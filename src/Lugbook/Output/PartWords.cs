using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Output;

/// <summary>A part in the trade's notation, for pages and commands alike.</summary>
internal static class PartWords
{
    /// <summary>"47 kΩ ±20 %", "0.05 µF", a valve's type; "not read yet" when nothing is known.</summary>
    public static string Value(Part part)
    {
        if (part.Kind == PartKind.Valve) return part.Marked ?? "type not known";
        if (part is { Value: { } value, Unit: { } unit })
            return Notation.Print(value, unit) + (part.Tolerance is { } t ? " " + Notation.Print(t) : "");
        return part.Marked ?? (PartKinds.UnitOf(part.Kind) is null ? part.KindAsWritten : "not read yet");
    }

    /// <summary>"400 V", "2 W", both, or nothing.</summary>
    public static string Rating(Part part) => string.Join(", ", new[]
    {
        part.RatedVolts is { } volts ? Notation.Print(volts, Unit.Volt) : null,
        part.RatedWatts is { } watts ? Notation.Print(watts, Unit.Watt) : null,
    }.OfType<string>());
}

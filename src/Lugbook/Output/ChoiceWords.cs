using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Trade.Quantities;

namespace Lugbook.Output;

/// <summary>A choice in the trade's notation, for pages and commands alike.</summary>
internal static class ChoiceWords
{
    /// <summary>"0.05 µF 600 V", "47 kΩ 0.5 W", what is marked when the value is not known.</summary>
    public static string Old(Choice choice) => string.Join(" ", new[]
    {
        choice.OldValue is { } value ? Notation.Print(value, choice.Unit) : choice.Marked ?? "not read yet",
        choice.OldVolts is { } volts ? Notation.Print(volts, Unit.Volt) : null,
        choice.OldWatts is { } watts ? Notation.Print(watts, Unit.Watt) : null,
    }.OfType<string>());

    /// <summary>"Best: in the emptied can (5 to 14, example price). …", "Not possible: …".</summary>
    public static string Way(CanWay way, bool first) => $"{WayHead(way, first)} {way.Sentence}";

    /// <summary>"Best: in the emptied can (parts 5.00 to 14.00, example prices)."</summary>
    public static string WayHead(CanWay way, bool first) => string.Create(CultureInfo.InvariantCulture,
        $"{(!way.IsPossible ? "No" : first ? "Best" : "Or")}: {way.Name}{(way is { IsPossible: true, PriceLow: { } low, PriceHigh: { } high } ? $" (parts {low:0.00} to {high:0.00}, example prices)" : "")}.");

    /// <summary>"It carries 0.15 A rms of ripple at 60 Hz; …".</summary>
    public static string Ripple(Requirement need) => string.Create(CultureInfo.InvariantCulture,
        $"It carries {need.RippleAmperes:0.00#} A rms of ripple at {need.RippleHertz ?? 120:0} Hz, computed over the line's cycle; a rating at 100 or 120 Hz counts 0.8 of itself at 50 or 60 Hz. The rating at the highest temperature must suffice.");

    /// <summary>"About 32 × 17 mm", of a pair each; null when the sizes are not known.</summary>
    public static string? Body(Candidate way) => way.Parts.All(p => p.BodyMm is null) ? null : string.Join(" and ", way.Parts.Distinct().Select(p => string.Create(CultureInfo.InvariantCulture,
        $"about {p.BodyMm:0.#}{(p.DiameterMm is { } thick ? $" × {thick:0.#}" : "")} mm"))) + ", by the rule of its series (docs/choose-order-fit.md)";

    /// <summary>"4.4 mA at 117 V 60 Hz".</summary>
    public static string Touch(TouchCurrent touch) => string.Create(CultureInfo.InvariantCulture,
        $"{Notation.Print(touch.Farads, Unit.Farad)} passes {touch.Milliamperes:0.##} mA at {touch.LineVolts:0} V {touch.LineHertz:0} Hz");
}

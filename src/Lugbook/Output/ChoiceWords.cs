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
    public static string Way(CanWay way, bool first) => string.Create(CultureInfo.InvariantCulture,
        $"{(!way.IsPossible ? "No" : first ? "Best" : "Or")}: {way.Name}{(way is { IsPossible: true, PriceLow: { } low, PriceHigh: { } high } ? $" (parts {low:0.00} to {high:0.00}, example prices)" : "")}. {way.Sentence}");

    /// <summary>"It carries 0.15 A rms of ripple; …".</summary>
    public static string Ripple(double amperes) => string.Create(CultureInfo.InvariantCulture,
        $"It carries {amperes:0.00#} A rms of ripple, computed over the line's cycle: take a type whose sheet promises that much at 100 or 120 Hz.");

    /// <summary>"4.4 mA at 117 V 60 Hz".</summary>
    public static string Touch(TouchCurrent touch) => string.Create(CultureInfo.InvariantCulture,
        $"{Notation.Print(touch.Farads, Unit.Farad)} passes {touch.Milliamperes:0.##} mA at {touch.LineVolts:0} V {touch.LineHertz:0} Hz");
}

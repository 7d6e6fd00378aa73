using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>Holds the replacement that the user wrote against the requirement.</summary>
internal static class UserPart
{
    /// <summary>What is against it, as a sentence; null when nothing is. It is read as a marking: value, volts, watts, class.</summary>
    public static string? Fault(string written, Part old, Requirement need)
    {
        var kind = need.Unit == Unit.Ohm ? PartKind.Resistor : PartKind.Capacitor;
        var read = TextMarking.Read(written, new() { Kind = kind, ExpectedValue = old.Value });
        if (read.Meanings.FirstOrDefault(m => m.Unit == need.Unit) is not { } meaning)
            return need.SafetyClass != SafetyClass.None
                ? $"'{written}' cannot be read as a part, and this position asks for class {need.SafetyClass}."
                : $"'{written}' cannot be read as a part, so it is not checked.";
        var faults = new List<string>();
        if (!need.Accepts(meaning.SafetyClass) && need.SafetyClass != SafetyClass.None) faults.Add($"class {need.SafetyClass} is asked for here");
        if (need.Value is { } window && !window.Holds(meaning.Value)) faults.Add($"{Show.Value(meaning.Value, need.Unit)} lies outside {Show.Value(window.Low, need.Unit)} to {Show.Value(window.High, need.Unit)}");
        if (need.SafetyClass == SafetyClass.None && !meaning.VoltsAreAc && meaning.RatedVolts < need.VoltsAtLeast) faults.Add($"{Show.Volts(meaning.RatedVolts!.Value)} is less than {Show.Volts(need.VoltsAtLeast!.Value)}");
        if (meaning.RatedWatts < need.WattsAtLeast) faults.Add($"{Show.Number(meaning.RatedWatts!.Value)} W is less than {Show.Number(need.WattsAtLeast!.Value)} W");
        return faults.Count == 0 ? null : $"'{written}': {string.Join("; ", faults)}.";
    }
}

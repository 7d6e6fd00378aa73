using Lugbook.Trade.Meters;
using Lugbook.Trade.Quantities;

namespace Lugbook.Output;

/// <summary>A meter in a line.</summary>
internal static class MeterSummary
{
    /// <summary>"ohms to 20 MΩ, capacitance to 200 µF at 120 Hz, volts to 1 kV, 10 MΩ".</summary>
    public static string Of(Meter meter)
    {
        var words = new List<string>();
        if (meter.OhmsTop > 0) words.Add($"ohms to {Notation.Print(meter.OhmsTop, Unit.Ohm)}, {ValveWords.N(meter.OhmsTestVolts)} V open");
        if (meter.Farads is { } farads) words.Add($"capacitance to {Notation.Print(farads.Top, Unit.Farad)} at {ValveWords.N(meter.FaradsHertz)} Hz");
        if (meter.Insulation is { } insulation) words.Add($"insulation to {Notation.Print(insulation.Top, Unit.Ohm)} at {ValveWords.N(meter.InsulationVolts)} V");
        if (!meter.Volts.Ranges.IsEmpty) words.Add($"volts to {Notation.Print(meter.Volts.Top, Unit.Volt)}, {(meter.OhmsPerVolt is { } perVolt ? $"{Notation.Print(perVolt, Unit.Ohm)} a volt" : Notation.Print(meter.InputOhms ?? 0, Unit.Ohm))}");
        return string.Join("; ", words);
    }
}

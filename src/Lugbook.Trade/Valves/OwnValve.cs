using System.Globalization;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Valves;

/// <summary>A valve type that the user adds to a book: pins, heater, limits. <see cref="Row.Name"/> is the type.</summary>
public sealed record OwnValve : Row
{
    /// <summary>Other names, divided by semicolons.</summary>
    public string? Equivalents { get; init; }
    /// <summary>"triode", "twin-triode", "pentode", "beam", "converter", "rectifier", …</summary>
    public string? Class { get; init; }
    /// <summary>"octal", "noval", …</summary>
    public string? Base { get; init; }
    /// <summary>As <see cref="Pinouts"/> reads it: "1=g1;2=k".</summary>
    public string? Pinout { get; init; }
    /// <summary>Heater, V.</summary>
    public double? HeaterVolts { get; init; }
    /// <summary>Heater, A.</summary>
    public double? HeaterAmperes { get; init; }
    /// <summary>Highest plate volts, V.</summary>
    public double? MaxPlateVolts { get; init; }
    /// <summary>Highest plate dissipation, W.</summary>
    public double? MaxPlateWatts { get; init; }
    /// <summary>Highest screen volts, V.</summary>
    public double? MaxScreenVolts { get; init; }
    /// <summary>Highest screen dissipation, W.</summary>
    public double? MaxScreenWatts { get; init; }
    /// <summary>Highest cathode current, mA.</summary>
    public double? MaxCathodeMilliamperes { get; init; }
    /// <summary>Highest volts between heater and cathode, V.</summary>
    public double? MaxHeaterCathodeVolts { get; init; }
    /// <summary>Where the figures are from.</summary>
    public string? Source { get; init; }
    /// <summary>Anything else.</summary>
    public string? Note { get; init; }

    /// <summary>As a line of a handbook file.</summary>
    public ValveRow ToRow()
    {
        static string Of(double? number) => number?.ToString("0.######", CultureInfo.InvariantCulture) ?? "";
        return new(Name, Equivalents ?? "", Class ?? "", Base ?? "", Pinout ?? "", Of(HeaterVolts), Of(HeaterAmperes), Source ?? "the book's own", "the book's own")
        {
            Limits = new(Of(MaxPlateVolts), Of(MaxPlateWatts), Of(MaxScreenVolts), Of(MaxScreenWatts), Of(MaxCathodeMilliamperes), Of(MaxHeaterCathodeVolts)),
        };
    }

    /// <summary>What is wrong with it; null when it can be used.</summary>
    public Complaint? Fault(string place) => ToRow().Read(place).Complaint;
}

/// <summary>A line of a data sheet that the user typed into a book; voltages and what flows, in the books' units. <see cref="Row.Name"/> is the type.</summary>
/// <remarks>What each column means and which must be there: the reader of handbook lines; docs/valves.md.</remarks>
public sealed record ValveLine : Row
{
    /// <summary>Plate, V.</summary>
    public double? PlateVolts { get; init; }
    /// <summary>Screen, V.</summary>
    public double? ScreenVolts { get; init; }
    /// <summary>Grid 1, V.</summary>
    public double? GridVolts { get; init; }
    /// <summary>Grid 3, V.</summary>
    public double? Grid3Volts { get; init; }
    /// <summary>Self-bias resistor, Ω.</summary>
    public double? CathodeOhms { get; init; }
    /// <summary>Plate current, mA.</summary>
    public double? PlateMilliamperes { get; init; }
    /// <summary>Screen current, mA.</summary>
    public double? ScreenMilliamperes { get; init; }
    /// <summary>Transconductance, µmho.</summary>
    public double? Micromhos { get; init; }
    /// <summary>Plate resistance, Ω.</summary>
    public double? PlateOhms { get; init; }
    /// <summary>Amplification factor.</summary>
    public double? Mu { get; init; }
    /// <summary>"triode", "pentode", "beam", "triode-connected", "converter", …; null: by whether there is a screen.</summary>
    public string? Connection { get; init; }
    /// <summary>"characteristic", "operation", "cutoff", …; null for a characteristic.</summary>
    public string? Kind { get; init; }
    /// <summary>With self-bias: "cathode" or "ground".</summary>
    public string? VoltsTo { get; init; }
    /// <summary>Where it is from.</summary>
    public string? Source { get; init; }
    /// <summary>"verified" when it was read in a data sheet.</summary>
    public string? Confidence { get; init; }
}

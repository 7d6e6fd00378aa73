namespace Lugbook.Circuit.Valves;

/// <summary>How the electrodes were connected for a line.</summary>
public enum Connection
{
    /// <summary>A triode.</summary>
    Triode,
    /// <summary>A pentode or beam valve with its screen at the voltage given.</summary>
    Pentode,
    /// <summary>Screen to plate; the plate current is the sum.</summary>
    TriodeConnected,
    /// <summary>Converter with its oscillator running.</summary>
    Converter,
    /// <summary>Heptode with grid 3 at the voltage given, no oscillation; the screen's figures are of grids 2 and 4.</summary>
    Heptode,
    /// <summary>Converter as a triode: grids 2 and 4 to plate, no oscillation; the plate current is the cathode's.</summary>
    OscillatorTriode,
}

/// <summary>What a line states.</summary>
public enum LineKind
{
    /// <summary>Average characteristic at the voltages given.</summary>
    Characteristic,
    /// <summary>Typical operation; zero-signal figures.</summary>
    Operation,
    /// <summary>Push-pull operation, figures halved to one valve.</summary>
    PushPull,
    /// <summary>Grid voltage for a small plate current.</summary>
    Cutoff,
    /// <summary>Grid voltage for a small transconductance.</summary>
    RemoteCutoff,
    /// <summary>Short pulse at zero bias, beyond continuous ratings.</summary>
    Pulse,
    /// <summary>Converter; the transconductance is that of conversion.</summary>
    Conversion,
}

/// <summary>One line of a handbook: voltages to cathode and what flows. SI units; null where the handbook gives nothing.</summary>
/// <param name="Type">Valve type as the handbook names it.</param>
/// <param name="Section">Section of a multi-section valve ("triode", "heptode"), else empty.</param>
/// <param name="Connection">How the electrodes were connected.</param>
/// <param name="Kind">What the line states.</param>
/// <param name="PlateVolts">Plate, V.</param>
/// <param name="ScreenVolts">Screen, V.</param>
/// <param name="GridVolts">Grid 1, V; null with self-bias and in a converter.</param>
/// <param name="Grid3Volts">Grid 3, V; 0 unless given.</param>
/// <param name="CathodeOhms">Self-bias resistor, Ω.</param>
/// <param name="VoltsToCathode">With self-bias: whether plate and screen voltages are to cathode, or to the resistor's far end.</param>
/// <param name="PlateAmperes">Plate current, A.</param>
/// <param name="ScreenAmperes">Screen current, A.</param>
/// <param name="Siemens">Transconductance, or conversion transconductance, S.</param>
/// <param name="PlateOhms">Plate resistance, Ω.</param>
/// <param name="Mu">Amplification factor.</param>
/// <param name="Confirmed">Read in a data sheet, as against remembered.</param>
/// <param name="Source">Where it is from.</param>
/// <param name="Line">Line of the file, from 1.</param>
public sealed record HandbookLine(
    string Type, string Section, Connection Connection, LineKind Kind,
    double PlateVolts, double? ScreenVolts, double? GridVolts, double Grid3Volts, double? CathodeOhms, bool VoltsToCathode,
    double? PlateAmperes, double? ScreenAmperes, double? Siemens, double? PlateOhms, double? Mu,
    bool Confirmed, string Source, int Line)
{
    /// <summary>The connection was written as beam: beam plates in place of a suppressor grid.</summary>
    public bool Beam { get; init; }
}

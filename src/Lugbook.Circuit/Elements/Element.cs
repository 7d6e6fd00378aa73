using System.Collections.Immutable;

namespace Lugbook.Circuit.Elements;

/// <summary>One thing between nodes of a network. Nodes are numbers from 0; what they are called is the network's business.</summary>
/// <param name="Name">Unique within the network; errors and sensitivities name it.</param>
public abstract record Element(string Name);

/// <summary>Resistor. Ohms: 0 or more, or infinity for an open one.</summary>
public sealed record Resistor(string Name, int A, int B, double Ohms) : Element(Name);

/// <summary>Variable resistor: track from A to B with a slider.</summary>
/// <param name="Name">Unique name.</param>
/// <param name="A">Anticlockwise end.</param>
/// <param name="B">Clockwise end.</param>
/// <param name="Slider">Slider.</param>
/// <param name="Ohms">Whole track, Ω.</param>
/// <param name="Position">Share of the track's resistance between A and the slider, 0 to 1 (electrical, not angular).</param>
public sealed record Control(string Name, int A, int B, int Slider, double Ohms, double Position) : Element(Name);

/// <summary>Capacitor with series resistance and leakage.</summary>
/// <param name="Name">Unique name.</param>
/// <param name="A">First (or +) terminal.</param>
/// <param name="B">Second terminal.</param>
/// <param name="Farads">Capacitance, F; above 0.</param>
/// <param name="SeriesOhms">Equivalent series resistance, Ω; 0 or more.</param>
/// <param name="LeakOhms">Insulation resistance, Ω; infinity for a perfect one.</param>
public sealed record Capacitor(string Name, int A, int B, double Farads, double SeriesOhms = 0, double LeakOhms = double.PositiveInfinity) : Element(Name);

/// <summary>Coil with winding resistance. Henries: 0 or more. Ohms: above 0.</summary>
public sealed record Inductor(string Name, int A, int B, double Henries, double Ohms) : Element(Name);

/// <summary>One winding of a transformer; A is its start (dot).</summary>
public readonly record struct WindingOf(int A, int B, double Henries, double Ohms);

/// <summary>Coupled windings. Coupling: above 0, below 1, between every two of them.</summary>
public sealed record Transformer(string Name, ImmutableArray<WindingOf> Windings, double Coupling) : Element(Name);

/// <summary>Switch or link.</summary>
public sealed record Switch(string Name, int A, int B, bool Closed) : Element(Name);

/// <summary>Fuse. Ohms: cold resistance, above 0.</summary>
public sealed record Fuse(string Name, int A, int B, double Ohms) : Element(Name);

/// <summary>A filament that heats by its own current: a lamp, or a valve's heater.</summary>
/// <param name="Name">Unique name.</param>
/// <param name="A">First terminal.</param>
/// <param name="B">Second terminal.</param>
/// <param name="RatedVolts">Rated volts, V rms.</param>
/// <param name="RatedAmperes">Rated current, A rms.</param>
/// <param name="ColdShare">Cold over hot resistance: about 0.07 to 0.1 for a lamp, 1/7 for a heater.</param>
/// <param name="WarmUpSeconds">Time constant of warming at rated power, s; 0 for a lamp that follows at once.</param>
public sealed record Filament(string Name, int A, int B, double RatedVolts, double RatedAmperes, double ColdShare, double WarmUpSeconds) : Element(Name);

/// <summary>Thermistor that falls when hot.</summary>
/// <param name="Name">Unique name.</param>
/// <param name="A">First terminal.</param>
/// <param name="B">Second terminal.</param>
/// <param name="ColdOhms">Resistance at 25 °C, Ω.</param>
/// <param name="Beta">Material constant, K.</param>
/// <param name="WattsPerKelvin">Dissipation constant, W/K.</param>
/// <param name="JoulesPerKelvin">Heat capacity, J/K.</param>
public sealed record Thermistor(string Name, int A, int B, double ColdOhms, double Beta, double WattsPerKelvin, double JoulesPerKelvin) : Element(Name);

/// <summary>Anything that conducts one way: vacuum, selenium, silicon.</summary>
public sealed record Diode(string Name, int Anode, int Cathode, DiodeLaw Law) : Element(Name);

/// <summary>Gas regulator.</summary>
/// <param name="Name">Unique name.</param>
/// <param name="Anode">Anode.</param>
/// <param name="Cathode">Cathode.</param>
/// <param name="RunVolts">Voltage at the middle of its range, V.</param>
/// <param name="SlopeOhms">Slope within the range, Ω.</param>
/// <param name="StrikeVolts">Voltage needed to strike, V.</param>
public sealed record GasRegulator(string Name, int Anode, int Cathode, double RunVolts, double SlopeOhms, double StrikeVolts) : Element(Name);

/// <summary>Triode, or one unit of a double triode.</summary>
public sealed record Triode(string Name, int Plate, int Grid, int Cathode, TriodeLaw Law) : Element(Name);

/// <summary>Pentode or beam valve; grid 3 is taken at cathode.</summary>
public sealed record Pentode(string Name, int Plate, int Screen, int Grid, int Cathode, PentodeLaw Law) : Element(Name);

/// <summary>Pentagrid converter.</summary>
/// <param name="Name">Unique name.</param>
/// <param name="Plate">Plate.</param>
/// <param name="Screen">Grids 2 and 4.</param>
/// <param name="Signal">Grid 3.</param>
/// <param name="Oscillator">Grid 1.</param>
/// <param name="Cathode">Cathode, with grid 5.</param>
/// <param name="Law">Its law.</param>
/// <param name="OscillatorPeakVolts">Peak of the oscillation on grid 1 to cathode, V; 0 when it does not oscillate. The grid-leak bias then comes out of the solution.</param>
public sealed record Converter(string Name, int Plate, int Screen, int Signal, int Oscillator, int Cathode, ConverterLaw Law, double OscillatorPeakVolts) : Element(Name);

/// <summary>The line: a sine source with the house's resistance.</summary>
/// <param name="Name">Unique name.</param>
/// <param name="A">Live blade.</param>
/// <param name="B">Other blade.</param>
/// <param name="VoltsRms">V rms, 0 or more.</param>
/// <param name="Hertz">Frequency, Hz; above 0.</param>
/// <param name="Ohms">Source resistance, Ω; above 0.</param>
public sealed record Mains(string Name, int A, int B, double VoltsRms, double Hertz, double Ohms) : Element(Name);

/// <summary>A DC source with its resistance; for tests and for supplies that are not entered. Ohms: above 0.</summary>
public sealed record Battery(string Name, int Plus, int Minus, double Volts, double Ohms) : Element(Name);

/// <summary>A constant current from A through the element to B, A.</summary>
public sealed record CurrentDrain(string Name, int A, int B, double Amperes) : Element(Name);

/// <summary>A node whose voltage to the reference is given: the sheet's figure for a section that is not entered.</summary>
public sealed record Declared(string Name, int Node, double Volts) : Element(Name);

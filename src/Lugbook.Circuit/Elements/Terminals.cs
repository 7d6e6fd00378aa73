using System.Collections.Immutable;

namespace Lugbook.Circuit.Elements;

/// <summary>The nodes an element is on, in the order of its parameters.</summary>
public static class Terminals
{
    /// <summary>Its nodes, in the order of its terminals.</summary>
    public static ImmutableArray<int> Of(Element element) => element switch
    {
        Resistor e => [e.A, e.B],
        Control e => [e.A, e.B, e.Slider],
        Capacitor e => [e.A, e.B],
        Inductor e => [e.A, e.B],
        Transformer e => [.. e.Windings.SelectMany(w => new[] { w.A, w.B })],
        Switch e => [e.A, e.B],
        Fuse e => [e.A, e.B],
        Filament e => [e.A, e.B],
        Thermistor e => [e.A, e.B],
        Diode e => [e.Anode, e.Cathode],
        GasRegulator e => [e.Anode, e.Cathode],
        Triode e => [e.Plate, e.Grid, e.Cathode],
        Pentode e => [e.Plate, e.Screen, e.Grid, e.Cathode],
        Converter e => [e.Plate, e.Screen, e.Signal, e.Oscillator, e.Cathode],
        Mains e => [e.A, e.B],
        Battery e => [e.Plus, e.Minus],
        CurrentDrain e => [e.A, e.B],
        Declared e => [e.Node],
        _ => throw new ArgumentException($"Element '{element.Name}' is of an unknown sort.", nameof(element)),
    };
}

using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Solving;

/// <summary>What direct current sees of a network: capacitors are their leakage, coils their winding, filaments are hot, the line is 0 V.</summary>
internal static class Direct
{
    public static (Assembly Assembly, int[] JoinedOf) Of(Network network)
    {
        var builder = new AssemblyBuilder(network);
        foreach (var element in network.Elements) Add(builder, element);
        return (builder.Build(), builder.JoinedOf);
    }

    /// <summary>A gas regulator that has struck.</summary>
    public static DiodeLaw LawOf(GasRegulator e) => new(1 / e.SlopeOhms, 1.000001, e.RunVolts, 0.2);

    /// <summary>One element as direct current sees it.</summary>
    public static void Add(AssemblyBuilder to, Element element)
    {
        switch (element)
        {
            case Resistor e: to.Resistance(e.Name, e.A, e.B, e.Ohms); break;
            case Control e:
                to.Resistance(e.Name, e.A, e.Slider, e.Ohms * e.Position);
                to.Resistance(e.Name, e.Slider, e.B, e.Ohms * (1 - e.Position));
                break;
            case Capacitor e: if (double.IsFinite(e.LeakOhms)) to.Resistance(e.Name, e.A, e.B, e.LeakOhms); break;
            case Inductor e: to.Resistance(e.Name, e.A, e.B, e.Ohms); break;
            case Transformer e: foreach (var w in e.Windings) to.Resistance(e.Name, w.A, w.B, w.Ohms); break;
            case Switch e: if (e.Closed) to.Join(e.A, e.B); break;
            case Fuse e: to.Resistance(e.Name, e.A, e.B, e.Ohms); break;
            case Filament e: to.Resistance(e.Name, e.A, e.B, e.RatedVolts / e.RatedAmperes); break;
            case Thermistor e: to.Resistance(e.Name, e.A, e.B, e.ColdOhms); break;
            case Diode e: to.Diode(e.Name, [e.Anode, e.Cathode], DiodeDevice.Of(e.Law)); break;
            case GasRegulator e: to.Diode(e.Name, [e.Anode, e.Cathode], DiodeDevice.Of(LawOf(e))); break;
            case Triode e: to.Triode(e.Name, [e.Plate, e.Grid, e.Cathode], TriodeDevice.Of(e.Law)); break;
            case Pentode e: to.Pentode(e.Name, [e.Plate, e.Screen, e.Grid, e.Cathode], PentodeDevice.Of(e.Law)); break;
            case Converter e:
                to.Converter(e.Name, [e.Plate, e.Screen, e.Signal, e.Oscillator, e.Cathode], ConverterDevice.Of(e.Law, e.OscillatorPeakVolts));
                break;
            case Mains e: to.Resistance(e.Name, e.A, e.B, e.Ohms); break;
            case Battery e:
                to.Conductance(e.Name, e.Plus, e.Minus, 1 / e.Ohms);
                to.Drain(e.Name, e.Minus, e.Plus, e.Volts / e.Ohms);
                break;
            case CurrentDrain e: to.Drain(e.Name, e.A, e.B, e.Amperes); break;
            case Declared e: to.Given(e.Name, e.Node, e.Volts); break;
            default: throw new ArgumentException($"Element '{element.Name}' is of a sort that direct current cannot see.", nameof(element));
        }
    }
}

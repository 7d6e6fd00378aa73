using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit;

/// <summary>Currents of elements at given node voltages, as direct current sees them.</summary>
public static class Currents
{
    /// <summary>Currents from nodes into an element, A; they sum to 0 but for what a source without resistance or a closed switch carries, which is not told.</summary>
    /// <param name="element">The element.</param>
    /// <param name="volts">Voltage of each node, V: an operating point's or a variant's.</param>
    /// <returns>One entry a terminal, in the order of the element's own parameters (plate, screen, grid, cathode); of a transformer two a winding.</returns>
    public static ImmutableArray<(int Node, double Amperes)> Into(Element element, ReadOnlySpan<double> volts)
    {
        switch (element)
        {
            case Resistor e: return Two(e.A, e.B, e.Ohms, volts);
            case Capacitor e: return Two(e.A, e.B, e.LeakOhms, volts);
            case Inductor e: return Two(e.A, e.B, e.Ohms, volts);
            case Fuse e: return Two(e.A, e.B, e.Ohms, volts);
            case Filament e: return Two(e.A, e.B, e.RatedVolts / e.RatedAmperes, volts);
            case Thermistor e: return Two(e.A, e.B, e.ColdOhms, volts);
            case Mains e: return Two(e.A, e.B, e.Ohms, volts);
            case Control e: return [.. Two(e.A, e.Slider, e.Ohms * e.Position, volts), .. Two(e.Slider, e.B, e.Ohms * (1 - e.Position), volts)];
            case Transformer e:
            {
                var all = ImmutableArray.CreateBuilder<(int, double)>();
                foreach (var w in e.Windings) all.AddRange(Two(w.A, w.B, w.Ohms, volts));
                return all.ToImmutable();
            }
            case Battery e:
            {
                var amperes = (volts[e.Plus] - volts[e.Minus] - e.Volts) / e.Ohms;
                return [(e.Plus, amperes), (e.Minus, -amperes)];
            }
            case CurrentDrain e: return [(e.A, e.Amperes), (e.B, -e.Amperes)];
            case Diode or GasRegulator or Triode or Pentode or Converter:
            {
                var (nodes, amperes, _) = Slopes.At(element, [.. volts])!.Value;
                return [.. nodes.Zip(amperes)];
            }
            default: return [];
        }
    }

    /// <summary>What the declared voltage of a node must deliver, A: the sum of all currents out of the node into the network's elements.</summary>
    public static double OutOf(Network network, int node, ReadOnlySpan<double> volts)
    {
        double sum = 0;
        foreach (var element in network.Elements)
            foreach (var (n, amperes) in Into(element, volts)) if (n == node) sum += amperes;
        return sum;
    }

    private static ImmutableArray<(int, double)> Two(int a, int b, double ohms, ReadOnlySpan<double> volts)
    {
        if (ohms == 0) return [(a, 0), (b, 0)];
        var amperes = (volts[a] - volts[b]) / ohms;
        return [(a, amperes), (b, -amperes)];
    }
}

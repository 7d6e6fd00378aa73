using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Cold;

/// <summary>Replaces dry rectifiers by the resistances they are under a meter's test voltage.</summary>
internal static class Rectifiers
{
    /// <summary>Solves with the test voltage across two nodes and puts volts over amperes in each rectifier's place.</summary>
    /// <param name="nodeNames">Names.</param>
    /// <param name="common">The meter's negative lead.</param>
    /// <param name="node">The meter's positive lead.</param>
    /// <param name="cold">From <see cref="ColdView"/>.</param>
    /// <param name="testVolts">Negative: leads exchanged.</param>
    /// <exception cref="UnsolvableException">Nothing settled.</exception>
    public static Element[] AsResistors(IReadOnlyList<string> nodeNames, int common, int node, IReadOnlyList<Element> cold, double testVolts)
    {
        var elements = new List<Element>(cold) { new Declared("\0test", node, testVolts) };
        double[] volts;
        try
        {
            volts = [.. OperatingPoint.Of(new Network(nodeNames, common, elements)).Volts];
        }
        catch (UnsolvableException e) when (double.IsNaN(e.ResidualAmperes))
        {
            // The leads are joined: 0 Ω whatever the rectifiers do.
            volts = new double[nodeNames.Count];
        }
        return [.. cold.Select(e => e is Diode d ? new Resistor(d.Name, d.Anode, d.Cathode, Ohms(d.Law, volts[d.Anode] - volts[d.Cathode])) : e)];
    }

    /// <summary>Slope resistance at 0 V, Ω.</summary>
    public static double OhmsAtRest(DiodeLaw law) => Ohms(law, 0);

    /// <summary>Volts over amperes, Ω.</summary>
    public static double Ohms(DiodeLaw law, double volts)
    {
        const double small = 1e-6;   // below it the difference of currents is noise, and the slope says the same
        return Math.Abs(volts) < small
            ? 2 * small / (Amperes(law, small) - Amperes(law, -small))
            : volts / Amperes(law, volts);
    }

    private static double Amperes(DiodeLaw law, double volts)
    {
        Span<One> i = stackalloc One[2];
        Span<One> g = stackalloc One[4];
        DiodeDevice.Evaluate<One>([.. DiodeDevice.Of(law).Select(p => new One(p))], [new(volts), new(0)], i, g);
        return i[0].Value;
    }
}

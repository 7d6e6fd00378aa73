using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;

namespace Lugbook.Benchmarks;

/// <summary>Tolerance samples: every resistor within ±10 %, every valve's perveance within ±30 %.</summary>
internal static class Tolerances
{
    /// <summary>What is varied and its nominal value.</summary>
    public static ImmutableArray<(Varied What, double Nominal, double Share)> Of(Network network) =>
    [
        .. network.Elements.SelectMany<Element, (Varied, double, double)>(e => e switch
        {
            Resistor r => [(new(r.Name, Parameter.Ohms), r.Ohms, 0.1)],
            Diode d => [(new(d.Name, Parameter.Perveance), d.Law.Perveance, 0.3)],
            Triode t => [(new(t.Name, Parameter.Perveance), t.Law.Perveance, 0.3)],
            Pentode p => [(new(p.Name, Parameter.Perveance), p.Law.Perveance, 0.3)],
            _ => [],
        }),
    ];

    /// <summary>So many samples, the same for the same seed.</summary>
    public static double[] Samples(ImmutableArray<(Varied What, double Nominal, double Share)> varied, int samples, int seed)
    {
        var random = new Random(seed);
        var values = new double[samples * varied.Length];
        for (var k = 0; k < values.Length; k++)
        {
            var (_, nominal, share) = varied[k % varied.Length];
            values[k] = nominal * (1 + share * (2 * random.NextDouble() - 1));
        }
        return values;
    }
}

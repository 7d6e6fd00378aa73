using CsCheck;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Tests.Convergence;

namespace Lugbook.Circuit.Tests;

/// <summary>Every single fault of a set, side by side and each as a network of its own. Source: the scalar path, itself held to closed forms in OperatingPointTests.</summary>
public class SingleFaultTests
{
    private const double AlikeVolts = 2e-6;

    /// <summary>Resistors open, shorted, half and double; capacitors shorted and leaking; valves dead; regulators and heaters open.</summary>
    private static (Batch Batch, double[] Values, string[] Names) Faults(Network network)
    {
        var faults = new List<(int Parameter, double Value, string Name)>();
        var varied = new List<(Varied What, double Good)>();
        foreach (var element in network.Elements)
        {
            switch (element)
            {
                case Resistor { Ohms: > 0 } r: Add(Parameter.Ohms, r.Ohms, double.PositiveInfinity, 0, r.Ohms / 2, r.Ohms * 2); break;
                case Capacitor c: Add(Parameter.Ohms, c.LeakOhms, 1, 100e3); break;
                case Filament f: Add(Parameter.Ohms, f.RatedVolts / f.RatedAmperes, double.PositiveInfinity); break;
                case GasRegulator g: Add(Parameter.Ohms, g.SlopeOhms, double.PositiveInfinity); break;
                case Diode d: Add(Parameter.Perveance, d.Law.Perveance, d.Law.Perveance * 1e-6); break;
                case Triode t: Add(Parameter.Perveance, t.Law.Perveance, t.Law.Perveance * 1e-6); break;
                case Pentode p: Add(Parameter.Perveance, p.Law.Perveance, p.Law.Perveance * 1e-6); break;
            }

            void Add(Parameter parameter, double good, params ReadOnlySpan<double> bad)
            {
                foreach (var value in bad) faults.Add((varied.Count, value, FormattableString.Invariant($"{element.Name} {parameter} {value}")));
                varied.Add((new(element.Name, parameter), good));
            }
        }
        double[] values = [.. faults.SelectMany(f => varied.Select((v, k) => k == f.Parameter ? f.Value : v.Good))];
        return (new(network, varied.Select(v => v.What)), values, [.. faults.Select(f => f.Name)]);
    }

    private static (int Faults, int Alone) Compare(Network network)
    {
        var (batch, values, names) = Faults(network);
        var result = batch.Solve(values);
        var width = values.Length / names.Length;
        for (var k = 0; k < names.Length; k++)
        {
            Assert.True(result.ReasonOf(k) is null, $"{names[k]}: {result.ReasonOf(k)}");
            Assert.InRange(result.ResidualOf(k), 0, 1e-9);
            var own = batch.NetworkOf(values.AsSpan(k * width, width));
            var point = OperatingPoint.Of(own);
            for (var n = 0; n < batch.NodeCount; n++)
                Assert.True(Math.Abs(point.Volts[n] - result.VoltsOf(k)[n]) <= AlikeVolts, FormattableString.Invariant($"{names[k]}: {network.NodeNames[n]} {result.VoltsOf(k)[n]:R} beside others, {point.Volts[n]:R} alone"));
        }
        return (names.Length, result.SolvedAlone);
    }

    [Fact]
    public void Every_fault_of_a_set_is_as_if_solved_alone()
    {
        var (faults, alone) = (0, 0);
        RandomNetworks.Sound.Sample(set =>
        {
            var (f, a) = Compare(set);
            Interlocked.Add(ref faults, f);
            Interlocked.Add(ref alone, a);
        }, iter: long.TryParse(Environment.GetEnvironmentVariable("CsCheck_Iter"), out var many) ? many : 40);
        TestContext.Current.TestOutputHelper?.WriteLine($"{faults} faults, {alone} solved alone");
        // Lanes are what makes a dictionary quick: opens are among the faults they settle.
        Assert.True(alone <= faults / 20, $"{alone} of {faults} faults were solved alone");
    }

    [Fact]
    public void A_current_that_an_open_part_leaves_without_a_way_back_is_named()
    {
        var network = new Network(["c", "a", "b"], 0, [new Battery("B", 1, 0, 10, 1), new CurrentDrain("load", 2, 0, 1e-3), new Resistor("R", 1, 2, 100), new Resistor("R2", 1, 0, 100)]);
        var result = new Batch(network, [new("R", Parameter.Ohms)]).Solve([100, double.PositiveInfinity]);
        Assert.Null(result.ReasonOf(0));
        Assert.Contains("'load' drives 0.001 A through node b, from where no current can return", result.ReasonOf(1), StringComparison.Ordinal);
        Assert.True(double.IsNaN(result.VoltsOf(1)[2]));
    }
}

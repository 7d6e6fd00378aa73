using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests;

/// <summary>Source: calculus (a derivative is the limit of differences); Tellegen's theorem. No outside figures.</summary>
public class SensitivityTests
{
    private static readonly TriodeLaw Triode = new(100, 1e-3, 1.5, 0.6, 0.1, 0.0016, 3e-4, 0.15, 0.15);
    private static readonly PentodeLaw Pentode = new(9, 200, 1e-3, 1.4, 0.6, 0.1, 0.02, 0, 1, 0.08, 0.3, 0.1, 3, 3e-4, 0.15, 0.15);
    private static readonly ConverterLaw Heptode = new(20, 2e-3, 1.5, 0.6, 0.1, 0.01, 0.6, 30, 400, 4.5, 4, 12, 6e-4, 0.15, 0.15);

    /// <summary>A little receiver: every sort of element that carries direct current.</summary>
    internal static Network Receiver() => new(["chassis", "B+", "plate", "cathode", "grid", "driven grid", "driven plate", "driven cathode", "slider", "screens", "converter plate", "oscillator", "bias", "raw", "mid"], 0,
    [
        new Battery("B", 13, 0, 260, 10), new Transformer("choke", [new(13, 1, 8, 300)], 0.5), new Resistor("RL", 1, 2, 220e3), new Resistor("RK", 3, 0, 2200), new Control("volume", 4, 12, 8, 500e3, 0.3),
        new Resistor("from slider", 8, 0, 3.3e6), new Triode("V1", 2, 4, 3, Triode), new Resistor("grid leak", 5, 0, 470e3), new Capacitor("coupling", 2, 5, 1e-8, 0, 50e6),
        new Inductor("primary", 1, 6, 5, 240), new Resistor("RK2", 7, 0, 330), new Pentode("V2", 6, 1, 5, 7, Pentode),
        new Resistor("RS", 1, 9, 20e3), new Resistor("IF", 1, 10, 100), new Resistor("leak", 11, 0, 20e3), new Converter("V3", 10, 9, 12, 11, 0, Heptode, 9),
        new Declared("AVC", 12, -2), new CurrentDrain("rest", 1, 0, 5e-3), new GasRegulator("V4", 14, 0, 105, 60, 130), new Resistor("RG", 1, 14, 22e3), new Diode("D", 0, 12, DiodeLaw.Silicon()),
        new Fuse("F", 13, 13, 1), new Mains("line", 0, 0, 117, 60, 1),
    ]);

    private static Element Scaled(Element element, Parameter parameter, int index, double by) => (element, parameter) switch
    {
        (Resistor e, _) => e with { Ohms = e.Ohms * by },
        (Control e, Parameter.Ohms) => e with { Ohms = e.Ohms * by },
        (Control e, _) => e with { Position = e.Position * by },
        (Capacitor e, _) => e with { LeakOhms = e.LeakOhms * by },
        (Inductor e, _) => e with { Ohms = e.Ohms * by },
        (Transformer e, _) => e with { Windings = e.Windings.SetItem(index, e.Windings[index] with { Ohms = e.Windings[index].Ohms * by }) },
        (Battery e, Parameter.Ohms) => e with { Ohms = e.Ohms * by },
        (Battery e, _) => e with { Volts = e.Volts * by },
        (CurrentDrain e, _) => e with { Amperes = e.Amperes * by },
        (Declared e, _) => e with { Volts = e.Volts * by },
        (Diode e, _) => e with { Law = e.Law with { Perveance = e.Law.Perveance * by } },
        (Triode e, Parameter.Perveance) => e with { Law = e.Law with { Perveance = e.Law.Perveance * by } },
        (Triode e, _) => e with { Law = e.Law with { Mu = e.Law.Mu * by } },
        (Pentode e, Parameter.Perveance) => e with { Law = e.Law with { Perveance = e.Law.Perveance * by } },
        (Pentode e, _) => e with { Law = e.Law with { ScreenMu = e.Law.ScreenMu * by } },
        (Converter e, Parameter.Perveance) => e with { Law = e.Law with { Perveance = e.Law.Perveance * by } },
        (Converter e, Parameter.OscillatorVolts) => e with { OscillatorPeakVolts = e.OscillatorPeakVolts * by },
        (Converter e, _) => e with { Law = e.Law with { ScreenMu = e.Law.ScreenMu * by } },
        (GasRegulator e, Parameter.Volts) => e with { RunVolts = e.RunVolts * by },
        (GasRegulator e, _) => e with { SlopeOhms = e.SlopeOhms * by },
        _ => element,
    };

    [Fact]
    public void Every_sensitivity_is_the_limit_of_differences()
    {
        var network = Receiver();
        int[] nodes = [.. Enumerable.Range(0, network.NodeCount)];
        var rows = Sensitivity.Of(network, nodes);
        Assert.True(rows.Length >= 29);
        Assert.Contains(rows, r => (r.Element, r.Parameter) == ("V4", Parameter.Volts) && r.VoltsPerLog[14] > 90);
        Assert.Contains(rows, r => (r.Element, r.Parameter) == ("V4", Parameter.Ohms) && r.VoltsPerLog[14] > 0);
        // More swing, more grid-leak bias.
        Assert.Contains(rows, r => (r.Element, r.Parameter) == ("V3", Parameter.OscillatorVolts) && r.VoltsPerLog[11] < -1);
        Assert.Equal(["AVC", "B", "V1", "V2", "V3", "choke", "coupling", "rest", "volume"], rows.Select(r => r.Element).Intersect(["B", "V1", "V2", "V3", "volume", "AVC", "coupling", "choke", "rest"]).Order(StringComparer.Ordinal));
        foreach (var row in rows)
        {
            var element = network.Elements.Single(e => e.Name == row.Element);
            double[] At(double h) => [.. OperatingPoint.Of(network.With(Scaled(element, row.Parameter, row.Index, Math.Exp(h)))).Volts];
            const double h = 1e-3;
            var (a, b, c, d) = (At(-2 * h), At(-h), At(h), At(2 * h));
            var largest = row.VoltsPerLog.Max(Math.Abs);
            foreach (var n in nodes)
            {
                var slope = (a[n] - 8 * b[n] + 8 * c[n] - d[n]) / (12 * h);
                // The solver settles to 1e-7 V and better, which the step makes 1e-5 V at worst in nodes behind megohms.
                Assert.True(Math.Abs(slope - row.VoltsPerLog[n]) <= 1e-5 * Math.Max(largest, 0.1), $"{row.Element} {row.Parameter} at {network.NodeNames[n]}: {row.VoltsPerLog[n]}, differences give {slope}");
            }
        }
    }

    [Fact]
    public void A_dividers_sensitivity_is_its_closed_form()
    {
        // V = E·R2/(R1 + R2): dV/dlnR1 = −E·R1·R2/(R1 + R2)², dV/dlnE = V.
        var network = new Network(["c", "top", "mid"], 0, [new Declared("E", 1, 90), new Resistor("R1", 1, 2, 2000), new Resistor("R2", 2, 0, 1000)]);
        var rows = Sensitivity.Of(network, 2).ToDictionary(r => r.Element, r => r.VoltsPerLog[0]);
        Assert.Equal(-20, rows["R1"], 1e-9);
        Assert.Equal(20, rows["R2"], 1e-9);
        Assert.Equal(30, rows["E"], 1e-9);
    }
}

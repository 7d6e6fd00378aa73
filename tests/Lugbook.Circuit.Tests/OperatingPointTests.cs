using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests;

/// <summary>Source: Ohm's and Kirchhoff's laws; closed forms of dividers, ladders and bridges.</summary>
public class OperatingPointTests
{
    [Fact]
    public void A_divider_divides()
    {
        var network = new Network(["common", "top", "middle"], 0,
        [
            new Battery("B", 1, 0, 100, 1e-3),
            new Resistor("R1", 1, 2, 220e3),
            new Resistor("R2", 2, 0, 47e3),
        ]);
        var point = OperatingPoint.Of(network);
        Assert.Equal(100 * 47e3 / (220e3 + 47e3 + 1e-3), point.Volts[2], 1e-9);
    }

    [Fact]
    public void A_ladder_of_equal_resistors_shows_ratios_of_fibonacci_numbers()
    {
        // Source: the input resistance of an n-section ladder of 1 Ω series and 1 Ω shunt arms is F(2n+1)/F(2n) Ω (Morgan-Voyce, IRE Trans. CT-6, 1959; from memory).
        const int sections = 20;
        var elements = new List<Element>();
        for (var k = 1; k <= sections; k++)
        {
            elements.Add(new Resistor($"S{k}", k, k + 1, 1));
            elements.Add(new Resistor($"P{k}", k + 1, 0, 1));
        }
        elements.Add(new CurrentDrain("I", 0, 1, 1));
        var network = new Network(Enumerable.Range(0, sections + 2).Select(i => $"n{i}"), 0, elements);
        double a = 0, b = 1;
        for (var k = 0; k < 2 * sections; k++) (a, b) = (b, a + b);
        Assert.Equal(b / a, OperatingPoint.Of(network).Volts[1], 1e-9);
    }

    [Fact]
    public void A_detector_at_rest_shows_contact_potential_if_its_cathode_is_hot_and_nothing_if_it_is_dry()
    {
        // Source: a dry rectifier is no source; a hot cathode's retarding-field current through megohms is a few tenths of a volt to one volt (common practice, no source).
        double Volts(DiodeLaw law) => OperatingPoint.Of(new(["common", "load"], 0, [new Diode("D", 1, 0, law), new Resistor("R", 1, 0, 10e6)])).Volts[1];
        Assert.Equal(0, Volts(DiodeLaw.Germanium()));
        Assert.Equal(0, Volts(DiodeLaw.Silicon()));
        Assert.Equal(0, Volts(DiodeLaw.Selenium(1, 0.001)));
        Assert.InRange(Volts(DiodeLaw.SignalPlate()), -1.2, -0.2);
    }

    [Fact]
    public void A_triode_with_self_bias_satisfies_its_own_law()
    {
        var law = new TriodeLaw(100, 2e-6 * 500, 1.5, 0.5, 0.1, 0.002, 1e-3, 0.3, 0.15);
        var network = new Network(["common", "B+", "plate", "cathode", "grid"], 0,
        [
            new Battery("B", 1, 0, 250, 1),
            new Resistor("RL", 1, 2, 100e3),
            new Resistor("RK", 3, 0, 1500),
            new Resistor("RG", 4, 0, 1e6),
            new Triode("V", 2, 4, 3, law),
        ]);
        var point = OperatingPoint.Of(network);
        var plateAmperes = (point.Volts[1] - point.Volts[2]) / 100e3;
        Assert.InRange(point.Volts[3], 0.1, 10);
        Assert.Equal(plateAmperes, point.Volts[3] / 1500 + point.Volts[4] / 1e6, 1e-9);
        Assert.InRange(point.ResidualAmperes, 0, 1e-9);
    }
}

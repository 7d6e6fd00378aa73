using System.Numerics;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests;

/// <summary>Source: the equivalent-plate-circuit theorem (Terman, Radio Engineers' Handbook, section 5; formulas from memory) and RC closed forms.</summary>
public class SmallSignalTests
{
    private static readonly TriodeLaw Law = new(100, 1e-3, 1.5, 0.6, 0.1, 0.0016, 3e-4, 0.15, 0.15);

    private static Network Stage(params Element[] more) => new(["common", "B+", "plate", "cathode", "grid", "next"], 0,
    [
        new Declared("B", 1, 250), new Declared("drive", 4, 0), new Resistor("RL", 1, 2, 100e3), new Resistor("RK", 3, 0, 1500), new Triode("V", 2, 4, 3, Law), .. more,
    ]);

    [Fact]
    public void Gain_equals_the_change_of_the_operating_point_when_nothing_stores()
    {
        var network = Stage();
        double At(double volts) => OperatingPoint.Of(network.With(new Declared("drive", 4, volts))).Volts[2];
        const double h = 1e-3;
        var slope = (At(-2 * h) - 8 * At(-h) + 8 * At(h) - At(2 * h)) / (12 * h);
        var gain = SmallSignal.Gain(network, 4, 2, 1000);
        Assert.Equal(slope, gain.Real, 1e-5 * Math.Abs(slope));
        Assert.Equal(0, gain.Imaginary, 1e-9);
        Assert.InRange(gain.Magnitude, 20, 60);
    }

    [Fact]
    public void A_bypassed_cathode_gives_mu_RL_over_RL_plus_rp()
    {
        var network = Stage(new Capacitor("CK", 3, 0, 1));
        var point = OperatingPoint.Of(network);
        // gm and rp by differences of the plate current, cathode held.
        double Plate(double dg, double dp)
        {
            var held = new Network(["c", "p", "g", "k"], 0, [new Declared("p", 1, point.Volts[2] + dp), new Declared("g", 2, point.Volts[4] + dg), new Declared("k", 3, point.Volts[3]), new Resistor("sense", 1, 0, 1e9), new Triode("V", 1, 2, 3, Law)]);
            return Lugbook.Circuit.Solving.Slopes.At(held.Elements[4], OperatingPoint.Of(held).Volts)!.Value.Amperes[0];
        }
        var gm = (Plate(1e-3, 0) - Plate(-1e-3, 0)) / 2e-3;
        var rp = 2e-1 / (Plate(0, 1e-1) - Plate(0, -1e-1));
        var expected = -gm * rp * 100e3 / (100e3 + rp);
        Assert.Equal(expected, SmallSignal.Gain(network, 4, 2, 1000).Real, 1e-4 * Math.Abs(expected));
    }

    [Fact]
    public void A_coupling_capacitor_takes_3_dB_at_its_corner()
    {
        var network = new Network(["c", "in", "out"], 0, [new Declared("in", 1, 100), new Capacitor("C", 1, 2, 10e-9), new Resistor("R", 2, 0, 470e3)]);
        var corner = 1 / (2 * Math.PI * 10e-9 * 470e3);
        var gain = SmallSignal.Gain(network, 1, 2, corner);
        Assert.Equal(Math.Sqrt(0.5), gain.Magnitude, 1e-12);
        Assert.Equal(Math.PI / 4, gain.Phase, 1e-12);
        Assert.Equal(Complex.Zero, SmallSignal.Gain(network, 2, 1, corner));
    }
}

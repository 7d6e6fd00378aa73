using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests.Supply;

/// <summary>Averaging a rectifier must give what following the cycle gives, near the load it was made at.</summary>
public class PoweredTests
{
    private static Network FullWave(double load, double volts = 117, double reservoir = 20e-6, bool choke = false)
    {
        string[] names = ["0", "live", "p1", "p2", "plus", "b"];
        var h = 6.0;
        double H(double v) => h * (v / 117) * (v / 117);
        Element[] elements =
        [
            new Mains("line", 1, 0, volts, 60, 0.5),
            new Transformer("T", [new(1, 0, h, 5), new(2, 0, H(300), 115), new(0, 3, H(300), 125)], 0.9998),
            new Diode("D1", 2, 4, DiodeLaw.Vacuum(50, 0.125)), new Diode("D2", 3, 4, DiodeLaw.Vacuum(50, 0.125)),
            .. choke ? (Element[])[] : [new Capacitor("C1", 4, 0, reservoir)],
            new Inductor("L", 4, 5, 8, 200), new Capacitor("C2", 5, 0, 40e-6),
            new Resistor("R", 5, 0, load),
        ];
        return new(names, 0, elements);
    }

    /// <summary>Source: the cycle itself, solved anew at the other load; no outside source.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_averaged_set_follows_other_loads_and_line_voltages(bool choke)
    {
        var at = Powered.Of(FullWave(4000, choke: choke));
        Assert.InRange(at.MeanErrorVolts, 0, 0.5);
        foreach (var load in (double[])[2500, 3300, 5000, 8000])
        {
            var truth = Circuit.Supply.SteadyState(FullWave(load, choke: choke)).Nodes[5].Average;
            var averaged = OperatingPoint.Of(at.Direct.With(new Resistor("R", 5, 0, load))).Volts[5];
            Assert.True(Math.Abs(averaged / truth - 1) < 0.02, $"{load} Ω: {averaged:f1} V averaged, {truth:f1} V followed");
        }
        foreach (var line in (double[])[105, 129])
        {
            var truth = Circuit.Supply.SteadyState(FullWave(4000, line, choke: choke)).Nodes[5].Average;
            var direct = at.Direct;
            foreach (var r in at.Rectifiers) direct = direct.With(((Battery)direct.Elements.First(e => e.Name == r.Source)) with { Volts = r.LiftVolts * line / 117 });
            Assert.InRange(OperatingPoint.Of(direct).Volts[5] / truth, 0.98, 1.02);
        }
    }

    /// <summary>Source: an unloaded reservoir stands at the peak, √2 of the rms voltage (any textbook).</summary>
    [Fact]
    public void Without_load_the_averaged_set_reaches_the_peak()
    {
        var at = Powered.Of(FullWave(4000));
        var volts = OperatingPoint.Of(at.Direct.With(new Resistor("R", 5, 0, 1e9))).Volts[5];
        Assert.InRange(volts, 0.95 * 300 * Math.Sqrt(2), 1.02 * 300 * Math.Sqrt(2));
    }

    /// <summary>Source: the cycle itself; a doubler's two halves carry the same mean current.</summary>
    [Fact]
    public void A_doubler_is_averaged_too()
    {
        string[] names = ["0", "live", "x", "plus"];
        Network Doubler(double load) => new(names, 0,
        [
            new Mains("line", 1, 0, 117, 60, 1),
            new Capacitor("C1", 2, 1, 100e-6),
            new Diode("SE1", 0, 2, DiodeLaw.Selenium(5, 0.3)), new Diode("SE2", 2, 3, DiodeLaw.Selenium(5, 0.3)),
            new Capacitor("C2", 3, 0, 100e-6), new Resistor("R", 3, 0, load),
        ]);
        var at = Powered.Of(Doubler(1000));
        Assert.Equal(at.Rectifiers[0].Amperes, at.Rectifiers[1].Amperes, 0.01 * at.Rectifiers[0].Amperes);
        Assert.InRange(at.MeanErrorVolts, 0, 0.5);
        foreach (var load in (double[])[700, 1500, 4000])
        {
            var truth = Circuit.Supply.SteadyState(Doubler(load)).Nodes[3].Average;
            var averaged = OperatingPoint.Of(at.Direct.With(new Resistor("R", 3, 0, load))).Volts[3];
            Assert.True(Math.Abs(averaged / truth - 1) < 0.03, $"{load} Ω: {averaged:f1} V averaged, {truth:f1} V followed");
        }
    }
}

using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Circuit.Elements;
using CircuitSupply = Lugbook.Circuit.Supply;

namespace Lugbook.Circuit.Tests.Supply;

/// <summary>Source: data/reference/power-supply-checks.csv, rows rc-filter, lc-filter, pi-filter and choke-input (closed forms; the textbook constants 0.83, 1.19, 3300, 5700).</summary>
public partial class FilterTests
{
    private static double Field(Match m, string name) => double.Parse(m.Groups[name].Value, CultureInfo.InvariantCulture);

    private static double Gain(double hertz, params IEnumerable<Element> filter) =>
        SmallSignal.Gain(new(["common", "in", "out"], 0, filter), 1, 2, hertz).Magnitude;

    [Fact]
    public void Every_row_of_resistance_filters_is_met()
    {
        var rows = 0;
        foreach (var row in Checks.Of("rc-filter"))
        {
            var m = Rc().Match(row["inputs"]);
            Assert.True(m.Success, row["id"]);
            var load = m.Groups["load"].Success ? Field(m, "load") : 1e12;
            var gain = Gain(Field(m, "f"), new Resistor("R", 1, 2, Field(m, "r")), new Capacitor("C", 2, 0, Field(m, "c") * 1e-6), new Resistor("load", 2, 0, load));
            Assert.Equal(Checks.Number(row["value"]), gain, 2e-5 * Checks.Number(row["value"]));
            rows++;
        }
        Assert.Equal(7, rows);
    }

    [Fact]
    public void Every_row_of_choke_filters_is_met_and_the_resonance_lies_where_it_says()
    {
        var rows = 0;
        foreach (var row in Checks.Of("lc-filter"))
        {
            var m = Lc().Match(row["inputs"]);
            Assert.True(m.Success, row["id"]);
            var aim = Checks.Number(row["value"]);
            // A choke must have a winding: 1 mΩ stands for none.
            double At(double hertz) => Gain(hertz, new Inductor("L", 1, 2, Field(m, "l"), 1e-3), new Capacitor("C", 2, 0, Field(m, "c") * 1e-6), new Resistor("load", 2, 0, 1e9));
            if (m.Groups["f"].Success) Assert.Equal(aim, At(Field(m, "f")), 2e-5 * aim);
            else
            {
                // The row is printed to five digits: the peak lies within them.
                Assert.True(At(aim) > 100 && At(aim) > At(0.998 * aim) && At(aim) > At(1.002 * aim), row["id"]);
            }
            rows++;
        }
        Assert.Equal(10, rows);
    }

    [Theory]
    [InlineData(50, "G-080", "G-081")]
    [InlineData(60, "G-086", "G-087")]
    public void The_constants_for_ripple_behind_a_choke_and_behind_a_reservoir_and_choke_hold(double hertz, string chokeRow, string piRow)
    {
        double Constant(string check, string id) => Checks.Number(Checks.Of(check).Single(r => r["id"] == id)["value"]);
        var ideal = new DiodeLaw(1000, 1, 0, 0.002);
        Element[] Rectifier(double ohms) => [new Mains("M1", 2, 0, 350, hertz, ohms), new Mains("M2", 0, 3, 350, hertz, ohms), new Diode("D", 2, 1, ideal), new Diode("D2", 3, 1, ideal)];
        double Ripple(double ohms, params IEnumerable<Element> filter)
        {
            var b = CircuitSupply.SteadyState(new(["common", "input", "one", "other", "out"], 0, [.. Rectifier(ohms), .. filter])).Nodes[4];
            return b.RippleRms / b.Average;
        }
        // Choke input: exact where ω²LC is large; with 20 H and 100 µF it is 790 or more, and the harmonics above the second add a thousandth.
        var choke = Constant("choke-input", chokeRow) / (20 * 100);
        Assert.Equal(choke, Ripple(0.01, new Inductor("L", 1, 4, 20, 0.01), new Capacitor("C", 4, 0, 100e-6), new Resistor("R", 4, 0, 5000)), 0.005 * choke);
        // Reservoir and choke: the constant takes the second harmonic of short current pulses, √2·I. That needs a short pulse: no resistance, a large reservoir. Pulses of 5 % of the cycle are 2 % below it.
        var pi = Constant("pi-filter", piRow) / (50.0 * 50 * 20 * 20_000);
        Assert.Equal(pi, Ripple(1, new Capacitor("C1", 1, 0, 50e-6), new Inductor("L", 1, 4, 20, 0.01), new Capacitor("C2", 4, 0, 50e-6), new Resistor("R", 4, 0, 20_000)), 0.03 * pi);
    }

    [GeneratedRegex(@"^R=(?<r>[\d.]+) ohm C=(?<c>[\d.]+) uF f=(?<f>\d+) Hz(.* load (?<load>\d+) ohm)?")]
    private static partial Regex Rc();

    [GeneratedRegex(@"^L=(?<l>[\d.]+) H C=(?<c>[\d.]+) uF( f=(?<f>\d+) Hz)?")]
    private static partial Regex Lc();
}

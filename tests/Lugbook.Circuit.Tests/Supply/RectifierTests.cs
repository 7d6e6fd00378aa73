using Lugbook.Circuit.Elements;
using CircuitSupply = Lugbook.Circuit.Supply;

namespace Lugbook.Circuit.Tests.Supply;

/// <summary>Source: data/reference/power-supply-checks.csv (ideal circuit charted by Schade, Proc. IRE 31, 1943; closed forms at its limits).</summary>
public class RectifierTests
{
    private const double Load = 1000, Peak = 1000, Hertz = 50;
    // The rows are for an ideal diode; ours drops 10 mV in 1,000 V at no current and has a thousandth of an ohm.
    private static readonly DiodeLaw Ideal = new(1000, 1, 0, 0.002);

    private static Mains Line(string name, int a, int b, double ohms) => new(name, a, b, Peak / Math.Sqrt(2), Hertz, Math.Max(ohms - 1e-3, 1e-3));

    private static SupplyState Solve(string circuit, double wCR, double ohms)
    {
        var farads = wCR / (2 * Math.PI * Hertz * Load);
        Network network = circuit switch
        {
            "half-wave" => new(["common", "B+", "line"], 0,
                [Line("M", 2, 0, ohms), new Diode("D", 2, 1, Ideal), new Capacitor("C", 1, 0, farads), new Resistor("R", 1, 0, Load)]),
            "full-wave" => new(["common", "B+", "one", "other"], 0,
                [
                    Line("M1", 2, 0, ohms), Line("M2", 0, 3, ohms), new Diode("D", 2, 1, Ideal), new Diode("D2", 3, 1, Ideal),
                    new Capacitor("C", 1, 0, farads), new Resistor("R", 1, 0, Load),
                ]),
            "doubler-full-wave" => new(["common", "B+", "line", "middle"], 0,
                [
                    Line("M", 2, 3, ohms), new Diode("D", 2, 1, Ideal), new Diode("D2", 0, 2, Ideal),
                    new Capacitor("C", 1, 3, farads), new Capacitor("C2", 3, 0, farads), new Resistor("R", 1, 0, Load),
                ]),
            "doubler-half-wave" => new(["common", "B+", "line", "pump"], 0,
                [
                    Line("M", 2, 0, ohms), new Capacitor("C2", 2, 3, farads), new Diode("D2", 0, 3, Ideal), new Diode("D", 3, 1, Ideal),
                    new Capacitor("C", 1, 0, farads), new Resistor("R", 1, 0, Load),
                ]),
            _ => throw new ArgumentException(circuit),
        };
        return CircuitSupply.SteadyState(network);
    }

    public static TheoryData<string> Circuits => ["half-wave", "full-wave", "doubler-half-wave", "doubler-full-wave"];

    [Theory]
    [MemberData(nameof(Circuits))]
    public void Every_rectifier_row_is_met_within_a_tenth_of_a_per_cent_with_the_usual_options(string circuit)
    {
        var misses = new List<string>();
        var rows = Checks.Of("rectifier").Where(r => r["circuit"] == circuit).ToArray();
        var worst = new double[5];
        var (charge, most) = (0.0, 0);
        foreach (var row in rows)
        {
            var state = Solve(circuit, Checks.Number(row["wCR"]), Checks.Number(row["rs_over_r_pct"]) / 100 * Load);
            var (b, d) = (state.Nodes[1], state.Currents["D"]);
            Compare(row, "vdc_over_vpeak", b.Average / Peak, 0, misses, worst);
            Compare(row, "ripple_rms_pct", 100 * b.RippleRms / b.Average, 1, misses, worst);
            Compare(row, "ripple_pp_pct", 100 * b.RipplePeakToPeak / b.Average, 2, misses, worst);
            Compare(row, "peak_over_avg", d.Peak / d.Average, 3, misses, worst);
            Compare(row, "rms_over_avg", d.Rms / d.Average, 4, misses, worst);
            // Charge that the diodes bring in a cycle is what the load takes.
            var diodes = circuit == "full-wave" ? 2 : 1;
            charge = Math.Max(charge, Math.Abs(diodes * d.Average / (b.Average / Load) - 1));
            most = Math.Max(most, state.Cycle.Seconds.Length - 1);
        }
        Assert.True(charge < 1e-3, $"charge is kept to {charge}");
        TestContext.Current.TestOutputHelper?.WriteLine($"{circuit}: {rows.Length} rows, worst error of Vdc, ripple rms, ripple p-p, peak, rms: {string.Join(", ", worst.Select(w => (100 * w).ToString("0.000", System.Globalization.CultureInfo.InvariantCulture)))} %, charge {100 * charge:0.000} %, at most {most} steps");
        Assert.True(rows.Length >= 10);
        Assert.True(misses.Count == 0, string.Join("\n", misses));
    }

    [Theory]
    [InlineData("half-wave")]
    [InlineData("full-wave")]
    public void The_limits_of_an_endless_reservoir_and_of_no_resistance_are_met(string circuit)
    {
        var misses = new List<string>();
        var rows = Checks.Of("rectifier-limit").Where(r => r["circuit"] == circuit).ToArray();
        var worst = new double[5];
        foreach (var row in rows)
        {
            var endless = row["wCR"] == "inf";
            // Endless: so large that 1,000 cycles would not charge it; Newton's method need not wait. No resistance: 2 mΩ in 1,000 Ω.
            var state = Solve(circuit, endless ? 1e4 : Checks.Number(row["wCR"]), Checks.Number(row["rs_over_r_pct"]) / 100 * Load);
            var (b, d) = (state.Nodes[1], state.Currents["D"]);
            Compare(row, "vdc_over_vpeak", b.Average / Peak, 0, misses, worst);
            if (endless)
            {
                Compare(row, "peak_over_avg", d.Peak / d.Average, 3, misses, worst);
                Compare(row, "rms_over_avg", d.Rms / d.Average, 4, misses, worst);
                Assert.True(b.RippleRms < 1e-3 * b.Average);
            }
            else
            {
                Compare(row, "ripple_rms_pct", 100 * b.RippleRms / b.Average, 1, misses, worst);
                Compare(row, "ripple_pp_pct", 100 * b.RipplePeakToPeak / b.Average, 2, misses, worst);
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{circuit}: {rows.Length} rows, worst error of Vdc, ripple rms, ripple p-p, peak, rms: {string.Join(", ", worst.Select(w => (100 * w).ToString("0.000", System.Globalization.CultureInfo.InvariantCulture)))} %");
        Assert.Equal(20, rows.Length);
        Assert.True(misses.Count == 0, string.Join("\n", misses));
    }

    [Fact]
    public void Without_a_reservoir_the_mean_and_the_ripple_are_those_of_the_cut_sine()
    {
        // Source: power-supply-checks.csv, rows no-filter G-041 to G-044.
        var (half, full) = (Solve("half-wave", 1e-6, 0).Nodes[1], Solve("full-wave", 1e-6, 0).Nodes[1]);
        var aims = Checks.Of("no-filter").ToDictionary(r => (r["inputs"], r["quantity"]), r => Checks.Number(r["value"]));
        Assert.Equal(aims[("resistive load, half-wave", "Vdc/Vpeak")], half.Average / Peak, 1e-4);
        Assert.Equal(aims[("resistive load, full-wave", "Vdc/Vpeak")], full.Average / Peak, 1e-4);
        Assert.Equal(aims[("resistive load, half-wave", "ripple rms/Vdc")], half.RippleRms / half.Average, 1e-3);
        Assert.Equal(aims[("resistive load, full-wave", "ripple rms/Vdc")], full.RippleRms / full.Average, 1e-3);
    }

    [Fact]
    public void The_sawtooth_rule_errs_as_much_as_the_rows_say()
    {
        var rows = 0;
        foreach (var row in Checks.Of("ripple-formula").Where(r => r["quantity"] == "formula/exact ripple ratio"))
        {
            var wCR = Checks.Number(row["inputs"].Split(' ')[0]["wCR=".Length..]);
            var b = Solve(row["circuit"], wCR, 0.02 * Load).Nodes[1];
            var pulses = row["circuit"] == "half-wave" ? 1 : 2;
            var rule = 2 * Math.PI / (2 * Math.Sqrt(3) * pulses * wCR);
            Assert.Equal(Checks.Number(row["value"]), rule / (b.RippleRms / b.Average), 0.005 * Checks.Number(row["value"]));
            rows++;
        }
        Assert.Equal(10, rows);
    }

    private static void Compare(Dictionary<string, string> row, string column, double value, int at, List<string> misses, double[] worst, double most = 0.001)
    {
        if (row[column].Length == 0) return;
        var aim = Checks.Number(row[column]);
        // The rows are printed to four decimals (three for ripple and currents).
        var rounding = column == "vdc_over_vpeak" ? 5e-5 : 5e-4;
        var error = Math.Max(Math.Abs(value - aim) - rounding, 0) / aim;
        worst[at] = Math.Max(worst[at], error);
        if (error > most) misses.Add(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{row["id"]} {column}: {value:g5} against {aim}"));
    }
}

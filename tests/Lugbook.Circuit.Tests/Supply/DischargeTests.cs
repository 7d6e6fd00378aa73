using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests.Supply;

/// <summary>Source: data/reference/power-supply-checks.csv, rows discharge and stored-energy: t = RC·ln(V0/V1), E = CV²/2.</summary>
public partial class DischargeTests
{
    [Fact]
    public void Every_row_of_discharge_times_is_met()
    {
        var rows = 0;
        foreach (var row in Checks.Of("discharge"))
        {
            if (Row().Match(row["inputs"]) is not { Success: true } m) continue;
            double Field(string name) => double.Parse(m.Groups[name].Value, CultureInfo.InvariantCulture);
            var result = Of(Field("c") * 1e-6, Field("r") * 1e3, Field("from"), Field("to"));
            Assert.Equal(Checks.Number(row["value"]), result.Seconds[1]!.Value, 1e-4 * Checks.Number(row["value"]));
            rows++;
        }
        Assert.Equal(9, rows);
    }

    [Fact]
    public void What_leaves_the_capacitor_is_found_in_the_resistor()
    {
        var result = Of(40e-6, 2200, 400, 5);
        var left = 40e-6 / 2 * Math.Pow(result.Course.CapacitorVolts["C"], 2);
        Assert.Equal(3.2, left + result.Joules.Single(j => j.Element == "R").Joules, 0.01);
    }

    [Fact]
    public void A_warm_valve_drains_the_reservoir_and_a_cold_one_leaves_it_charged()
    {
        var network = new Network(["common", "B+"], 0,
        [
            new Mains("M", 1, 0, 230, 50, 10), new Capacitor("C", 1, 0, 32e-6, 0, 50e6), new Diode("V", 1, 0, DiodeLaw.Vacuum(20, 0.05)),
        ]);
        var start = ImmutableDictionary<string, double>.Empty.Add("C", 300);
        var warm = Discharge.Of(network, [1], new() { CapacitorVolts = start, ValvesCold = false });
        var cold = Discharge.Of(network, [1], new() { CapacitorVolts = start, ValvesCold = true });
        Assert.InRange(warm.Seconds[1]!.Value, 1e-4, 1);
        // Only the capacitor's own leakage is left.
        Assert.Equal(32e-6 * 50e6 * Math.Log(5), cold.Seconds[1]!.Value, 0.5);
    }

    [Fact]
    public void Every_diode_that_needs_heat_blocks_when_cold_whatever_its_exponent()
    {
        // A fitted exponent, and leakage that an old rectifier's base adds: still a vacuum diode. A dry one conducts.
        var law = DiodeLaw.Vacuum(20, 0.05) with { Exponent = 1.4, LeakOhms = 1e9 };
        double? Seconds(DiodeLaw of, bool cold) => Discharge.Of(new(["common", "B+"], 0, [new Capacitor("C", 1, 0, 10e-6, 0, 50e6), new Diode("D", 1, 0, of)]), [1],
            new() { CapacitorVolts = ImmutableDictionary<string, double>.Empty.Add("C", 300), ValvesCold = cold }).Seconds[1];
        Assert.True(Seconds(law, true) > 100);
        Assert.True(Seconds(law, false) < 1);
        Assert.True(Seconds(DiodeLaw.Silicon(), true) < 1);
    }

    [Fact]
    public void What_does_not_discharge_in_time_has_no_time() =>
        Assert.Null(Discharge.Of(new(["common", "B+"], 0, [new Capacitor("C", 1, 0, 1e-6, 0, 1e12), new Resistor("R", 1, 0, 1e12)]), [1],
            new() { CapacitorVolts = ImmutableDictionary<string, double>.Empty.Add("C", 300), MostSeconds = 10 }).Seconds[1]);

    private static DischargeResult Of(double farads, double ohms, double from, double to) =>
        Discharge.Of(new(["common", "B+"], 0, [new Capacitor("C", 1, 0, farads), new Resistor("R", 1, 0, ohms)]), [1],
            new() { CapacitorVolts = ImmutableDictionary<string, double>.Empty.Add("C", from), BelowVolts = to });

    [GeneratedRegex(@"^C=(?<c>[\d.]+) uF (R=|discharged by )(?<r>[\d.]+) kohm.* from (?<from>\d+) V to (?<to>\d+) V")]
    private static partial Regex Row();
}

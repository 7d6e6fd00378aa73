using System.Globalization;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Time;

namespace Lugbook.Circuit.Tests.Time;

/// <summary>Source: data/reference/power-supply-checks.csv, rows lamp-law, tungsten, thermistor (each with its own source).</summary>
public class HeatTests
{
    [Fact]
    public void Lamps_follow_the_published_rerating_law()
    {
        var lamp = new Filament("L", 1, 0, 120, 0.5, 0.07, 0);
        var checkedRows = 0;
        foreach (var row in Supply.Checks.Of("lamp-law").Where(r => r["quantity"] == "I/Irated"))
        {
            var share = double.Parse(row["inputs"].Split(['=', ','])[1], CultureInfo.InvariantCulture);
            if (share < 0.2) continue;
            var course = Transient.Of(new Network(["common", "a"], 0, [new Battery("B", 1, 0, 120 * share, 1e-3), lamp]), 20, new() { Currents = ["L"] });
            Assert.Equal(Supply.Checks.Number(row["value"]), course.Currents["L"][^1] / 0.5, 0.05 * Supply.Checks.Number(row["value"]));
            checkedRows++;
        }
        Assert.True(checkedRows >= 5);
    }

    [Fact]
    public void Resistivity_follows_the_tungsten_table_within_two_per_cent()
    {
        var rows = Supply.Checks.Of("tungsten").Where(r => r["inputs"].StartsWith("T=", StringComparison.Ordinal)).ToArray();
        Assert.True(rows.Length > 10);
        foreach (var row in rows)
        {
            var kelvin = double.Parse(row["inputs"][2..^2], CultureInfo.InvariantCulture);
            var table = Supply.Checks.Number(row["value"]);
            Assert.Equal(table, Math.Pow(kelvin / 300, Heat.ResistivityPower), 0.02 * table);
        }
    }

    [Fact]
    public void Thermistors_follow_the_beta_law()
    {
        var rows = Supply.Checks.Of("thermistor").Where(r => r["inputs"].StartsWith("R25=", StringComparison.Ordinal)).ToArray();
        Assert.True(rows.Length > 2);
        foreach (var row in rows)
        {
            var words = row["inputs"].Split('=', ' ');
            double Word(int k) => double.Parse(words[k], CultureInfo.InvariantCulture);
            var ohms = Heat.Ohms(new Thermistor("T", 1, 0, Word(1), Word(4), 1e-3, 1), Word(7) - 25);
            Assert.Equal(Supply.Checks.Number(row["value"]), ohms, 1e-3 * Supply.Checks.Number(row["value"]));
        }
    }

    [Fact]
    public void A_cold_heater_takes_about_seven_times_its_current_and_settles_at_its_rating()
    {
        // Source: power-supply-checks.csv G-182: a heater's hot resistance is about 7 times its cold one.
        var network = new Network(["common", "a"], 0, [new Battery("B", 1, 0, 6.3, 1e-3), new Filament("H", 1, 0, 6.3, 0.3, 1 / 7.0, 8)]);
        var course = Transient.Of(network, 80, new() { Currents = ["H"] });
        Assert.Equal(2.1, course.Currents["H"][0], 0.01);
        Assert.Equal(0.3, course.Currents["H"][^1], 0.0003);
        var half = course.Seconds[course.Currents["H"].Select((a, k) => (a, k)).First(x => x.a < 0.6).k];
        Assert.InRange(half, 2, 16);
    }

    [Fact]
    public void The_last_of_the_warming_goes_by_the_stated_time_constant()
    {
        // Closed form: behind a source of the heater's own hot resistance its power does not change to first order, so the rest of the way is one exponential.
        var network = new Network(["common", "a"], 0, [new Battery("B", 1, 0, 12.6, 21), new Filament("H", 1, 0, 6.3, 0.3, 1 / 7.0, 8)]);
        var course = Transient.Of(network, 90, new() { LongestStep = 0.05 });
        double Off(double t) => 6.3 - course.Volts[course.Seconds.Select((s, k) => (s, k)).First(x => x.s >= t).k][1];
        Assert.Equal(8, 8 / Math.Log(Off(72) / Off(80)), 0.1);
    }
}

using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Tests.Time;

/// <summary>Source: the operating point as the end of warming; the no-load peak √2·V of power-supply-checks.csv (row peak) as its beginning.</summary>
public class WarmUpTests
{
    private static readonly TriodeLaw Law = new(20, 3e-4, 1.5, 0.5, 0.5, 0.002, 1e-4, 0.5, 0.2);

    [Fact]
    public void A_valve_draws_nothing_cold_and_its_operating_current_warm()
    {
        Network network = new(["common", "B+", "plate", "heater"], 0,
        [
            new Battery("B", 1, 0, 300, 1), new Resistor("R", 1, 2, 10e3), new Triode("V", 2, 0, 0, Law),
            new Battery("A", 3, 0, 6.3, 1e-3), new Filament("H", 3, 0, 6.3, 0.3, 1 / 7.0, 8),
        ]);
        var course = Transient.Of(network, 120, new() { Heaters = ImmutableDictionary<string, string>.Empty.Add("V", "H") });
        Assert.Equal(300, course.Volts[0][2], 0.01);
        var settled = OperatingPoint.Of(network).Volts[2];
        Assert.True(settled < 250);
        Assert.Equal(settled, course.Volts[^1][2], 0.002 * settled);
        // From memory: an indirectly heated valve plays after 10 to 30 s.
        var half = course.Seconds[course.Volts.Select((v, k) => (v, k)).First(x => x.v[2] < (300 + settled) / 2).k];
        Assert.InRange(half, 4, 30);
    }

    [Fact]
    public void A_silicon_rectifier_overshoots_before_the_valves_draw()
    {
        Network network = new(["common", "B+", "line", "heater"], 0,
        [
            new Mains("M", 2, 0, 230, 50, 100), new Diode("D", 2, 1, DiodeLaw.Silicon()), new Capacitor("C", 1, 0, 32e-6), new Resistor("R", 1, 0, 220e3),
            new Triode("V", 1, 0, 0, Law), new Battery("A", 3, 0, 6.3, 1e-3), new Filament("H", 3, 0, 6.3, 0.3, 1 / 7.0, 2),
        ]);
        var course = Transient.Of(network, 12, new() { RelativeTolerance = 1e-4, Heaters = ImmutableDictionary<string, string>.Empty.Add("V", "H") });
        Assert.InRange(course.Volts.Max(v => v[1]), 315, 326);
        var steady = Lugbook.Circuit.Supply.SteadyState(network).Nodes[1];
        Assert.True(steady.Average < 310);
        Assert.InRange(course.Volts[^1][1], steady.Lowest - 1, steady.Highest + 1);
    }

    [Fact]
    public void A_heater_that_does_not_exist_is_named() =>
        Assert.Contains("'H9'", Assert.Throws<ArgumentException>(() => Transient.Of(
            new(["common", "a"], 0, [new Triode("V", 1, 0, 0, Law), new Resistor("R", 1, 0, 1)]), 1, new() { Heaters = ImmutableDictionary<string, string>.Empty.Add("V", "H9") })).Message, StringComparison.Ordinal);
}

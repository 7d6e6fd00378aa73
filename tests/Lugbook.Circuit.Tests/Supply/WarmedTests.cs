using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using CircuitSupply = Lugbook.Circuit.Supply;

namespace Lugbook.Circuit.Tests.Supply;

/// <summary>A set as warm as the line lets its heaters be.</summary>
public class WarmedTests
{
    private static readonly ImmutableDictionary<string, string> Heaters = ImmutableDictionary<string, string>.Empty.Add("V", "heater");

    /// <summary>A half-wave rectifier valve that feeds 10 kΩ, its heater on the line through nothing; optionally a lamp before both.</summary>
    private static Network HalfWave(double share, double? lampWatts = null)
    {
        List<Element> elements =
        [
            new Mains("line", lampWatts is null ? 1 : 3, 0, 117 * share, 60, 0.4),
            new Filament("heater", 1, 0, 117, 0.15, 1 / 7.0, 8),
            new Diode("V", 1, 2, DiodeLaw.Vacuum(15, 0.07)),
            new Capacitor("C", 2, 0, 40e-6),
            new Resistor("R", 2, 0, 10e3),
        ];
        if (lampWatts is { } w) elements.Add(new Filament("lamp", 3, 1, 117, w / 117, 1 / 14.0, 0));
        return new(["0", "ac", "plus", "in"], 0, elements);
    }

    /// <summary>Source: the cycle itself: at rated heat nothing is changed.</summary>
    [Fact]
    public void At_the_rated_line_a_warm_set_is_the_warm_set()
    {
        var warm = Warmed.Of(HalfWave(1), Heaters);
        Assert.InRange(warm.Emission["V"], 0.98, 1.02);
        Assert.Equal(1, warm.HeaterShare["heater"], 0.01);
        Assert.Equal(CircuitSupply.SteadyState(HalfWave(1), new() { StepsPerCycle = 256 }).Nodes[2].Average, warm.Cycle.Nodes[2].Average, 0.5);
    }

    /// <summary>Source: common practice: a rectifier valve passes nearly nothing at a low line, and comes all at once.</summary>
    [Fact]
    public void At_a_fifth_of_the_line_a_rectifier_valve_passes_nearly_nothing()
    {
        var low = Warmed.Of(HalfWave(0.2), Heaters);
        Assert.InRange(low.Emission["V"], 0, 5e-3);
        Assert.InRange(low.Cycle.Nodes[2].Average, 0, 0.15 * 1.414 * 117 * 0.2);
        double last = 0;
        foreach (var share in new[] { 0.4, 0.55, 0.7, 0.85, 1 })
        {
            var volts = Warmed.Of(HalfWave(share), Heaters).Cycle.Nodes[2].Average;
            Assert.True(volts > last);
            last = volts;
        }
    }

    /// <summary>Law: where the search begins does not change what it finds.</summary>
    [Fact]
    public void A_state_that_is_near_leads_to_the_same_answer()
    {
        var (near, lamp) = (Warmed.Of(HalfWave(1), Heaters), HalfWave(1, 40));
        var (cold, begun) = (Warmed.Of(lamp, Heaters), Warmed.Of(lamp, Heaters, near: near));
        Assert.Equal(cold.Cycle.Nodes[2].Average, begun.Cycle.Nodes[2].Average, 0.01 * cold.Cycle.Nodes[2].Average);
        Assert.Equal(cold.HeaterShare["heater"], begun.HeaterShare["heater"], 0.01);
    }

    /// <summary>Law: the warming ends where the lasting state is, and heaters begin cold: a seventh of the resistance, so much more current.</summary>
    [Fact]
    public void The_warming_ends_in_the_state_that_lasts()
    {
        var network = HalfWave(1, 60);
        var course = Warming.Of(network, Heaters, Warming.UsualSeconds, stop: TestContext.Current.CancellationToken);
        var rest = Warmed.Of(network, Heaters);
        Assert.Equal(rest.Cycle.Nodes[2].Average, course[^1].State.Cycle.Nodes[2].Average, 0.03 * rest.Cycle.Nodes[2].Average);
        Assert.True(course[0].State.Cycle.Nodes[2].Average < 1);
        Assert.True(course[0].State.Emission["V"] < 1e-6);
        Assert.True(course[0].HeaterVolts["heater"] < 0.6 * course[^1].HeaterVolts["heater"]);
        Assert.True(course.Zip(course.Skip(1)).All(p => p.Second.State.Emission["V"] >= p.First.State.Emission["V"] - 0.02));
    }

    [Fact]
    public void A_heater_that_is_not_there_is_named()
    {
        var fault = Assert.Throws<ArgumentException>(() => Warmed.Of(HalfWave(1), ImmutableDictionary<string, string>.Empty.Add("V", "none")));
        Assert.Contains("none", fault.Message, StringComparison.Ordinal);
    }
}

using CsCheck;
using Lugbook.Restoration.Wake;

namespace Lugbook.Restoration.Tests.Wake;

/// <summary>Limits between healthy and faulty. Source: their own law.</summary>
public class StopLimitsTests
{
    private static readonly Watched Amperes = new("line-a", "current from the line", "A", true, null);

    private static readonly Gen<double[]> Samples = Gen.Double[0.9, 1.1].Array[8, 60];

    [Fact]
    public void A_limit_lies_beyond_every_healthy_set_and_short_of_the_fault_it_is_set_against() =>
        Gen.Select(Samples, Gen.Double[0.05, 500], Gen.Double[1.5, 8], Gen.Double[0, 0.6]).Sample((shares, nominal, more, less) =>
        {
            double[] healthy = [.. shares.Select(s => s * nominal)];
            var e = StopLimits.Of(Amperes with { Unit = nominal > 50 ? "V" : "A" }, nominal, healthy, [("short", nominal * more), ("open", nominal * less)]);
            Assert.True(e.StopAbove > e.High && e.StopAbove <= nominal * more);
            if (e.StopBelow is { } below) Assert.True(below < e.Low && below >= nominal * less - 1e-9);
            Assert.All(healthy, h => Assert.False(h > e.StopAbove || h < e.StopBelow));
            Assert.True(e.Margin > 0);
        });

    [Fact]
    public void Without_a_fault_that_shows_there_is_no_limit()
    {
        var e = StopLimits.Of(Amperes, 0.5, [0.48, 0.49, 0.5, 0.51, 0.52], [("quiet fault", 0.505)]);
        Assert.Null(e.StopAbove);
        Assert.Null(e.StopBelow);
        Assert.Contains("No serious fault", e.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_supply_below_common_is_held_by_its_size()
    {
        var e = StopLimits.Of(new("lug", "bias", "V", false, "A-1"), -20, [-19, -20, -21, -20.5], [("open", -45), ("short", -1)]);
        Assert.True(e.StopBelow < e.Low && e.StopBelow > -45);
        Assert.True(e.StopAbove > e.High && e.StopAbove < -1);
    }

    [Fact]
    public void What_should_be_nothing_may_be_a_few_volts()
    {
        var e = StopLimits.Of(new("lug", "supply", "V", false, "A-1"), 0.3, [0.2, 0.3], [("rectifier shorted", 160)]);
        Assert.True(e.High >= 1 && e.StopAbove > e.High && e.StopAbove < 160);
    }

    [Theory]
    [InlineData(0.02, "dark")]
    [InlineData(1.0, "full brightness")]
    public void A_lamp_looks_as_its_volts_make_it(double share, string words) => Assert.Equal(words, Lamps.Glow(share));
}

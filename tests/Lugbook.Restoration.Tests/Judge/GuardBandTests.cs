using Lugbook.Restoration.Judge;
using Lugbook.Trade.Meters;

namespace Lugbook.Restoration.Tests.Judge;

/// <summary>Worked examples of guard bands.</summary>
public class GuardBandTests
{
    // A published hand-meter statement: ±(0.8 % + 2 digits) on the 200 kΩ range, digit 100 Ω.
    private static readonly MeterScale Scale = new([200e3], 0.008, 0, 2, 2000);

    /// <summary>Source: data/reference/measurement-checks.md, section 2, table (47 kΩ, g = 1.65 u): the ends of what is proved, rounded to 10 Ω.</summary>
    [Theory]
    [InlineData(0.10, 42.83, 51.11, 41.78, 52.30)]
    [InlineData(0.20, 38.09, 55.77, 37.12, 57.04)]
    public void The_zones_of_the_worked_table_are_met(double tolerance, double keptFrom, double keptTo, double outBelow, double outAbove)
    {
        var (low, high) = (47e3 * (1 - tolerance), 47e3 * (1 + tolerance));
        Verdict At(double kilohms) => GuardBand.Decide(kilohms * 1e3, Scale.Uncertainty(kilohms * 1e3), low, high);
        Assert.Equal(Verdict.Within, At(keptFrom));
        Assert.Equal(Verdict.Within, At(keptTo));
        Assert.Equal(Verdict.Undecided, At(keptFrom - 0.03));
        Assert.Equal(Verdict.Undecided, At(keptTo + 0.03));
        Assert.Equal(Verdict.Outside, At(outBelow));
        Assert.Equal(Verdict.Outside, At(outAbove));
        Assert.Equal(Verdict.Undecided, At(outBelow + 0.03));
        Assert.Equal(Verdict.Undecided, At(outAbove - 0.03));
    }

    /// <summary>Source: the same section: 47 kΩ ±10 %: 51.0 kΩ is within with probability 0.977, 51.5 kΩ 0.714, 52.0 kΩ 0.199, 52.5 kΩ 0.013.</summary>
    [Theory]
    [InlineData(51.0, 0.977)]
    [InlineData(51.5, 0.714)]
    [InlineData(52.0, 0.199)]
    [InlineData(52.5, 0.013)]
    public void The_probability_of_conformance_is_the_worked_one(double kilohms, double probability) =>
        Assert.Equal(probability, GuardBand.Conformance(kilohms * 1e3, Scale.Uncertainty(kilohms * 1e3), 42.3e3, 51.7e3), 0.001);

    /// <summary>Source: JCGM 106 as remembered in the same section: measured -5.47 V, u = 0.05 V, limit -5.40 V or lower: 0.919.</summary>
    [Fact]
    public void The_example_of_a_breakdown_voltage_is_met() =>
        Assert.Equal(0.919, GuardBand.Conformance(-5.47, 0.05 * Math.Sqrt(3), double.NegativeInfinity, -5.40), 0.001);

    /// <summary>Source: the same section: capacitor 50 nF ±20 %, meter ±(3 % + 5 digits of 0.1 nF): kept 41.75 to 57.77 nF, condemned below 38.35 or above 62.37, there with the whole statement as guard; ours is 5 % narrower.</summary>
    [Theory]
    [InlineData(41.77, Verdict.Within)]
    [InlineData(57.75, Verdict.Within)]
    [InlineData(41.5, Verdict.Undecided)]
    [InlineData(38.33, Verdict.Outside)]
    [InlineData(62.40, Verdict.Outside)]
    [InlineData(62.0, Verdict.Undecided)]
    public void The_worked_capacitor_is_judged_so(double nanofarads, Verdict verdict) =>
        Assert.Equal(verdict, GuardBand.Decide(nanofarads, 0.03 * nanofarads + 0.5, 40, 60));

    /// <summary>Source: 3 % of 250 V is 7.5 V anywhere on the range (section 5 of the same file).</summary>
    [Fact]
    public void A_pointers_error_is_a_share_of_the_range() => Assert.Equal(7.5, new MeterScale([250], 0, 0.03).Uncertainty(85), 12);
}

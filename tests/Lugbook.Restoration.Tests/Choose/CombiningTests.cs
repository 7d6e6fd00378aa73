using CsCheck;
using Lugbook.Restoration.Choose;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>Two parts in the place of one. Laws: parallel capacitors add, series ones add reciprocally and share volts inversely to their capacitance; resistors the other way round.</summary>
public class CombiningTests
{
    private static readonly Gen<(double Value, double Volts)> Caps = Gen.Select(Gen.Double[-9.5, -4.5], Gen.Double[20, 2500], (e, v) => (Math.Pow(10, e), Math.Round(v)));

    [Fact]
    public void Every_pair_of_capacitors_is_what_it_says_and_bears_what_is_asked() => Caps.Sample((value, volts) =>
    {
        var choice = Shop.Alone("capacitor", value, volts, 2);
        if (choice.Candidates is not [{ Parts.Length: 2 } pair, ..]) return true;
        var (a, b) = (pair.Parts[0].Value, pair.Parts[1].Value);
        var whole = pair.Joining == Joining.Parallel ? a + b : a * b / (a + b);
        var t = pair.TolerancePercent!.Value / 100;
        var share = pair.Joining == Joining.Parallel ? 1 : (1 + t) / 2;
        return Math.Abs(pair.Value / whole - 1) < 1e-9 && choice.Requirement.Value!.Holds(whole)
            && pair.Parts.All(p => p.Volts >= choice.Requirement.VoltsAtLeast * share - 1e-9)
            && (pair.Joining == Joining.Parallel) == (pair.Balancer is null);
    }, iter: 2000);

    [Fact]
    public void Every_pair_of_resistors_is_what_it_says_and_bears_what_is_asked() => Gen.Select(Gen.Double[0, 7.3], Gen.Double[0.25, 60]).Sample((e, watts) =>
    {
        var choice = Shop.Alone("resistor", Math.Pow(10, e), null, 5, Math.Round(watts, 2));
        if (choice.Candidates is not [{ Parts.Length: 2 } pair, ..]) return true;
        var (a, b) = (pair.Parts[0].Value, pair.Parts[1].Value);
        var whole = pair.Joining == Joining.Series ? a + b : a * b / (a + b);
        var larger = Math.Max(a, b) / (a + b);
        return Math.Abs(pair.Value / whole - 1) < 1e-9 && choice.Requirement.Value!.Holds(whole) && pair.Parts[0].Watts / larger >= choice.Requirement.WattsAtLeast - 1e-9
            && (pair.Joining == Joining.Series ? pair.Parts[0].Volts / larger : pair.Parts[0].Volts) >= choice.Requirement.VoltsAtLeast - 1e-9;
    }, iter: 1000);

    // Source: the project's notes on electrolytics in series: 2 × 100 µF 450 V on 700 V give 1.9 MΩ by the formula, in practice at most 470 kΩ.
    [Fact]
    public void An_electrolytic_pair_for_a_high_supply_gets_resistors_that_share_the_voltage()
    {
        var choice = Shop.Alone("electrolytic", 47e-6, 700);
        var pair = choice.Candidates[0];
        Assert.Equal(Joining.Series, pair.Joining);
        Assert.All(pair.Parts, p => Assert.Equal(100e-6, p.Value, 12));
        Assert.Equal(470e3, pair.Balancer!.Ohms);
        Assert.True(pair.Balancer.Watts >= 2 * 350 * 350 / 470e3);
    }
}

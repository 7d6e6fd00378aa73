using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Bounds;

namespace Lugbook.Restoration.Tests.Bounds;

/// <summary>What positions bear.</summary>
public class BoundsTests
{
    private static readonly Lazy<BoundsResult> Amp = new(() => BoundsStage.Run(Solved.Demo("amp")));

    /// <summary>Source: the bound's own definition, solved again: with that leak the valve named carries a tenth more, with half as much leakage less than that.</summary>
    [Fact]
    public void A_coupling_capacitors_bound_is_where_its_leak_moves_a_valve_by_a_tenth()
    {
        var solved = Solved.Demo("amp");
        var bound = Amp.Value.Of("C6")!;
        Assert.Equal("valve-current", bound.LeakLimit!.Kind);
        var valves = solved.Netlist.Valves.Where(v => v.Valve == bound.LeakLimit.Place).Select(v => v.Element).ToArray();
        double Moved(double leak) => valves.Max(v => Math.Abs(Current(leak, v) / Current(double.PositiveInfinity, v) - 1));
        Assert.InRange(Moved(bound.LeakOhms!.Value), 0.099, 0.106);
        Assert.InRange(Moved(2 * bound.LeakOhms.Value), 0.02, 0.09);

        double Current(double leak, string valve)
        {
            var network = solved.Direct!.With(((Capacitor)solved.Direct.Elements.Single(x => x.Name == "C6")) with { LeakOhms = leak });
            return -Currents.Into(network.Elements.Single(x => x.Name == valve), OperatingPoint.Of(network).Volts.AsSpan())[^1].Amperes;
        }
    }

    [Fact]
    public void The_twin_of_a_position_bears_as_much() => Assert.InRange(Amp.Value.Of("C6")!.LeakOhms!.Value / Amp.Value.Of("C7")!.LeakOhms!.Value, 0.8, 1.25);

    /// <summary>Source: the rule that a bypass should insulate at least twenty times what feeds it (replacement-practice.md, section 7) is of the size of what is computed for a screen's bypass.</summary>
    [Fact]
    public void A_screens_bypass_bears_about_what_the_rule_of_thumb_says()
    {
        var bound = Amp.Value.Of("C3")!;                  // fed through R3, 1 MΩ: the rule asks for 20 MΩ, and is cautious
        Assert.InRange(bound.LeakOhms!.Value, 0.2e6, 20e6);
    }

    [Fact]
    public void A_cathode_resistor_may_drift_less_far_than_a_grid_leak()
    {
        var (cathode, leak) = (Amp.Value.Of("R16")!, Amp.Value.Of("R13")!);
        Assert.InRange(cathode.Up!.Share, 1.05, 1.6);
        Assert.Null(leak.Up);
    }

    [Fact]
    public void A_book_that_is_not_solved_says_why() =>
        Assert.NotNull(BoundsStage.Run(Solved.Of(Lugbook.Trade.Book.Empty("x", "X"))).Reason);
}

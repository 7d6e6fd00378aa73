using Lugbook.Restoration.Bounds;

namespace Lugbook.Restoration.Tests.Bounds;

/// <summary>What positions bear.</summary>
public class BoundsTests
{
    private static readonly Lazy<BoundsResult> Amp = new(() => BoundsStage.Run(Solved.Demo("amp")));

    /// <summary>Source: data/reference/replacement-practice.md, section 7: a coupling leak shifts the grid by V·Rg/(Rg + Rleak); the bound must be where that shift moves the valve's current by a tenth.</summary>
    [Fact]
    public void A_coupling_capacitors_bound_is_where_its_leak_moves_the_output_valve_by_a_tenth()
    {
        var solved = Solved.Demo("amp");
        var bound = Amp.Value.Of("C6")!;
        Assert.Equal("valve-current", bound.LeakLimit!.Kind);
        Assert.Equal("V3", bound.LeakLimit.Place);
        var leak = bound.LeakOhms!.Value;
        // R13 and R15 in series are the grid's way to common: 350 kΩ by the book.
        var shift = solved.Volts("V2-5") * 350e3 / (350e3 + leak);
        // 6V6 at some 4 mA/V less what its cathode resistor takes back: a tenth of 35 mA needs one to three volts. Source of 4 mA/V: handbook line in data/valves.
        Assert.InRange(shift, 0.5, 6);
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

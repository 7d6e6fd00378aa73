using CsCheck;
using Lugbook.Restoration.Wake;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Tests.Wake;

/// <summary>Re-forming. Sources: rules of re-forming practice as docs/wake.md lists them, and closed forms.</summary>
public class ReformingTests
{
    private static readonly string Can = DemoBooks.Named("amp").Parts.First(p => p.Kind == PartKind.Electrolytic && p.RatedVolts >= 350).Name;

    private static Reforming Plan(ReformingWith with) => WakeStage.Reform(Solved.Demo("amp"), Can, with);

    /// <summary>Source: V²/R in the resistor, V²/4R in the capacitor at most; 0.2 W in a can: docs/wake.md.</summary>
    [Fact]
    public void At_350_V_the_smallest_resistor_is_taken_that_keeps_both_cool()
    {
        var plan = Plan(new() { SupplyVolts = 350 });
        Assert.Null(plan.Reason);
        Assert.Equal(220e3, plan.Ohms);
        Assert.Equal(350 * 350 / 220e3, plan.ShortWatts, 1e-9);
        Assert.Equal(plan.ShortWatts / 4, plan.MostCapacitorWatts, 1e-9);
        Assert.Equal(plan.Ohms * plan.Farads * Math.Log(350 / 5.0), plan.DischargeSeconds, 1e-6);
    }

    /// <summary>Source: a published rule: 5 minutes, 1 more for each month, at about 30 kΩ; out with a tenth of the volts after an hour.</summary>
    [Fact]
    public void Through_30_k_the_published_rule_comes_out()
    {
        var plan = Plan(new() { SupplyVolts = 300, Ohms = [30e3], ResistorWatts = 5, Months = 10 });
        Assert.Equal(15, plan.GiveUpMinutes);
        Assert.Equal(60, Plan(new() { SupplyVolts = 300, Ohms = [30e3], ResistorWatts = 5 }).GiveUpMinutes);
        Assert.True(plan.PassVolts <= 30 + 1e-9);
        Assert.Contains(plan.Cautions, c => c.Contains("too small", StringComparison.Ordinal));
    }

    [Fact]
    public void A_sound_one_is_never_stopped_and_passes_in_time() =>
        Gen.Select(Gen.Double[20, 350], Gen.Double[30e3, 1e6], Gen.Double[0, 700]).Sample((volts, ohms, months) =>
        {
            var plan = Plan(new() { SupplyVolts = volts, Ohms = [ohms], ResistorWatts = 10, Months = months });
            Assert.True(plan.Course.Zip(plan.Course.Skip(1)).All(p => p.Second.Amperes < p.First.Amperes && p.Second.MostResistorVolts < p.First.MostResistorVolts));
            if (plan.MostCapacitorWatts > 0.2 || 10 * plan.Ohms * plan.Farads / 60 > 0.5 * plan.GiveUpMinutes) return;
            var judged = WakeStage.Judged(plan, [.. plan.Course.Select(m => (m.Minutes, m.ResistorVolts))]);
            Assert.DoesNotContain(judged, j => j.Verdict is ReformingVerdict.Stop);
        }, iter: 200);

    [Fact]
    public void A_short_a_rising_current_and_lost_time_are_told_apart()
    {
        var plan = Plan(new() { SupplyVolts = 350 });
        ReformingVerdict Last(params (double, double)[] readings) => WakeStage.Judged(plan, [.. readings])[^1].Verdict;
        Assert.Equal(ReformingVerdict.Stop, Last((60, 345)));
        Assert.Equal(ReformingVerdict.Stop, Last((60, 150), (90, 200)));
        Assert.Equal(ReformingVerdict.GiveUp, Last((plan.GiveUpMinutes, plan.PassVolts * 1.05)));
        Assert.Equal(ReformingVerdict.Passes, Last((200, plan.PassVolts * 0.9)));
        Assert.Equal(ReformingVerdict.GoOn, Last((1, 300)));
        Assert.Equal(ReformingVerdict.Slow, Last((0.95 * plan.GiveUpMinutes, 0.8 * plan.SupplyVolts)));
    }

    [Fact]
    public void More_than_the_rating_is_refused_and_so_is_what_is_no_electrolytic()
    {
        Assert.Contains("rated for", Plan(new() { SupplyVolts = 900 }).Reason, StringComparison.Ordinal);
        Assert.Contains("no part", WakeStage.Reform(Solved.Demo("amp"), "C999", new()).Reason, StringComparison.Ordinal);
        var resistor = DemoBooks.Named("amp").Parts.First(p => p.Kind == PartKind.Resistor).Name;
        Assert.Contains("no electrolytic", WakeStage.Reform(Solved.Demo("amp"), resistor, new()).Reason, StringComparison.Ordinal);
    }
}

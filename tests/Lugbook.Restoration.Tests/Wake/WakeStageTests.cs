using Lugbook.Restoration.Wake;

namespace Lugbook.Restoration.Tests.Wake;

/// <summary>The first power of whole sets. Sources beside each.</summary>
public class WakeStageTests
{
    private static readonly WakeEquipment Few = new() { LampWatts = [25, 60, 150], Samples = 8 };
    private static readonly Lazy<WakeResult> Radio = new(() => WakeStage.Run(Solved.Demo("radio"), Few));

    /// <summary>Source: Kirchhoff and the tungsten law: a larger lamp leaves the set more.</summary>
    [Fact]
    public void A_larger_lamp_leaves_the_set_more_and_lets_a_short_draw_more()
    {
        Assert.Equal(3, Radio.Value.Lamps.Length);
        foreach (var (small, large) in Radio.Value.Lamps.Zip(Radio.Value.Lamps.Skip(1)))
        {
            Assert.True(large.SetVolts > small.SetVolts && large.Amperes > small.Amperes);
            Assert.True(large.ShortAmperes > small.ShortAmperes);
        }
    }

    /// <summary>Source: common practice: in a series string no valve may be pulled; its chassis may be live.</summary>
    [Fact]
    public void A_series_string_set_is_woken_with_all_valves_and_asks_for_isolation()
    {
        Assert.All(Radio.Value.Steps, s => Assert.Empty(s.Out));
        Assert.All(Radio.Value.Steps, s => Assert.Contains("isolating transformer", s.Needs, StringComparison.Ordinal));
        Assert.Equal("Full line", Radio.Value.Steps[^1].Title);
        Assert.Null(Radio.Value.Steps[^1].LampWatts);
    }

    [Fact]
    public void A_shorted_reservoir_is_stopped_before_the_full_line()
    {
        var limited = Radio.Value.Steps.Where(s => s.LampWatts is not null).ToArray();
        Assert.NotEmpty(limited);
        var shorts = limited[0].Faults.Where(f => f.Words.EndsWith("shorted", StringComparison.Ordinal) && f.Position.StartsWith('C')).ToArray();
        Assert.NotEmpty(shorts);
        Assert.All(shorts, f => Assert.True(limited.Any(s => s.Faults.Any(x => x.Words == f.Words && x.Caught)), f.Words));
    }

    [Fact]
    public void The_fault_that_was_made_is_among_the_likeliest()
    {
        var step = Radio.Value.Steps.First(s => s.LampWatts is not null);
        var fault = step.Faults.First(f => f.Caught && !f.Shows.IsEmpty);
        var likely = WakeStage.LikelyAt(step, [.. fault.Shows.Select(v => (double?)v)]);
        Assert.True(likely[0].Off < 1e-9);
        Assert.Contains(likely.TakeWhile(l => l.Off < 0.3), l => l.Fault.Words == fault.Words);
    }

    /// <summary>Source: E = C·V²/2, and t = R·C·ln(V/5 V) through the user's resistor where nothing else drains (docs/supply.md, closed forms).</summary>
    [Fact]
    public void Stores_drain_through_the_users_resistor_as_the_closed_form_says()
    {
        Assert.NotEmpty(Radio.Value.Stores);
        foreach (var store in Radio.Value.Stores.Where(s => s.Below5 is null))
        {
            var farads = 2 * store.Joules / (store.StartVolts * store.StartVolts);
            Assert.True(store.BleederBelow5 >= 2200 * farads * Math.Log(store.StartVolts / 5) * 0.98, store.Position);
        }
    }

    [Fact]
    public void A_book_without_a_line_says_what_is_missing()
    {
        var none = WakeStage.Run(Solved.Of(TestBook.New().Build()), Few, stop: TestContext.Current.CancellationToken);
        Assert.NotNull(none.Reason);
        Assert.Empty(none.Steps);
    }
}

using Lugbook.Restoration.Sheet;
using Lugbook.Trade.Meters;

namespace Lugbook.Restoration.Tests.Sheet;

/// <summary>The set's own voltage sheet.</summary>
public class SheetTests
{
    private static SheetResult Of(string name, Func<SheetConditions, SheetConditions>? change = null)
    {
        var how = SheetConditions.Of(DemoBooks.Named(name), DemoBooks.Handbook) with { Samples = 400 };
        return SheetStage.Run(Solved.Demo(name), change?.Invoke(how) ?? how);
    }

    /// <summary>Source: the sets' own charts, computed by independent programs for these invented sets (data/demo/README.md, which names what remains doubtful).</summary>
    [Theory]
    [InlineData("radio", 0.8)]
    [InlineData("amp", 0.8)]
    [InlineData("tv", 0.75)]
    public void Most_of_the_charts_figures_agree(string name, double share)
    {
        var told = Of(name).Lines.Where(l => l.ChartVolts is not null && l.VoltsAgreement != Agreement.None).ToArray();
        Assert.True(told.Length >= 20);
        var differ = told.Where(l => l.VoltsAgreement == Agreement.Differs).Select(l => l.Lug).ToArray();
        Assert.True(1 - differ.Length / (double)told.Length >= share, $"differ: {string.Join(", ", differ)}");
    }

    /// <summary>Source: the same charts: ohms with the plug out.</summary>
    [Theory]
    [InlineData("radio")]
    [InlineData("amp")]
    public void The_charts_ohms_agree(string name)
    {
        var told = Of(name).Lines.Where(l => l.ChartOhms is not null).ToArray();
        Assert.True(told.Length >= 25);
        Assert.DoesNotContain(told, l => l.OhmsAgreement == Agreement.Differs);
    }

    /// <summary>Source: data/reference/measurement-checks.md, section 1: a meter of 1,000 Ω a volt pulls a plate behind some 200 kΩ down, one of 10 MΩ hardly.</summary>
    [Fact]
    public void An_old_meter_pulls_a_plate_down_and_a_digital_one_hardly()
    {
        SheetLine Plate(string meter) => Of("radio", h => h with { Meter = MeterShelf.Named(meter)! }).Lines.Single(l => l.Lug == "V3-6");
        var (old, digital) = (Plate("pointer-1k"), Plate("digital-10M"));
        Assert.InRange(digital.Meter!.Shown / digital.Volts!.Value, 0.95, 1.0);
        Assert.InRange(old.Meter!.Shown / old.Volts!.Value, 0.1, 0.6);
    }

    /// <summary>Source: heaters follow the line in proportion or less (tungsten); supplies nearly in proportion.</summary>
    [Fact]
    public void A_higher_line_lifts_the_supply_and_the_heaters()
    {
        var (made, high) = (Of("amp"), Of("amp", h => h with { TodayLineShare = 1.07 }));
        double Ratio(string lug) => high.Lines.Single(l => l.Lug == lug).Volts!.Value / made.Lines.Single(l => l.Lug == lug).Volts!.Value;
        Assert.InRange(Ratio("V5-8"), 1.04, 1.09);
        Assert.InRange(Ratio("V3-2"), 1.03, 1.08);
    }

    /// <summary>Source: a filament rectifier delivers the peak before the valves draw (common practice); √2 of the winding's volts at 10 % more line.</summary>
    [Fact]
    public void Before_the_valves_are_warm_the_reservoir_stands_at_the_peak()
    {
        var reservoir = Of("amp").Parts.Single(p => p.Position == "C10A");
        Assert.InRange(reservoir.Volts!.Worst, 0.95 * 300 * Math.Sqrt(2) * 1.1, 1.02 * 300 * Math.Sqrt(2) * 1.1);
        Assert.Contains("cold", reservoir.Volts.Moment, StringComparison.Ordinal);
        Assert.NotNull(reservoir.Over);
    }

    /// <summary>Source: Joule's law at the heater dropper: 0.6 A through 50 Ω are 18 W (the set's own sheet).</summary>
    [Fact]
    public void A_heater_dropper_dissipates_its_alternating_watts() =>
        Assert.InRange(Of("tv").Parts.Single(p => p.Position == "R1").Watts!.Normal, 16, 20);

    [Fact]
    public void The_healthy_spread_holds_the_nominal_figure()
    {
        foreach (var line in Of("amp").Lines.Where(l => l is { Unpredictable: null, Volts: not null }))
            Assert.True(line.Low <= line.Volts + 0.02 && line.High >= line.Volts - 0.02, $"{line.Lug}: {line.Volts} not in {line.Low} to {line.High}");
    }

    [Fact]
    public void A_book_of_values_says_why_it_has_no_sheet()
    {
        var book = Lugbook.Trade.Book.Empty("x", "X");
        Assert.NotNull(SheetStage.Run(Solved.Of(book), SheetConditions.Of(book, DemoBooks.Handbook)).Reason);
    }

    /// <summary>Source: sensitivities and samples are two ways to one number: the parts named as movers explain the spread.</summary>
    [Fact]
    public void The_line_is_named_as_what_moves_a_supply_most()
    {
        var solved = Solved.Demo("amp");
        var movers = SheetStage.MoversOf(solved, solved.Netlist.Map.NodeOf("V5-8")!.Index);
        Assert.Equal("the line", movers[0].Position);
        Assert.InRange(movers[0].Volts, 20, 40);
    }
}

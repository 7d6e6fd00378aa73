using Lugbook.Restoration.Choose;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>Source: common practice, no source, unless a test names one. Values alone, no lugs.</summary>
public class TradeFactsTests
{
    [Theory]
    [InlineData("paper", .005e-6, 600, 4.7e-9, 630)]
    [InlineData("paper", .02e-6, 400, 22e-9, 630)]
    [InlineData("paper", .05e-6, 400, 47e-9, 630)]
    [InlineData("paper", .25e-6, 400, .22e-6, 630)]
    [InlineData("paper", .5e-6, 600, .47e-6, 630)]
    [InlineData("paper", .1e-6, 200, .1e-6, 250)]
    [InlineData("electrolytic", 8e-6, 450, 10e-6, 450)]
    [InlineData("electrolytic", 16e-6, 450, 15e-6, 450)]
    [InlineData("electrolytic", 40e-6, 150, 47e-6, 160)]
    public void An_old_capacitor_takes_todays_value_and_rating(string kind, double farads, double volts, double newFarads, double newVolts)
    {
        var choice = Shop.Alone(kind, farads, volts, kind == "paper" ? 20 : null);
        Assert.Equal(Decision.Goes, choice.Decision);
        Assert.Equal(newFarads, choice.Part!.Value, newFarads * 1e-6);
        Assert.Equal(newVolts, choice.Part.Volts);
    }

    [Fact]
    public void Twenty_microfarads_at_25_V_become_22_at_no_less()
    {
        var part = Shop.Alone("electrolytic", 20e-6, 25, null).Part!;
        Assert.Equal(22e-6, part.Value, 1e-9);
        Assert.InRange(part.Volts!.Value, 25, 63);
    }

    [Fact]
    public void The_explanation_says_what_differs()
    {
        var choice = Shop.Alone("paper", .005e-6, 600);
        Assert.Contains("value −6 %", choice.Explanation, StringComparison.Ordinal);
        Assert.Contains("630 V for 600", choice.Explanation, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("paper", Decision.Goes)]
    [InlineData("electrolytic", Decision.Goes)]
    [InlineData("mica", Decision.Stays)]
    [InlineData("silver mica", Decision.Stays)]
    [InlineData("ceramic", Decision.Stays)]
    [InlineData("film", Decision.Stays)]
    [InlineData("resistor", Decision.MeasureFirst)]
    [InlineData("condenser", Decision.MeasureFirst)]
    public void The_family_decides_unless_the_user_does(string kind, Decision decision) =>
        Assert.Equal(decision, Shop.Alone(kind, kind == "resistor" ? 47e3 : 1e-9, 500, 20, 0.5).Decision);

    [Theory]
    [InlineData(250e3, 240e3)]
    [InlineData(50e3, 51e3)]
    [InlineData(25e3, 24e3)]
    [InlineData(47e3, 47e3)]
    [InlineData(10e6, 10e6)]
    public void A_resistor_takes_the_nearest_E24_value_of_no_less_power(double ohms, double expected)
    {
        var choice = Shop.Alone("resistor", ohms, null, 10, 0.5);
        Assert.Equal(expected, choice.Part!.Value, expected * 1e-6);
        Assert.True(choice.Part.Watts >= 0.5);
    }

    /// <summary>Source: metal film sheet 2017 (300 V for 1/2 W, 350 V for 1 W) and carbon composition sheet 2012 (350 V for 1/2 W).</summary>
    [Fact]
    public void A_megohm_of_half_a_watt_needs_a_body_that_bears_its_voltage()
    {
        var choice = Shop.Alone("resistor", 1e6, null, 10, 0.5);
        Assert.Equal(350, choice.Requirement.VoltsAtLeast);
        Assert.True(choice.Part!.Volts >= 350);
        // 10 k at 1/2 W cannot see more than 71 V without burning: there the small body will do.
        Assert.Equal(0.6, Shop.Alone("resistor", 10e3, null, 10, 0.5).Part!.Watts);
    }

    [Fact]
    public void What_is_not_known_is_asked_and_not_guessed()
    {
        var noValue = Shop.Alone("paper", null, 400);
        Assert.Null(noValue.Part);
        Assert.Contains("value", noValue.Question, StringComparison.Ordinal);
        var noVolts = Shop.Alone("electrolytic", 10e-6, null, null);
        Assert.Null(noVolts.Part);
        Assert.Contains("voltage", noVolts.Question, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_that_fits_is_said_and_what_nearly_fits()
    {
        var choice = Shop.Alone("paper", .05e-6, 5000);
        Assert.Null(choice.Part);
        Assert.Contains("No part of the catalogue fits", choice.Explanation, StringComparison.Ordinal);
        Assert.Contains("not enough", choice.Explanation, StringComparison.Ordinal);
    }

    /// <summary>Source of the currents: 2π·f·C·V; 0.1 µF at 117 V 60 Hz is 4.4 mA, 4.7 nF 0.21 mA, 4.7 nF at 230 V 50 Hz 0.34 mA (computed in the reference notes).</summary>
    [Theory]
    [InlineData(0.1e-6, 117, 60, 4.41)]
    [InlineData(4.7e-9, 117, 60, 0.207)]
    [InlineData(0.01e-6, 117, 60, 0.441)]
    [InlineData(4.7e-9, 230, 50, 0.340)]
    [InlineData(0.1e-6, 230, 50, 7.23)]
    public void Touch_current_is_the_reactance_at_work(double farads, double volts, double hertz, double milliamperes) =>
        Assert.Equal(milliamperes, TouchCurrent.Of(farads, volts, hertz).Milliamperes, milliamperes * 0.005);

    [Fact]
    public void Without_a_map_line_positions_are_asked_for_and_never_assumed_away()
    {
        var quiet = Shop.Choose(Values(Shop.Part("C1", "paper", .05e-6, 400, 20), Shop.Part("C2", "paper", .002e-6, 400, 20), Shop.Part("C3", "paper", .1e-6, 200, 20)));
        Assert.False(quiet.Line.Known);
        Assert.Equal(["C1"], quiet.Line.Candidates);
        Assert.Contains("cannot be told", quiet.Line.Sentence, StringComparison.Ordinal);
        Assert.NotNull(quiet.For("C1")!.Question);
    }

    [Theory]
    [InlineData("across the line after the switch", SafetyClass.X2)]
    [InlineData("line to chassis", SafetyClass.Y1)]
    [InlineData("B- to chassis, RF return", SafetyClass.Y1)]
    [InlineData("mains filter", SafetyClass.X2)]
    [InlineData("aerial isolation", SafetyClass.Y1)]
    [InlineData("AVC line filter", SafetyClass.None)]
    [InlineData("coupling to output grid", SafetyClass.None)]
    [InlineData("line output plate", SafetyClass.None)]
    public void Words_that_speak_of_the_line_ask_for_the_class(string note, SafetyClass asked)
    {
        var choice = Shop.Alone("paper", .05e-6, 400, 20, note: note);
        Assert.Equal(asked, choice.Requirement.SafetyClass);
        Assert.Equal(asked, choice.Part!.SafetyClass);
        Assert.NotNull(choice.Question);
    }

    [Fact]
    public void The_user_overrules_and_the_reason_is_kept()
    {
        var book = Values(Shop.Part("C1", "paper", .02e-6, 400, 20)) with
        {
            Work = Lugbook.Trade.Table<PositionWork>.Of([new() { Name = "C1", Decision = Decision.Stays, Reason = "original, for show" }]),
        };
        var choice = Shop.Choose(book).Choices.Single();
        Assert.Equal(Decision.Stays, choice.Decision);
        Assert.Equal("original, for show", choice.DecisionReason);
        Assert.True(choice.DecidedByUser);
    }

    [Fact]
    public void An_old_oil_capacitor_carries_its_caution() =>
        Assert.Contains(Shop.Alone("oil", 2e-6, 600, 20).Cautions, c => c.Id == "S-pcb");

    [Fact]
    public void The_museum_school_measures_before_it_replaces()
    {
        var map = Lugbook.Restoration.Map.MapStage.Run(Values(Shop.Part("C1", "paper", .02e-6, 400, 20)), DemoBooks.Handbook);
        Assert.Equal(Decision.MeasureFirst, ChooseStage.Run(map, Shop.Policy with { School = School.OnEvidence }).Choices.Single().Decision);
    }

    private static Lugbook.Trade.Book Values(params Lugbook.Trade.Parts.Part[] parts) =>
        Lugbook.Trade.Book.Empty("values", "values only") with { Parts = Lugbook.Trade.Table<Lugbook.Trade.Parts.Part>.Of(parts) };
}

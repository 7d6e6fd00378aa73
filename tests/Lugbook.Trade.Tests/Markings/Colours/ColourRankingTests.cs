using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Markings.Colours;

/// <summary>Source: the tables and the rules Q-01 to Q-09 of data/reference/colour-codes.csv, worked by hand for combinations that are not in it.</summary>
public class ColourRankingTests
{
    [Theory]
    [InlineData("resistor-band", "green blue green gold", 5.6e6, 5)]
    [InlineData("resistor-band", "white brown silver gold", 0.91, 5)]
    [InlineData("resistor-band", "orange black pink", 0.03, 20)]
    [InlineData("resistor-band", "brown grey yellow grey", 180e3, 0.01)]
    [InlineData("resistor-5band", "violet grey violet green yellow", 78.7e6, 0.02)]
    [InlineData("resistor-5band", "blue blue green silver orange", 6.65, 0.05)]
    [InlineData("resistor-6band", "orange red yellow red violet grey", 32.4e3, 0.1)]
    [InlineData("resistor-mil-5", "brown grey green silver yellow", 1.8e6, 10)]
    [InlineData("resistor-mil-5", "green brown orange gold white", 51e3, 5)]
    [InlineData("resistor-body-end-dot", "blue grey none gold", 68e6, 5)]
    [InlineData("resistor-body-end-dot", "grey red gold", 8.2, 20)]
    [InlineData("mica-rma-3", "grey red brown", 820e-12, 20)]
    [InlineData("mica-rma-5", "blue red brown violet gold", 620e-12, 5)]
    [InlineData("mica-rma-5", "orange white gold none white", 3.9e-12, 9)]
    [InlineData("mica-rma-6", "brown violet green blue blue black", 175e-12, 6)]
    [InlineData("mica-rma-6", "green black black none yellow gold", 50e-12, 4)]
    [InlineData("mica-eia-6", "white orange white grey none brown", 390e-12, 20)]
    [InlineData("mica-eia-6", "white black orange green silver black", 3e-12, 10)]
    [InlineData("mica-mil-6", "black violet green white brown silver", 0.75e-12, 1)]
    [InlineData("mica-mil-9", "black orange orange red green red green blue yellow", 3300e-12, 5)]
    [InlineData("paper-mil-6", "none orange white black black orange", 39e-9, 20)]
    [InlineData("ceramic-5", "white green blue black brown", 56e-12, 1)]
    [InlineData("ceramic-6", "violet grey grey red grey grey", 0.82e-12, 30.48780487804878)]
    [InlineData("paper-tubular", "orange white yellow orange grey", 390e-9, 30)]
    [InlineData("paper-tubular", "green blue red gold red green", 5600e-12, 5)]
    [InlineData("paper-tubular", "brown grey orange none blue", 18e-9, 20)]
    [InlineData("film-polyester", "brown black red green brown", 1000e-12, 5)]
    [InlineData("uk-condenser", "red violet black blue white", 27e-12, 6)]
    public void Every_code_reads_combinations_from_its_whole_table(string code, string marking, double value, double percent)
    {
        var result = ColourMarking.Read(marking, new() { ColourCode = code });
        Assert.True(result.Meanings.Any(m => Math.Abs(m.Value / value - 1) < 1e-9 && m.Tolerance is { } t && Math.Abs(t.Plus * 100 / percent - 1) < 1e-9),
            $"{string.Join("; ", result.Meanings.Select(m => $"{m.Value} {m.Tolerance}"))} {result.Complaint}");
    }

    [Theory]
    [InlineData("mica-mil-9", "black orange orange red green red green blue yellow", 500)]
    [InlineData("mica-mil-9", "black orange orange red green red brown blue yellow", 100)]
    [InlineData("mica-rma-6", "green black black silver red brown", 2000)]
    [InlineData("mica-rma-5", "blue red brown none gold", 500)]
    [InlineData("paper-tubular", "green blue red gold red green", 2500)]
    [InlineData("paper-tubular", "brown grey orange none white", 900)]
    [InlineData("film-polyester", "brown black red green red", 250)]
    [InlineData("uk-condenser", "red violet black red white", 1000)]
    public void Volts_come_from_their_own_dot(string code, string marking, double volts) =>
        Assert.Equal(volts, ColourMarking.Read(marking, new() { ColourCode = code }).Best!.RatedVolts);

    [Theory]
    [InlineData("yellow orange yellow violet brown white", -2200)]
    [InlineData("green black grey red black green", -3.3)]
    [InlineData("blue grey grey red black green", 4700)]
    public void Extended_temperature_coefficients_multiply(string marking, double ppm) =>
        Assert.Equal(ppm, ColourMarking.Read(marking, new() { ColourCode = "ceramic-6" }).Best!.TempcoPpm);

    /// <summary>Half a turn of six dots reverses the order in which they are written: rule A-17.</summary>
    [Theory]
    [InlineData("black green green black black orange", 300e-12, 5.0, null)] // RMA 300 pF, 5 %, 500 V
    [InlineData("brown green red grey blue white", 680e-12, 5.0, "C")] // EIA 680 pF, 5 %, class C
    [InlineData("red silver orange violet yellow black", 4700e-12, 10.0, "D")] // military 4700 pF, 10 %, class D
    [InlineData("orange black brown black brown silver", 10e-9, 20.0, "B")] // paper 0.01 µF, 20 %, class B
    public void Six_dots_read_upside_down_come_right(string asSeen, double farads, double percent, string? type)
    {
        var best = ColourMarking.Read(asSeen, new() { Kind = PartKind.Mica }).Best!;
        Assert.Equal(farads, best.Value, 1e-18);
        Assert.Equal(Tolerance.Percent(percent), best.Tolerance);
        Assert.Equal(type, best.Dielectric);
        Assert.Contains("half round", best.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("black green red", 25e-12)]
    [InlineData("green green brown green red", 250e-12)]
    [InlineData("brown brown green", 510e-12)]
    public void Three_and_five_mica_dots_read_upside_down_come_right(string asSeen, double farads) =>
        Assert.Contains(ColourMarking.Read(asSeen, new() { Kind = PartKind.Mica }).Meanings, m => Math.Abs(m.Value / farads - 1) < 1e-9 && m.Reason.Contains("half round", StringComparison.Ordinal));

    [Fact]
    public void A_plain_resistor_is_a_resistor_and_nothing_else_to_speak_of()
    {
        var result = ColourMarking.Read("brown black orange silver");
        Assert.Equal((10_000, Unit.Ohm, Tolerance.Percent(10)), (result.Best!.Value, result.Best.Unit, result.Best.Tolerance));
        Assert.True(result.Best.Share > 0.97);
    }

    /// <summary>Rule Q-06.</summary>
    [Fact]
    public void Called_a_capacitor_the_same_bands_are_picofarads()
    {
        var result = ColourMarking.Read("brown black yellow silver", new() { Kind = PartKind.Capacitor });
        Assert.Equal((100e-9, Unit.Farad), (result.Best!.Value, result.Best.Unit));
        Assert.Contains(result.Meanings, m => m.Unit == Unit.Ohm && m.Value == 100_000);
    }

    /// <summary>Rule Q-04.</summary>
    [Theory]
    [InlineData("black red violet red silver brown", "military")]
    [InlineData("white red violet red silver brown", "EIA")]
    [InlineData("silver red violet red silver brown", "paper")]
    [InlineData("none red violet red silver brown", "paper")]
    [InlineData("red violet black green silver brown", "RMA")]
    public void The_first_dot_tells_the_code(string marking, string code) =>
        Assert.Contains(code, ColourMarking.Read(marking, new() { Kind = PartKind.Mica }).Best!.Code, StringComparison.Ordinal);

    /// <summary>Rule A-18: above about 0.01 µF in a mica case it is paper, whatever colour the first dot has turned.</summary>
    [Theory]
    [InlineData("black orange orange red black orange")]
    [InlineData("white red red brown silver orange")]
    public void A_large_value_in_a_mica_case_is_paper(string marking) =>
        Assert.Contains("paper", ColourMarking.Read(marking, new() { Kind = PartKind.Mica }).Best!.Code, StringComparison.Ordinal);

    /// <summary>Rule Q-01: gold and silver end the row.</summary>
    [Theory]
    [InlineData("gold red violet yellow", 47e2, "gold")]
    [InlineData("silver yellow grey blue", 680e3, "silver")]
    public void Bands_begun_at_the_wrong_end_are_turned_and_say_so(string marking, double ohms, string why)
    {
        var best = ColourMarking.Read(marking).Best!;
        Assert.Equal(ohms, best.Value);
        Assert.Contains($"because as written {why} cannot be a figure", best.Reason, StringComparison.Ordinal);
        var complaint = ColourMarking.Read(marking, new() { ColourCode = "resistor-band" }).Complaint!;
        Assert.StartsWith("Turn the part", complaint.Remedy, StringComparison.Ordinal);
    }

    /// <summary>Rule Q-03.</summary>
    [Theory]
    [InlineData("red brown orange silver", 21e3, 22e3)]
    [InlineData("blue blue red silver", 6600, 5600)]
    [InlineData("yellow grey yellow silver", 480e3, 470e3)]
    [InlineData("red yellow orange", 24e3, 24e3)]
    public void Colours_that_changed_with_age_are_offered_behind_the_literal_reading(string marking, double literal, double was)
    {
        var result = ColourMarking.Read(marking, new() { Kind = PartKind.Resistor });
        Assert.Equal(literal, result.Best!.Value);
        Assert.Contains(result.Meanings.Skip(1), m => Math.Abs(m.Value / was - 1) < 1e-9 && m.Reason.Contains("changed with age", StringComparison.Ordinal));
    }

    [Fact]
    public void A_made_value_raises_no_suspicion_of_age() =>
        Assert.DoesNotContain(ColourMarking.Read("brown red orange gold").Meanings, m => m.Reason.Contains("age", StringComparison.Ordinal));

    [Theory]
    [InlineData("? violet yellow silver", 270e3, 470e3)]
    [InlineData("brown ? red silver", 1000.0, 1200.0, 1500.0, 1800.0)]
    [InlineData("green ? orange silver", 50e3, 56e3)]
    [InlineData("orange ? yellow gold", 300e3, 330e3, 350e3, 360e3, 390e3)]
    public void A_question_mark_leaves_the_values_that_were_made(string marking, params double[] ohms) =>
        Assert.Equal(ohms, ColourMarking.Read(marking, new() { Kind = PartKind.Resistor }).Meanings.Select(m => m.Value).Order());

    [Fact]
    public void An_unreadable_tolerance_is_unknown_and_not_guessed()
    {
        var best = ColourMarking.Read("brown black orange ?").Best!;
        Assert.Equal(10_000, best.Value);
        Assert.Null(best.Tolerance);
        Assert.Contains("tolerance not readable", best.Doubts);
    }

    /// <summary>Rule Q-09.</summary>
    [Theory]
    [InlineData(1350, 1200)]
    [InlineData(240, 220)]
    public void A_meter_reading_settles_the_reading_end(double measured, double ohms)
    {
        var result = ColourMarking.Read("brown red red", new() { Kind = PartKind.Resistor, ExpectedValue = measured });
        Assert.Equal(ohms, result.Best!.Value);
        Assert.True(result.Best.Share > 0.7);
    }

    /// <summary>Rule Q-07.</summary>
    [Fact]
    public void One_wide_band_of_a_film_part_counts_for_all_it_covers()
    {
        Assert.Equal(33e-9, ColourMarking.Read("orange white red", new() { Kind = PartKind.Film }).Best!.Value, 1e-15);
        Assert.Equal(22e-9, ColourMarking.Read("red orange white yellow", new() { ColourCode = "film-polyester" }).Best!.Value, 1e-15);
    }

    [Fact]
    public void A_button_mica_is_to_be_measured() =>
        Assert.All(ColourMarking.Read("brown green red", new() { ColourCode = "mica-button" }).Meanings, m => Assert.Contains("code not certain: measure it", m.Doubts));

    [Fact]
    public void Equal_readings_of_several_codes_are_one_meaning()
    {
        var result = ColourMarking.Read("brown green red silver", new() { Kind = PartKind.Resistor });
        Assert.True(result.IsCertain);
        Assert.Contains("body-end-dot", result.Best!.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("orange black white silver")]
    [InlineData("black brown red")]
    [InlineData("brown black red black")]
    [InlineData("gold gold red")]
    [InlineData("brown gold red gold")]
    public void What_no_code_reads_is_a_complaint(string marking) =>
        Assert.NotNull(ColourMarking.Read(marking, new() { Kind = PartKind.Resistor }).Complaint);
}

using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Markings.Text;

/// <summary>Source: data/reference/letter-codes.csv (unit-spelling M, reading-rule); the rest is common practice, no source.</summary>
public class AmbiguityTests
{
    private static readonly MarkingContext Resistor = new() { Kind = PartKind.Resistor };

    private static double Best(string marking, MarkingContext context) => TextMarking.Read(marking, context).Best!.Value;

    [Theory]
    [InlineData("25M", 25e3)]
    [InlineData("250M", 250e3)]
    [InlineData("500M", 500e3)]
    [InlineData("50M", 50e3)]
    [InlineData(".5M", .5e6)]
    [InlineData("2.2M", 2.2e6)]
    [InlineData("1M", 1e6)]
    [InlineData("5M", 5e6)]
    public void Without_a_habit_the_value_decides_what_M_is(string marking, double ohms)
    {
        var result = TextMarking.Read(marking, Resistor);
        Assert.Equal(ohms, result.Best!.Value);
        Assert.Contains(result.Meanings, m => m.Code == "M as thousand");
        Assert.Contains(result.Meanings, m => m.Code == "M as million");
    }

    [Fact]
    public void The_books_habit_decides()
    {
        Assert.Equal(1e3, Best("1M", Resistor with { MegHabit = MegHabit.Thousand }));
        Assert.Equal(10e3, Best("10M", Resistor with { MegHabit = MegHabit.Thousand }));
        Assert.Equal(10e6, Best("10M", Resistor with { MegHabit = MegHabit.Million }));
        Assert.Equal(20e6, Best("20M", Resistor with { MegHabit = MegHabit.Million }));
    }

    [Fact]
    public void A_sheet_that_writes_MEG_uses_M_for_thousand()
    {
        var sheet = Resistor with { OtherMarkings = [".02 MFD 400V", "1 MEG", "47"] };
        var best = TextMarking.Read("10M", sheet).Best!;
        Assert.Equal(10e3, best.Value);
        Assert.Contains("1 MEG", best.Reason, StringComparison.Ordinal);
        Assert.Equal(1e3, Best("1M", sheet));
    }

    [Fact]
    public void A_sheet_with_an_M_that_can_only_be_thousands_uses_it_throughout()
    {
        var best = TextMarking.Read("10M", Resistor with { OtherMarkings = ["250M 1/2W"] }).Best!;
        Assert.Equal(10e3, best.Value);
        Assert.Contains("250M", best.Reason, StringComparison.Ordinal);
        Assert.Equal(10e6, Best("10M", Resistor with { OtherMarkings = [".5M", "47K"] }));
        // 100 MFD and 0.05 MFD say nothing of ohms.
        Assert.Equal(10e6, Best("10M", Resistor with { OtherMarkings = ["100 MFD 25V", "250 MMF"] }));
    }

    [Fact]
    public void The_year_moves_it()
    {
        var early = TextMarking.Read("5M", Resistor with { Year = 1936 }).Meanings.First(m => m.Value == 5e3).Share;
        var late = TextMarking.Read("5M", Resistor with { Year = 1962 }).Meanings.Where(m => m.Value == 5e3).Sum(m => m.Share);
        Assert.True(early > 0.4 && late < 0.1, $"{early} {late}");
    }

    [Fact]
    public void An_expected_value_moves_it()
    {
        Assert.Equal(10e3, Best("10M", Resistor with { ExpectedValue = 12e3 }));
        Assert.Equal(10e6, Best("10M", Resistor with { ExpectedValue = 11e6 }));
        Assert.Equal(33e-12, Best("330", new() { Kind = PartKind.Ceramic, ExpectedValue = 35e-12 }));
        Assert.Contains("expected", TextMarking.Read("330", new() { Kind = PartKind.Ceramic, ExpectedValue = 35e-12 }).Best!.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Three_figures_are_a_code_or_a_value()
    {
        Assert.Equal(330e-12, Best("330", new() { Kind = PartKind.Mica }));
        Assert.Equal(33e-12, Best("330", new() { Kind = PartKind.Ceramic, Year = 1985 }));
        Assert.Equal(470e-12, Best("471", new() { Kind = PartKind.Ceramic }));
        Assert.Equal(0.1e-6, Best("104", new() { Kind = PartKind.Film }));
        Assert.Equal(500e3, Best("504", new() { Kind = PartKind.Control }));
        Assert.Contains(TextMarking.Read("104", Resistor).Meanings, m => m.Value == 100e3);
    }

    [Fact]
    public void The_kind_only_moves_and_never_excludes()
    {
        var result = TextMarking.Read(".02 MFD", Resistor);
        Assert.Equal(Unit.Farad, result.Best!.Unit);
        Assert.Contains(result.Best.Doubts, d => d.Contains("resistor", StringComparison.Ordinal));
    }

    [Fact]
    public void A_capital_omega_may_be_a_megohm_on_a_set_of_the_early_thirties()
    {
        var early = TextMarking.Read(".25Ω", Resistor with { Year = 1932 });
        Assert.Contains(early.Meanings, m => m.Value == 250e3 && m.Reason.Contains("1930s", StringComparison.Ordinal));
        Assert.Equal(47, Best("47Ω", Resistor with { Year = 1955 }));
        Assert.DoesNotContain(TextMarking.Read("47ω", Resistor).Meanings, m => m.Value > 48);
    }

    [Fact]
    public void A_choke_marked_in_henries_and_ohms_keeps_both()
    {
        var best = TextMarking.Read("8H 200 OHM 120 mA").Best!;
        Assert.Equal((Unit.Henry, 8.0), (best.Unit, best.Value));
        Assert.Contains(best.Doubts, d => d.Contains("200 Ω", StringComparison.Ordinal));
        Assert.Contains(best.Doubts, d => d.Contains("120 mA", StringComparison.Ordinal));
    }

    [Fact]
    public void The_same_value_said_twice_is_one_value()
    {
        Assert.Equal("4700 pF", Expect.Line(TextMarking.Read("4700 pF (4n7)").Best!));
        Assert.Equal("0.1 µF", Expect.Line(TextMarking.Read("100n = 0.1 µF").Best!));
    }
}

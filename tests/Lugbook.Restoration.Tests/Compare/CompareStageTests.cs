using Lugbook.Restoration.Compare;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Tests.Compare;

/// <summary>Source: common practice, no source; the thousand for M is the amplifier demo's habit (data/demo, invented).</summary>
public class CompareStageTests
{
    private static CompareResult Run(TestBook book) => CompareStage.Run(book.Build());

    private static TestBook Base => TestBook.New().Strip("A", 5).Facts(f => f with { Year = 1947 })
        .Paper("C1", 20e-9, "A-1", "A-2", ".02").Resistor("R1", 1000, "A-1", "A-3", "1000").Sheet("C-1", "paper", 20e-9, ".02").Sheet("r1", "resistor", 1000, "1000");

    [Fact]
    public void A_chassis_as_on_the_sheet_differs_nowhere()
    {
        var result = Run(Base);
        Assert.Empty(result.Differences);
        Assert.Empty(result.Repairs);
        Assert.Equal(2, result.Compared);
    }

    [Fact]
    public void Another_value_is_said_in_the_words_of_both()
    {
        var result = Run(Base.Change("C1", p => p with { Value = 50e-9, Marked = ".05" }));
        var difference = Assert.Single(result.Differences);
        Assert.Equal(DifferenceKind.Value, difference.Kind);
        Assert.Equal("C1: sheet .02, chassis .05.", difference.Sentence);
        Assert.Equal("C1", Assert.Single(result.Repairs).Name);
    }

    [Fact]
    public void A_near_value_is_within_the_tolerance_and_a_sign_of_repair()
    {
        var result = Run(Base.Change("C1", p => p with { Value = 22e-9, Marked = ".022" }));
        Assert.Equal(DifferenceKind.NearValue, Assert.Single(result.Differences).Kind);
    }

    [Fact]
    public void A_thousand_apart_is_the_habit_of_M_and_no_wrong_value()
    {
        var result = Run(Base.Without("R1").Resistor("R1", 1e6, "A-1", "A-3", "1M"));
        Assert.Equal(DifferenceKind.MegHabit, Assert.Single(result.Differences).Kind);
        Assert.Empty(result.Repairs);
    }

    [Fact]
    public void Missing_and_extra_parts_are_named_and_a_likely_pair_is_pointed_out()
    {
        var result = Run(Base.Without("C1").Paper("C9", 20e-9, "A-1", "A-2"));
        Assert.Equal([DifferenceKind.Missing, DifferenceKind.Extra], result.Differences.Select(d => d.Kind));
        Assert.Contains("C9", result.Differences[0].Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_lower_rating_and_another_kind_are_differences()
    {
        var result = Run(Base.Sheet("C2", "paper", 1e-7, ".1", s => s with { RatedVolts = 600 }).Part("C2", "ceramic", "A-3", "A-4", 1e-7, more: p => p with { RatedVolts = 200 }));
        Assert.Equal([DifferenceKind.LowerRating, DifferenceKind.Kind], result.Differences.Select(d => d.Kind).Order());
    }

    [Fact]
    public void A_can_s_sections_answer_to_the_sheet_s_one_line()
    {
        var result = Run(Base.Sheet("C12", "electrolytic", 50e-6)
            .Part("C12A", "electrolytic", "A-1", "A-2", 50e-6, plus: 'a', more: p => p with { Group = "K1" }).Part("C12B", "electrolytic", "A-3", "A-2", 30e-6, plus: 'a', more: p => p with { Group = "K1" }));
        Assert.Empty(result.Differences);
    }

    [Theory]
    [InlineData("film", 1e-7, 1947, true)]
    [InlineData("film", 1e-7, 1962, false)]
    [InlineData("ceramic", 1e-10, 1935, true)]
    [InlineData("ceramic", 1e-10, 1947, false)]
    public void A_kind_that_did_not_exist_in_the_set_s_year_is_a_former_repair(string kind, double value, int year, bool repair)
    {
        var result = Run(Base.Facts(f => f with { Year = year }).Part("C5", kind, "A-3", "A-4", value));
        Assert.Equal(repair, result.Repairs.Any(r => r.Name == "C5"));
    }

    [Fact]
    public void A_five_percent_resistor_among_wide_ones_in_an_early_set_is_a_likely_repair()
    {
        TestBook book = Base.Change("R1", p => p with { Tolerance = Tolerance.Percent(20) }).Part("R2", "resistor", "A-4", "A-5", 47e3, more: p => p with { Tolerance = Tolerance.Percent(5) });
        Assert.Equal(["R2"], Run(book).Repairs.Select(r => r.Name));
    }

    [Fact]
    public void A_series_value_among_round_ones_is_a_likely_repair()
    {
        var book = Base.Paper("C2", 50e-9, "A-1", "A-3").Paper("C3", 100e-9, "A-1", "A-3").Paper("C4", 20e-9, "A-2", "A-3").Paper("C6", 5e-9, "A-1", "A-3").Paper("C7", 47e-9, "A-2", "A-4");
        Assert.Equal(["C7"], Run(book).Repairs.Select(r => r.Name));
    }

    [Theory]
    [InlineData("radio", 1947)]
    [InlineData("amp", 1943)]
    [InlineData("tv", 1955)]
    public void The_demo_sets_are_as_built(string name, int year)
    {
        var book = DemoBooks.Named(name);
        Assert.Empty(CompareStage.Run(book with { Facts = book.Facts with { Year = year } }).Repairs);
    }
}

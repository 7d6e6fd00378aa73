using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>Source: common practice, no source; each was wrong once on a chassis of another kind than the demos.</summary>
public class TrialFindingsTests
{
    [Theory]
    [InlineData("paper")]
    [InlineData("mica")]
    public void A_capacitor_from_the_line_to_an_aerial_coil_that_ends_on_the_chassis_is_class_Y(string kind)
    {
        var book = TestBook.GoodSet().Strip("L", 2).Part("LA", "winding", "L-1", "CH", 1).Part("C40", kind, "A-1", "L-1", 1e-9).Build();
        var choice = Shop.Choose(book).For("C40")!;
        Assert.Contains(choice.Requirement.SafetyClass, new[] { SafetyClass.Y1, SafetyClass.Y2 });
        Assert.True(choice.Part is null || choice.Requirement.Accepts(choice.Part.SafetyClass));
    }

    [Fact]
    public void A_reservoir_bears_the_peak_of_its_winding_even_when_the_old_part_did_not()
    {
        var book = TestBook.GoodSet()
            .Change("T1A", p => p with { Marked = "HT 250 V" }).Change("T1B", p => p with { Marked = "HT 250 V" })
            .Change("C1", p => p with { RatedVolts = 350 }).Build();
        var need = Shop.Choose(book).For("C1")!.Requirement.VoltsAtLeast;
        Assert.InRange(need!.Value, 250 * Math.Sqrt(2), 400);
    }

    [Fact]
    public void A_reversed_electrolytic_is_held_back_and_its_polarity_is_not_repeated_as_an_instruction()
    {
        var book = TestBook.GoodSet().Change("C1", p => p with { PlusLead = p.PlusLead == 'a' ? 'b' : 'a' }).Build();
        var map = MapStage.Run(book, DemoBooks.Handbook);
        Assert.Contains(map.Contradictions, c => c.Rule == "electrolytic-reversed" && c.Weight == Weight.Contradiction);
        var fit = FitStage.Run(map, ChooseStage.Run(map, Shop.Policy));
        var step = fit.Steps.Single(s => s.Position == "C1");
        Assert.StartsWith("Held back", step.Open, StringComparison.Ordinal);
        Assert.All(step.On, l => Assert.DoesNotContain("lead. ", l.How, StringComparison.Ordinal));
        Assert.NotEmpty(fit.Contradictions);
    }

    [Fact]
    public void A_sound_set_holds_nothing_back()
    {
        var map = MapStage.Run(TestBook.GoodSet().Build(), DemoBooks.Handbook);
        var fit = FitStage.Run(map, ChooseStage.Run(map, Shop.Policy));
        Assert.Empty(fit.Contradictions);
        Assert.DoesNotContain(fit.Steps, s => s.Open?.StartsWith("Held back", StringComparison.Ordinal) == true);
    }

    [Fact]
    public void A_heater_winding_marked_with_a_decimal_comma_is_read_whole()
    {
        var book = TestBook.GoodSet().Change("T1H", p => p with { Marked = "6,3 V 3 A" }).Build();
        Assert.DoesNotContain(MapStage.Run(book, DemoBooks.Handbook).Contradictions, c => c.Rule == "heater-winding-differs");
    }

    [Fact]
    public void A_question_is_settled_by_the_users_own_part_when_nothing_is_against_it()
    {
        var book = TestBook.GoodSet().Part("C41", "paper", "A-1", "CH", 50e-9).Build();
        Assert.NotNull(Shop.Choose(book).For("C41")!.Question);
        var settled = book with { Work = book.Work.Add(new PositionWork { Name = "C41", Replacement = "4.7n Y1 500VAC" }) };
        var choice = Shop.Choose(settled).For("C41")!;
        Assert.Null(choice.Question);
        var wrong = book with { Work = book.Work.Add(new PositionWork { Name = "C41", Replacement = "47n 630V" }) };
        Assert.NotNull(Shop.Choose(wrong).For("C41")!.Question);
        Assert.NotEqual("47n 630V", Shop.Choose(wrong).For("C41")!.New);
    }
}

using Lugbook.Restoration.Judge;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Readings;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Judge;

/// <summary>Which lead to lift.</summary>
public class LeadChoiceTests
{
    // R1 of 100 kΩ ±10 % on two socket pins crowded with wires; beside it, over wires, R2 of 100 kΩ alone on a strip and R3 of 10 MΩ.
    private static Book Crowded(double? third = 10e6, params Reading[] readings)
    {
        var test = TestBook.New().Socket("V1", "octal", 8).Strip("A", 6).Facts(f => f with { CommonLug = "V1-2" })
            .Part("R1", "resistor", "V1-1", "V1-2", 100e3, more: p => p with { Tolerance = Tolerance.Percent(10) })
            .Part("R2", "resistor", "A-1", "A-2", 100e3, more: p => p with { Tolerance = Tolerance.Percent(10) })
            .Wire("V1-1", "A-1").Wire("V1-2", "A-2").Wire("V1-1", "A-3").Wire("V1-2", "A-4").Wire("V1-1", "A-5").Wire("V1-2", "A-6");
        if (third is { } ohms) test = test.Part("R3", "resistor", "A-3", "A-4", ohms, more: p => p with { Tolerance = Tolerance.Percent(20) });
        return test.Build() with { Readings = Table<Reading>.Of(readings) };
    }

    /// <summary>Formula: with R2 lifted 8 to 12 MΩ stay beside 90 to 110 kΩ: 89.0 to 109.0 kΩ.</summary>
    [Fact]
    public void Another_parts_lead_is_proposed_where_it_is_easier_and_separates_enough()
    {
        var next = JudgeTests.Judge(Crowded()).Of("R1")!.Next!;
        Assert.Equal(("R2", "A-1", false), (next.LiftPart, next.LiftLug, next.InPlace));
        Assert.Equal(1 / (1 / 90e3 + 1 / 8e6), next.Intact!.Value.Low, 50.0);
        Assert.Equal(1 / (1 / 110e3 + 1 / 12e6), next.Intact.Value.High, 50.0);
        Assert.Contains("8 MΩ to 12 MΩ stays in parallel", next.Sentence, StringComparison.Ordinal);
    }

    /// <summary>Formula: beside a second 100 kΩ the lift of R2 leaves as much as before: only the own lead separates.</summary>
    [Fact]
    public void A_lead_that_does_not_separate_is_not_proposed()
    {
        var next = JudgeTests.Judge(Crowded(100e3)).Of("R1")!.Next!;
        Assert.Equal("R1", next.LiftPart);
    }

    /// <summary>Formula: 98 kΩ read while R2 is lifted means 98.8 to 99.2 kΩ beside 8 to 12 MΩ; without the word that R2 was lifted it would mean far more than 110 kΩ.</summary>
    [Fact]
    public void A_reading_taken_so_is_judged_with_what_stayed_in_parallel()
    {
        Reading reading = new() { Name = "R1", Kind = ReadingKind.Ohms, Value = 98e3, LiftedPart = "R2" };
        var judged = JudgeTests.Judge(Crowded(readings: reading)).Of("R1")!;
        Assert.Equal((Verdict.Within, Decision.Stays), (judged.Judgements[0].Verdict, judged.Decision));
        Assert.Equal(1 / (1 / 98e3 - 1 / 12e6), judged.Judgements[0].True!.Value.Low, 50.0);
        Assert.NotEqual(Verdict.Within, JudgeTests.Judge(Crowded(readings: reading with { LiftedPart = null })).Of("R1")!.Judgements[0].Verdict);
    }

    [Fact]
    public void After_another_lead_told_nothing_the_own_one_is_next()
    {
        Reading reading = new() { Name = "R1", Kind = ReadingKind.Ohms, Value = 50e3, LiftedPart = "R3" };
        var part = JudgeTests.Judge(Crowded(readings: reading)).Of("R1")!;
        Assert.Equal("R1", part.Next!.LiftPart);
        Assert.Equal(part.Next.Sentence, part.Judgements[0].Instead);
    }

    /// <summary>Formula: 20 nF beside 1 µF hides in ±30 % of it; with the 1 µF lifted nothing stays.</summary>
    [Fact]
    public void The_same_for_capacitance()
    {
        var book = TestBook.New().Socket("V1", "octal", 8).Strip("A", 4).Facts(f => f with { CommonLug = "V1-2" })
            .Part("C1", "mica", "V1-1", "V1-2", 20e-9).Part("C2", "film", "A-1", "A-2", 1e-6).Wire("V1-1", "A-1").Wire("V1-2", "A-2").Wire("V1-1", "A-3").Wire("V1-2", "A-4").Build()
            with { Readings = Table<Reading>.Of([new() { Name = "C1", Kind = ReadingKind.Farads, Value = 1.02e-6 }]) };
        var judged = JudgeTests.Judge(book, MeterShelf.All[0]).Of("C1")!.Judgements[0];
        Assert.Equal(Verdict.CannotTell, judged.Verdict);
        Assert.Contains("Lift C2's lead at A-1", judged.Instead!, StringComparison.Ordinal);
    }

    /// <summary>Formula: a meter of ±0.3 Ω at 0.6 Ω ±20 % decides nothing, lifted or not.</summary>
    [Fact]
    public void A_meter_too_coarse_is_told_and_nothing_is_lifted_for_it()
    {
        var book = TestBook.New().Strip("A", 2).Facts(f => f with { CommonLug = "A-2" }).Part("L1", "winding", "A-1", "A-2", 0.6).Build();
        var next = JudgeTests.Judge(book, MeterShelf.All[0]).Of("L1")!.Next!;
        Assert.True(next.InPlace);
        Assert.Contains("finer meter", next.Sentence, StringComparison.Ordinal);
        Assert.Null(JudgeTests.Judge(book with { Readings = Table<Reading>.Of([new() { Name = "L1", Kind = ReadingKind.Ohms, Value = 0.6 }]) }, MeterShelf.All[0]).Of("L1")!.Next);
        Assert.DoesNotContain("finer meter", JudgeTests.Judge(book, MeterShelf.Named("lcr-bridge")).Of("L1")!.Next!.Sentence, StringComparison.Ordinal);
    }
}

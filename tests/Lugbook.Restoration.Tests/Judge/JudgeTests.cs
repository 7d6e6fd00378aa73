using System.Globalization;
using CsCheck;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Solve;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Readings;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Judge;

/// <summary>Readings become verdicts.</summary>
public class JudgeTests
{
    private static readonly Meter Exact = MeterShelf.All[0] with { Ohms = new([1e9], 1e-6), PointerOhms = null, Farads = new([1], 1e-6) };

    internal static JudgeResult Judge(Book book, Meter? meter = null, FamilyPolicy? policy = null)
    {
        var netlist = Solved.Netlist(book);
        var solved = new SolveResult { Netlist = netlist, Direct = null, Point = null, Cycle = null, Rectifiers = [], Spreads = netlist.Spreads, Reason = "not needed", Remarks = [] };
        meter ??= Exact;
        return JudgeStage.Run(book, new(solved, new() { Positions = [] }, meter.OhmsTestVolts), policy ?? new(), meter);
    }

    private static Book Pair(double reading, bool lifted = false) => (TestBook.New().Strip("A", 3).Facts(f => f with { CommonLug = "A-2" })
        .Part("R1", "resistor", "A-1", "A-2", 220e3, more: p => p with { Tolerance = Tolerance.Percent(10) })
        .Part("R2", "resistor", "A-1", "A-2", 470e3, more: p => p with { Tolerance = Tolerance.Percent(20) }).Build())
        with { Readings = Table<Reading>.Of([new() { Name = "R1", Kind = ReadingKind.Ohms, Value = reading, IsLifted = lifted }]) };

    /// <summary>Source: data/reference/measurement-checks.md, section 3: 220 kΩ ±10 % beside 470 kΩ ±20 %: an intact pair reads 129.7 to 169.3 kΩ.</summary>
    [Theory]
    [InlineData(163e3, 229.3e3, 287.7e3)]
    [InlineData(140e3, 186.2e3, 223.1e3)]
    [InlineData(120e3, 152.4e3, 176.3e3)]
    public void The_interval_of_true_values_is_the_worked_one(double reading, double low, double high)
    {
        var judged = Judge(Pair(reading)).Of("R1")!.Judgements.Single();
        Assert.Equal(Verdict.CannotTell, judged.Verdict);
        Assert.Equal(low, judged.True!.Value.Low, 0.002 * low);
        Assert.Equal(high, judged.True.Value.High, 0.002 * high);
        Assert.Equal(129.7e3, judged.Intact!.Value.Low, 200.0);
        Assert.Equal(169.3e3, judged.Intact.Value.High, 200.0);
    }

    /// <summary>Source: the same section: 47 kΩ that reads 57.8 kΩ is proof of drift, lifted or in place.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Fifty_seven_point_eight_for_forty_seven_goes_lifted_and_in_place(bool lifted)
    {
        var book = TestBook.New().Strip("A", 3).Facts(f => f with { CommonLug = "A-2" }).Resistor("R1", 47e3, "A-1", "A-2").Resistor("R2", 320e3, "A-1", "A-2").Build();
        book = book with { Readings = Table<Reading>.Of([new() { Name = "R1", Kind = ReadingKind.Ohms, Value = 57.8e3, IsLifted = lifted }]) };
        var part = Judge(book, MeterShelf.All[0]).Of("R1")!;
        Assert.Equal(Verdict.Outside, part.Judgements.Single().Verdict);
        Assert.Equal(Decision.Goes, part.Decision);
        Assert.Contains("57.8 kΩ", part.Reason, StringComparison.Ordinal);
    }

    /// <summary>Source: the same section 2: a meter that stops at 2 MΩ proves "above 2 MΩ": a 10 MΩ leak that reads over is consistent, a 470 kΩ one is condemned.</summary>
    [Theory]
    [InlineData(10e6, Verdict.CannotTell)]
    [InlineData(470e3, Verdict.Outside)]
    public void Over_is_a_reading_and_is_judged_as_one(double ohms, Verdict verdict)
    {
        var book = TestBook.New().Strip("A", 3).Facts(f => f with { CommonLug = "A-2" }).Resistor("R1", ohms, "A-1", "A-2").Build();
        book = book with { Readings = Table<Reading>.Of([new() { Name = "R1", Kind = ReadingKind.Ohms, Value = 2e6, IsOver = true }]) };
        Assert.Equal(verdict, Judge(book).Of("R1")!.Judgements.Single().Verdict);
    }

    /// <summary>Source: the same section: "over" is above the top of the meter that showed it: 2.4 MΩ of a pointer instrument (twenty times 120 kΩ) says nothing of 3.3 MΩ, a digital meter's 20 MΩ does.</summary>
    [Theory]
    [InlineData("pointer-20k", Verdict.CannotTell)]
    [InlineData("digital-10M", Verdict.Outside)]
    public void A_bare_over_is_above_the_top_of_the_meter_that_showed_it(string meter, Verdict verdict)
    {
        var book = TestBook.New().Strip("A", 3).Facts(f => f with { CommonLug = "A-2" }).Resistor("R1", 3.3e6, "A-1", "A-2").Build();
        book = book with { Readings = Table<Reading>.Of([new() { Name = "R1", Kind = ReadingKind.Ohms, Value = 0, IsOver = true, IsLifted = true, Meter = meter }]) };
        Assert.Equal(verdict, Judge(book).Of("R1")!.Judgements.Single().Verdict);
    }

    /// <summary>Source: data/reference/replacement-practice.md, section 8: 0.5 mA for 10 µF may leak once formed; out above.</summary>
    [Theory]
    [InlineData(0.3e-3, Verdict.Within)]
    [InlineData(2e-3, Verdict.Outside)]
    public void Leakage_of_an_electrolytic_is_judged_by_its_size(double amperes, Verdict verdict)
    {
        var book = TestBook.New().Strip("A", 3).Electrolytic("C1", 10e-6, 450, "A-1", "A-2").Build();
        book = book with { Readings = Table<Reading>.Of([new() { Name = "C1", Kind = ReadingKind.Leakage, Value = amperes, TestVolts = 450, IsLifted = true }]) };
        Assert.Equal(verdict, Judge(book).Of("C1")!.Judgements.Single().Verdict);
    }

    /// <summary>Source: replacement-practice.md, section 8, table: 22 µF 450 V new 15 Ω at 120 Hz; out above twice.</summary>
    [Theory]
    [InlineData(12, Verdict.Within)]
    [InlineData(45, Verdict.Outside)]
    public void Series_resistance_is_out_above_twice_the_table(double ohms, Verdict verdict)
    {
        var book = TestBook.New().Strip("A", 3).Electrolytic("C1", 22e-6, 450, "A-1", "A-2").Build();
        book = book with { Readings = Table<Reading>.Of([new() { Name = "C1", Kind = ReadingKind.SeriesOhms, Value = ohms, IsLifted = true }]) };
        Assert.Equal(verdict, Judge(book).Of("C1")!.Judgements.Single().Verdict);
    }

    [Fact]
    public void A_policy_moves_a_family_and_the_user_overrules_it()
    {
        var book = TestBook.New().Strip("A", 3).Paper("C1", 20e-9, "A-1", "A-2").Build();
        Assert.Equal(Decision.Goes, Judge(book).Of("C1")!.Decision);
        var (keep, wrong) = FamilyPolicy.Read("paper: stays");
        Assert.Empty(wrong);
        Assert.Equal(Decision.Stays, Judge(book, policy: keep).Of("C1")!.Decision);
        var overruled = book with { Work = Table<PositionWork>.Of([new() { Name = "C1", Decision = Decision.Goes, Reason = "it is sticky" }]) };
        var verdict = Judge(overruled, policy: keep).Of("C1")!;
        Assert.Equal((Decision.Goes, "it is sticky", true), (verdict.Decision, verdict.Reason, verdict.ByUser));
    }

    [Fact]
    public void A_policy_may_say_otherwise_by_the_year_of_the_set()
    {
        var (policy, wrong) = FamilyPolicy.Read("resistor before 1946: goes; resistor made from 1955: stays");
        Assert.Empty(wrong);
        Assert.Equal("resistor made before 1946: goes; resistor made from 1955: stays", policy.Write());
        Decision Of(int? year) => Judge(TestBook.New().Facts(f => f with { Year = year }).Strip("A", 3).Resistor("R1", 100e3, "A-1", "A-2").Build(), policy: policy).Of("R1")!.Decision;
        Assert.Equal(Decision.Goes, Of(1939));
        Assert.Equal(Decision.MeasureFirst, Of(1950));
        Assert.Equal(Decision.Stays, Of(1955));
        Assert.Equal(Decision.MeasureFirst, Of(null));
        Assert.NotEmpty(FamilyPolicy.Read("resistor before lunch: goes").NotUnderstood);
    }

    /// <summary>A policy may say otherwise of a place: the coupling capacitor goes, the one beside it stays.</summary>
    [Fact]
    public void What_a_policy_says_of_a_place_comes_before_what_it_says_of_the_family()
    {
        var (policy, wrong) = FamilyPolicy.Read("paper: stays; paper at a grid: goes");
        Assert.Empty(wrong);
        Assert.Equal("paper: stays; paper at a grid: goes", policy.Write());
        var result = Judge(DemoBooks.Named("amp"), MeterShelf.All[0], policy);
        // C6 leads from a plate to the grid of an output valve (V3-5 in the demo amplifier's list), C1 stands at the line.
        Assert.Equal((Decision.Goes, Decision.Stays), (result.Of("C6")!.Decision, result.Of("C1")!.Decision));
        Assert.Contains("at a grid", result.Of("C6")!.Reason, StringComparison.Ordinal);
        Assert.Single(FamilyPolicy.Read("paper under the moon: goes").NotUnderstood);
    }

    [Fact]
    public void What_of_a_policy_is_not_understood_is_told()
    {
        var (_, wrong) = FamilyPolicy.Read("paper: perhaps; glass: stays");
        Assert.Equal(2, wrong.Length);
    }

    [Fact]
    public void A_reading_of_no_part_is_kept_and_named()
    {
        var book = TestBook.New().Strip("A", 2).Build() with { Readings = Table<Reading>.Of([new() { Name = "R99", Kind = ReadingKind.Ohms, Value = 1 }]) };
        Assert.Contains("R99", Judge(book).Remarks.Single(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_reading_that_tells_nothing_in_place_is_tried_lifted_next()
    {
        var before = Judge(Pair(163e3) with { Readings = Table<Reading>.Empty }).Of("R1")!.Next!;
        var after = Judge(Pair(163e3)).Of("R1")!.Next!;
        Assert.False(after.InPlace);
        Assert.Contains("Lift", after.Sentence, StringComparison.Ordinal);
        Assert.Equal(ReadingKind.Ohms, before.Kind);
    }

    /// <summary>Source: none outside; this is the promise of guard bands and of monotonicity. Rates over 12,000 cases: docs/judge.md.</summary>
    [Fact]
    public void No_intact_part_is_condemned_in_place_and_no_bad_one_declared_within()
    {
        var meter = MeterShelf.All[0];
        var rates = new Dictionary<(bool Other, bool Intact, Verdict Verdict), int>();
        var cases = long.Parse(Environment.GetEnvironmentVariable("LUGBOOK_JUDGE_CASES") ?? "1500", CultureInfo.InvariantCulture);
        var end = Gen.Int[1, 5];
        Gen.Select(Gen.Select(end, end, Gen.Double[2, 6.3], Gen.Double[-1, 1]).Array[3, 9], Gen.Double[-0.6, 1.2], Gen.Double[-1, 1]).Sample((parts, off, error) =>
        {
            var test = TestBook.New().Strip("A", 5).Facts(f => f with { CommonLug = "A-1" });
            var truth = new List<Resistor>();
            for (var k = 0; k < parts.Length; k++)
            {
                var (a, b, decade, within) = parts[k];
                if (a == b) b = a % 5 + 1;
                var nominal = Math.Pow(10, decade);
                test = test.Part($"R{k}", "resistor", $"A-{a}", $"A-{b}", nominal, more: p => p with { Tolerance = Tolerance.Percent(20) });
                // The part in question is anywhere; all others are within their tolerance.
                truth.Add(new($"R{k}", a - 1, b - 1, k == 0 ? nominal * (1 + off) : nominal * (1 + 0.2 * within)));
            }
            var network = new Network(["1", "2", "3", "4", "5"], 0, truth);
            var seen = Ohms.Between(network, truth[0].A, truth[0].B).Ohms;
            // The meter is off by no more than its guard, which its statement makes 95 % of.
            var shown = seen + error * GuardBand.Of(meter.OhmsUncertainty(seen)) * 0.98;
            // Read again with a lead of another part lifted.
            var freed = Ohms.Between(new(network.NodeNames, 0, truth.Where(t => t.Name != "R1")), truth[0].A, truth[0].B).Ohms;
            var again = freed + error * GuardBand.Of(meter.OhmsUncertainty(freed)) * 0.98;
            var book = test.Build() with { Readings = Table<Reading>.Of([new() { Name = "R0", Kind = ReadingKind.Ohms, Value = again, LiftedPart = "R1" }, new() { Name = "R0", Kind = ReadingKind.Ohms, Value = shown }]) };
            var verdicts = Judge(book, meter).Of("R0")!.Judgements.Select(j => j.Verdict).ToArray();
            var intact = Math.Abs(off) <= 0.2;
            for (var other = 0; other < 2; other++) rates[(other == 1, intact, verdicts[other])] = rates.GetValueOrDefault((other == 1, intact, verdicts[other])) + 1;
            return verdicts.All(v => v != (intact ? Verdict.Outside : Verdict.Within));
        }, iter: cases, threads: 1);
        if (Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS") is { Length: > 0 } folder) File.WriteAllText(Path.Combine(folder, "judge-rates.md"), Page(rates));
    }

    private static string Page(Dictionary<(bool Other, bool Intact, Verdict Verdict), int> rates)
    {
        var text = new StringWriter(CultureInfo.InvariantCulture) { NewLine = "\n" };
        text.WriteLine($"# Verdicts in place: rates over {rates.Values.Sum() / 2} random cases\n");
        text.WriteLine("Networks of 3 to 9 resistors of ±20 % between 5 lugs, all but one within tolerance, that one from 60 % low to 120 % high; a digital hand meter's error within its guard. Each is read as it sits, and again with a lead of one other part lifted, whichever it is. Written by the command in docs/judge.md.\n");
        text.WriteLine("| the part truly is | lifted | cases | declared within | condemned | cannot be told in place |\n|---|---|---|---|---|---|");
        foreach (var (other, intact) in ((bool, bool)[])[(false, true), (false, false), (true, true), (true, false)])
        {
            var all = rates.Where(r => r.Key.Other == other && r.Key.Intact == intact).Sum(r => r.Value);
            double Share(params Verdict[] verdicts) => 100.0 * verdicts.Sum(v => rates.GetValueOrDefault((other, intact, v))) / all;
            text.WriteLine($"| {(intact ? "within its tolerance" : "outside")} | {(other ? "a lead of one other part" : "nothing")} | {all} | {Share(Verdict.Within):0.0} % | {Share(Verdict.Outside):0.0} % | {Share(Verdict.CannotTell, Verdict.Undecided):0.0} % |");
        }
        return text.ToString();
    }
}

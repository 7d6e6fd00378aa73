using System.Collections.Immutable;
using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Slips;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Tests.Slips;

/// <summary>
/// A circuit for the back of an envelope: a capacitor of 47 nF from E-1 to E-2, 100 kΩ from E-1 and 22 kΩ from E-2 to common, E-3 with nothing on it. Across the capacitor lie 122 kΩ. Numbers by Ohm's law and
/// Y = jωC + 1/R; meters as MeterShelf states them.
/// </summary>
public class SlipsTests
{
    private static readonly BenchMeters Meters = new(MeterShelf.All[0], MeterShelf.Named("lcr-bridge"));
    private static readonly Book Envelope = TestBook.GoodSet().Strip("E", 5).Wire("E-5", "CH", "bond").Paper("C9", 47e-9, "E-1", "E-2")
        .Part("R8", "resistor", "E-1", "E-5", 100e3, more: p => p with { Tolerance = Tolerance.Percent(10) }).Part("R9", "resistor", "E-2", "E-5", 22e3, more: p => p with { Tolerance = Tolerance.Percent(10) }).Build();
    private static readonly ImmutableArray<Exchange> Work = [new() { Position = "C9", Value = 47e-9, Tolerance = 0.1 }];

    private static AfterCheck Check() => SlipsStage.CheckOf(Solved.Netlist(Envelope), Work, "C9", Meters)!;

    [Fact]
    public void Neighbours_are_the_next_numbers_on_the_mount_a_socket_closes_its_ring_and_near_lugs_of_other_mounts_count()
    {
        Assert.Equal(["E-1", "E-3"], SlipsStage.Near(Envelope, "E-2"));
        Assert.Equal(["E-2"], SlipsStage.Near(Envelope, "E-1"));
        Assert.Equal(["V1-2", "V1-8"], SlipsStage.Near(Envelope, "V1-1"));
        var placed = TestBook.New().Strip("A", 2).Strip("B", 1)
            .ChangeLug("A-1", l => l with { X = 0, Y = 0 }).ChangeLug("A-2", l => l with { X = 40, Y = 0 }).ChangeLug("B-1", l => l with { X = 0, Y = 11.9 }).Build();
        Assert.Equal(["B-1"], SlipsStage.Near(placed, "A-1"));   // A-2 has the next number but is 40 mm away
    }

    [Fact]
    public void The_slips_of_a_capacitor_are_all_there_each_in_words()
    {
        var slips = SlipsStage.Of(Solved.Netlist(Envelope), ["C9"]);
        Assert.Equal(["C9.a off", "C9.a>E-2", "C9.b off", "C9.b>E-1", "C9.b>E-3", "E-1=E-2", "E-2=E-3", "C9 empty", "C9 x10", "C9 /10"], slips.Select(s => s.Id));
        Assert.Equal("lead b of C9 on E-3 instead of E-2", slips.Single(s => s.Id == "C9.b>E-3").Sentence);
        Assert.All(slips, s => Assert.NotNull(s.Change));
    }

    [Fact]
    public void The_same_book_in_another_order_has_the_same_slips()
    {
        foreach (var book in new[] { DemoBooks.Radio, DemoBooks.Amp })
        {
            var turned = book with { Lugs = Table<Trade.Chassis.Lug>.Of(book.Lugs.Reverse()), Wires = Table<Trade.Chassis.Wire>.Of(book.Wires.Reverse()) };
            Assert.Equal(SlipsStage.Of(Solved.Netlist(book)).Select(s => s.Id).Order(StringComparer.Ordinal), SlipsStage.Of(Solved.Netlist(turned)).Select(s => s.Id).Order(StringComparer.Ordinal));
        }
    }

    [Fact]
    public void A_whole_book_names_no_slip_twice()
    {
        var slips = SlipsStage.Of(Solved.Netlist(DemoBooks.Tv));
        Assert.Equal(slips.Length, slips.Select(s => s.Id).Distinct(StringComparer.Ordinal).Count());
        Assert.True(slips.Count(s => s.IsGeometric) > 1000);
    }

    [Fact]
    public void Three_readings_are_the_fewest_on_the_envelope()
    {
        // The value shows in capacitance across the part alone; a bridge from E-1 to E-2 then shows no capacitance that could be told, so it needs ohms; and E-3 is reached by none of these.
        var check = Check();
        Assert.Equal(3, check.Readings.Length);
        Assert.True(check.IsProven);
        Assert.Equal(["C9 old"], check.Slips.Where(s => !s.Exposed).Select(s => s.Slip.Id));   // an old one of the same value looks alike to every meter here
        Assert.Equal(["the part at C9 is the new one"], check.LookAt);
        Assert.Contains(check.Readings, r => r.Kind == ReadingKind.Farads && new[] { r.From, r.To }.Order().SequenceEqual(["E-1", "E-2"]));
        Assert.Contains("discharge", string.Join(' ', check.Cautions.Select(c => c.Id)), StringComparison.Ordinal);
    }

    [Fact]
    public void Ohms_across_the_part_are_between_the_ends_of_all_tolerances()
    {
        // Old composition may lie 10 % low, and 10 % high and drifted by 30 % beyond: 0.9 x 122 k beside 1 GΩ of new film = 109.788 k; 1.43 x 122 k = 174.46 k. Meter ±(0.8 % + 3 steps of 100 Ω); leads up to 0.5 Ω.
        var shown = Probe(ReadingKind.Ohms)[0];
        Assert.Equal(109_788 * 0.992 - 300, shown[0].Low, 5.0);
        Assert.Equal((174_460 + 0.5) * 1.008 + 300, shown[0].High, 5.0);
    }

    [Fact]
    public void A_lead_not_soldered_leaves_the_current_of_122_k_to_the_capacitance_meter()
    {
        // 1/(2π·1 kHz·R): 1.305 nF at 122 kΩ, 1.450 nF at 109.8 kΩ; a meter that tells phase shows nothing. A tenth of the width, 100 pF of stray and the meter's error come on top.
        var shown = Probe(ReadingKind.Farads);
        Assert.True(shown[0] is [{ Low: < 47e-9 * 0.9 and > 40e-9, High: > 47e-9 * 1.1 and < 54e-9 }]);
        var missed = shown[1][0];
        Assert.Equal(0, missed.Low);
        Assert.InRange(missed.High, 1.450e-9, 1.450e-9 * 1.1 + 0.1e-9 + 0.05e-9);
        Assert.True(shown[1].Any(i => double.IsInfinity(i.High)), "or it shows over: resistance rules");
    }

    // Healthy, then lead a missed.
    private static ImmutableArray<Interval>[] Probe(ReadingKind kind)
    {
        var board = Board.Found(Solved.Netlist(Envelope)).After(Work);
        var missed = SlipsStage.Of(board.Netlist, ["C9"]).First(s => s.Kind == SlipKind.Missed);
        var probing = new Probing(board, [missed], ["E-1", "E-2"], Meters);
        return probing.Shown[Enumerable.Range(0, probing.Candidates.Length).Single(i => probing.Candidates[i].Kind == kind)];
    }

    [Fact]
    public void What_is_entered_is_judged_at_once()
    {
        var check = Check();
        var capacitance = check.Readings.Single(r => r.Kind == ReadingKind.Farads && new[] { r.From, r.To }.Order().SequenceEqual(["E-1", "E-2"]));
        // With the leads the other way round it is the same reading.
        Reading Shows(double farads) => new() { Name = "C9", Kind = ReadingKind.Farads, Value = farads, FromLug = capacitance.To, ToLug = capacitance.From };
        Assert.Equal(CheckVerdict.Open, SlipsStage.Judge(check, []).Verdict);
        var good = SlipsStage.Judge(check, [Shows(47.2e-9)]);
        Assert.Equal((CheckVerdict.AsExpected, 2), (good.Verdict, good.Left));
        var decade = SlipsStage.Judge(check, [Shows(4.7e-9)]);
        Assert.Equal(CheckVerdict.LooksLike, decade.Verdict);
        // A capacitance meter across a short may show anything; 122 kΩ there rule the short out.
        Assert.Equal(["E-1=E-2", "C9 /10"], decade.Suspects.Select(s => s.Id));
        var across = check.Readings.Single(r => r.Kind == ReadingKind.Ohms && r.Slips.Any(s => s.Slip.Id == "E-1=E-2" && s.Exposed));
        var ohms = new Reading { Name = "C9", Kind = ReadingKind.Ohms, Value = across.About, IsOver = double.IsInfinity(across.About), FromLug = across.From, ToLug = across.To };
        Assert.Equal(["C9 /10"], SlipsStage.Judge(check, [Shows(4.7e-9), ohms]).Suspects.Select(s => s.Id));
        Assert.Equal(CheckVerdict.Neither, SlipsStage.Judge(check, [Shows(150e-9), ohms]).Verdict);
        Assert.Equal(CheckVerdict.AsExpected, SlipsStage.Judge(check, [Shows(4.7e-9), Shows(47.2e-9)]).Verdict);   // the newest counts
        Assert.Contains(SlipsStage.Judge(check, [Shows(0.9e-9)]).Suspects, s => s.Id == "C9.a off");
    }

    [Fact]
    public void A_reading_between_two_lugs_is_no_verdict_on_the_part()
    {
        var reading = new Reading { Name = "R8", Kind = ReadingKind.Ohms, Value = 5, FromLug = "E-1", ToLug = "E-2" };
        var book = Envelope with { Readings = Table<Reading>.Of([reading]) };
        var solved = Solved.Of(Envelope);
        var verdicts = JudgeStage.Run(book, new(solved, Lugbook.Restoration.Bounds.BoundsStage.Run(solved), 0.5), FamilyPolicy.Read(null).Policy, MeterShelf.All[0]);
        Assert.Empty(verdicts.Of("R8")!.Judgements);
        Assert.NotEmpty(JudgeStage.Run(book with { Readings = Table<Reading>.Of([reading with { FromLug = null, ToLug = null }]) }, new(solved, Lugbook.Restoration.Bounds.BoundsStage.Run(solved), 0.5), FamilyPolicy.Read(null).Policy, MeterShelf.All[0]).Of("R8")!.Judgements);
    }

    [Fact]
    public void Old_neighbours_widen_what_is_expected_and_new_ones_narrow_it()
    {
        var netlist = Solved.Netlist(Envelope);
        ImmutableArray<Exchange> work = [new() { Position = "R8", Value = 100e3, Tolerance = 0.01 }, new() { Position = "R9", Value = 22e3, Tolerance = 0.01 }, .. Work];
        double Width(ImmutableArray<Exchange> order)
        {
            var board = Board.Found(netlist).After(order.TakeWhile(e => e.Position != "C9").Append(Work[0]));
            var shown = new Probing(board, [], ["E-1", "E-2"], Meters).Shown[0][0][0];
            return shown.High - shown.Low;
        }
        Assert.True(Width(work) < 0.2 * Width(Work));
        Assert.Equal(["C9", "R8", "R9"], SlipsStage.CheckOf(netlist, work, "C9", Meters)!.Exchanged);
        Assert.Equal(["R8"], SlipsStage.CheckOf(netlist, work, "R8", Meters)!.Exchanged);
    }

    [Fact]
    public void Without_a_capacitance_meter_only_ohms_are_asked_for()
    {
        var check = SlipsStage.CheckOf(Solved.Netlist(Envelope), Work, "C9", new(MeterShelf.Named("pointer-20k")!, null))!;
        Assert.NotEmpty(check.Readings);
        Assert.All(check.Readings, r => Assert.Equal(ReadingKind.Ohms, r.Kind));
        Assert.Contains(check.Slips, s => s.Slip.Id == "C9.a off" && !s.Exposed);   // no capacitor slip shows on a settled ohmmeter
    }
}

using Lugbook.Restoration.Trace;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Tests.Trace;

/// <summary>The search on the demo amplifier, and its laws.</summary>
public class TraceTests
{
    private static readonly Lazy<TraceModel> LazyAmp = new(() => TraceStage.Prepare(Solved.Demo("amp"), TraceSettings.Of(DemoBooks.Amp) with { Meters = new(MeterShelf.All[0], MeterShelf.Named("lcr-bridge")) })!);
    private static TraceModel Amp => LazyAmp.Value;

    private static Reading Volts(string lug, double volts) => new() { Name = lug, Kind = ReadingKind.Volts, Value = volts };
    private static Reading Healthy(ProbePlace place, double shows) => new() { Name = TraceStage.Place, Kind = place.Kind, Value = shows, FromLug = place.From, ToLug = place.To };

    private static Reading Shown(string fault, string lug, double? of = null)
    {
        var variant = Amp.Variants.Where(v => Amp.Faults[v.Fault].Id == fault).MinBy(v => Math.Abs(v.Size.Log - Math.Log(of ?? 1)))!;
        return Volts(lug, variant.Volts![Amp.HotNode(variant, lug)]);
    }

    // A leaky coupling capacitor makes the next grid positive, and nothing else does so while the plate before it keeps its volts: the textbook test (common practice, no source).
    [Fact]
    public void A_grid_that_goes_positive_points_at_the_coupling_capacitor_before_it()
    {
        Reading[] read = [Shown("C6 leaky", "V3-5", 200e3), Shown("C6 leaky", "V2-5", 200e3), Shown("C6 leaky", "V4-5", 200e3)];
        var result = TraceStage.Run(Amp, read);
        Assert.Equal("C6", result.Suspects[0].Position);
        Assert.Contains("leak", result.Suspects[0].Words, StringComparison.Ordinal);
        Assert.True(result.Healthy < 0.01, $"{result.Healthy}");
    }

    [Fact]
    public void Readings_of_the_set_as_it_should_be_raise_no_suspect_and_calm_the_search()
    {
        var readings = new List<Reading>();
        var result = TraceStage.Run(Amp, readings);
        var before = result.Healthy;
        for (var k = 0; k < 6; k++)
        {
            readings.Add(Healthy(result.Next[0].Place, result.Next[0].Healthy));
            result = TraceStage.Run(Amp, readings);
            Assert.NotEqual(TraceVerdict.Found, result.Verdict);
        }
        Assert.True(result.Healthy > before);
    }

    [Fact]
    public void Ten_volts_that_all_lean_with_a_high_line_are_no_fault()
    {
        var healthy = Amp.Variants[0];
        string[] lugs = ["V3-3", "V3-4", "V4-3", "V4-4", "V2-2", "V2-5", "V1-8", "V1-6", "C-5", "C-1"];
        // Every supply 8 % up moves what hangs on it by about as much.
        var readings = lugs.Where(l => Solved.Demo("amp").Netlist.Map.NodeOf(l) is not null && healthy.Volts![Amp.HotNode(healthy, l)] > 20).Select(l => Volts(l, 1.08 * healthy.Volts![Amp.HotNode(healthy, l)])).ToArray();
        Assert.True(readings.Length >= 5);
        var result = TraceStage.Run(Amp, readings);
        Assert.NotEqual(TraceVerdict.Found, result.Verdict);
        Assert.All(result.Suspects, s => Assert.True(s.Probability < 0.5, s.Words));
    }

    [Fact]
    public void One_mistyped_reading_does_not_make_a_fault_and_is_pointed_at()
    {
        string[] lugs = ["V3-3", "V4-3", "V2-2", "V2-5", "V1-8", "V1-6"];
        double At(string lug) => Amp.Variants[0].Volts![Amp.HotNode(Amp.Variants[0], lug)];
        // The plate of one half of a push-pull stage with a figure lost, while all about it is as it should be.
        Reading[] read = [.. lugs.Select(l => Volts(l, At(l))), Volts("V4-4", At("V4-4") / 10)];
        var result = TraceStage.Run(Amp, read);
        Assert.NotEqual(TraceVerdict.Found, result.Verdict);
        Assert.True(result.Readings.Single(r => r.Place.From == "V4-4").Mistyped > 0.5, result.Sentence);
        Assert.All(result.Readings.Where(r => r.Place.From != "V4-4"), r => Assert.True(r.Mistyped < 0.1));
    }

    [Fact]
    public void No_place_is_proposed_twice_nor_again()
    {
        foreach (var book in new[] { "radio", "amp" })
        {
            var model = book == "amp" ? Amp : TraceStage.Prepare(Solved.Demo(book), TraceSettings.Of(DemoBooks.Named(book)), stop: TestContext.Current.CancellationToken)!;
            var map = Solved.Demo(book).Netlist.Map;
            var places = Candidates.Of(model, null).Select(c => (c.Place.Kind, string.Join('-', new[] { map.NodeOf(c.Place.From)!.Index, map.NodeOf(c.Place.To)!.Index }.Order()))).ToArray();
            Assert.Equal(places.Length, places.Distinct().Count());
        }
        Reading[] read = [Shown("V3 weak", "V3-3", 0.2), Shown("V3 weak", "V2-2", 0.2)];
        Assert.DoesNotContain(TraceStage.Run(Amp, read, 20).Next, n => n is { Place.Kind: ReadingKind.Volts, Part: null } && read.Any(r => r.Name == n.Place.From));
    }

    [Fact]
    public void The_probabilities_of_all_faults_add_up_to_one_and_the_same_readings_give_the_same_answer()
    {
        Reading[] read = [Shown("V3 weak", "V3-3", 0.2), Shown("V3 weak", "V2-2", 0.2)];
        var settings = Amp.Settings;
        var ranking = new Ranking(Amp, Amp.Predictor, Observation.Of(read, Amp.Solved.Netlist.Map, settings.Volts, settings.Meters, settings.Named, settings.Touched));
        Assert.Equal(1, ranking.Probability.Sum(), 1e-9);
        Assert.Equal(Json(TraceStage.Run(Amp, read)), Json(TraceStage.Run(Amp, read)));
    }

    [Fact]
    public void Before_a_reading_there_are_proposals_and_no_suspects()
    {
        var result = TraceStage.Run(Amp, []);
        Assert.Empty(result.Suspects);
        Assert.NotEmpty(result.Next);
        Assert.Equal(TraceVerdict.Open, result.Verdict);
    }

    private static string Json(TraceResult r) => string.Join(';', r.Suspects.Select(s => $"{s.Id} {s.Probability:0.000000}"));

    [Fact]
    public void A_users_weights_replace_those_of_the_table_and_nonsense_is_told()
    {
        var (table, complaints) = PriorTable.Usual.With("family,fault,weight,why\npaper,leaky,3,dry attic\npaper,molten,1,x\nresistor,high,lots,x\n");
        Assert.Equal(3, table.Of("paper", "leaky").Weight);
        Assert.Equal(2, complaints.Length);
        Assert.Contains("line 3", complaints[0], StringComparison.Ordinal);
    }
}

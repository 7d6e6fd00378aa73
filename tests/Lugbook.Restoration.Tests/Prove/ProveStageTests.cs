using System.Collections.Concurrent;
using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Prove;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Tests.Slips;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Tests.Prove;

/// <summary>Laws of the cold proof, held against the engine's own ohms and impedance (and not the reduction that the stage works with).</summary>
public class ProveStageTests
{
    private static readonly BenchMeters Meters = new(MeterShelf.All[0], MeterShelf.Named("lcr-bridge"));
    private static readonly ConcurrentDictionary<string, (ProveResult, Board)> Known = new(StringComparer.Ordinal);

    private static (ProveResult Proof, Board Board) Of(string name) => Known.GetOrAdd(name, n =>
    {
        var (solved, work) = (Solved.Demo(n), SlipReportTests.WorkOf(DemoBooks.Named(n)).Work);
        return (ProveStage.Run(solved, work, Meters, null, CancellationToken.None), Board.Found(solved.Netlist).After(work.Where(e => e.Done || !e.HeldBack)));
    });

    [Theory]
    [InlineData("radio")]
    [InlineData("amp")]
    public void Every_dangerous_short_is_named_from_the_readings_or_named_as_not_tellable(string name)
    {
        var (proof, board) = Of(name);
        Assert.True(proof.Shorts.Count(s => s.IsTold) > 10);
        var random = new Random(3);
        foreach (var danger in proof.Shorts)
        {
            if (!danger.IsTold)
            {
                Assert.Contains("cannot tell", danger.WhyNot, StringComparison.Ordinal);
                continue;
            }
            foreach (var ohms in new[] { 0.0, 0.6, 10 })
            {
                var bridge = (Resistor)danger.Slip.Change!.Further[0];
                var change = danger.Slip.Change with { Further = [bridge with { Name = "fault", Ohms = ohms }] };
                var readings = Taken(proof, board, change, ohms > 0 ? 5 : 6, random);
                var outcome = ProveStage.Judge(proof, readings);
                Assert.True(outcome.Verdict == CheckVerdict.LooksLike && outcome.Suspects.Any(s => s.Id == danger.Slip.Id), $"{name}: {danger.Slip.Sentence}, {ohms} Ω: {outcome.Sentence}");
                Assert.Contains("No power", outcome.Sentence, StringComparison.Ordinal);
            }
        }
    }

    [Theory]
    [InlineData("radio", 12)]
    [InlineData("amp", 12)]
    public void A_healthy_set_within_its_tolerances_passes(string name, int samples)
    {
        var (proof, board) = Of(name);
        for (var seed = 0; seed < samples; seed++)
        {
            var readings = Taken(proof, board, SlipChange.None, seed, new Random(seed), all: true);
            Assert.True(readings.Length > proof.Readings.Length / 2);
            Assert.Equal(CheckVerdict.AsExpected, ProveStage.Judge(proof, readings).Verdict);
        }
    }

    [Theory]
    [InlineData("radio")]
    [InlineData("amp")]
    public void What_a_reading_shows_is_not_asked_of_the_eye_and_the_rest_is(string name)
    {
        var (proof, _) = Of(name);
        var shown = proof.Readings.SelectMany(r => r.Slips).Where(s => s.Exposed && s.Slip.Kind != SlipKind.Dangerous).Select(s => s.Slip.Id).Distinct().Count();
        Assert.Equal(proof.Cover.Seen, shown);
        Assert.True(proof.Cover.IsProven && shown > proof.Cover.All / 2);
        Assert.All(proof.Unseen, u => Assert.NotEmpty(u.LookAt));
    }

    [Fact]
    public void The_kinds_of_danger_of_a_set_without_a_transformer_are_all_there()
    {
        var kinds = Of("radio").Proof.Shorts.Select(s => s.Kind).Distinct().Order().ToArray();
        Assert.Equal([ShortKind.Supply, ShortKind.Heater, ShortKind.LineToMetal, ShortKind.AcrossLine], kinds.Where(k => k != ShortKind.CommonToChassis));
        Assert.Contains(Of("radio").Proof.Looks, l => l.LookAt.Contains("nothing joins common", StringComparison.Ordinal));
        Assert.Contains(Of("radio").Proof.Looks, l => l.LookAt.Contains("common is joined to the line", StringComparison.Ordinal));
    }

    [Fact]
    public void An_electrolytic_entered_the_wrong_way_round_is_called_out_by_the_solved_volts()
    {
        var book = DemoBooks.Amp;
        Assert.DoesNotContain(Of("amp").Proof.Looks, l => l.IsWrong);
        var wrong = book with { Parts = Table<Lugbook.Trade.Parts.Part>.Of(book.Parts.Select(p => p.Name == "C10B" ? p with { PlusLead = p.PlusLead == 'a' ? 'b' : 'a' } : p)) };
        var look = Assert.Single(Whole(wrong).Looks, l => l.IsWrong);
        Assert.Equal("C10B", look.Place);
        Assert.Contains("wrong way round", look.Evidence, StringComparison.Ordinal);
    }

    [Fact]
    public void A_loudspeaker_that_nothing_drives_closes_no_circuit()
    {
        var book = TestBook.GoodSet().Build();
        Assert.Contains(Whole(book).Looks, l => l.Place == "SP" && l.Evidence.StartsWith("It closes a circuit", StringComparison.Ordinal));
        var loose = book with { Parts = Table<Lugbook.Trade.Parts.Part>.Of(book.Parts.Where(p => p.Name != "T2S")) };
        Assert.Contains(Whole(loose).Looks, l => l.Place == "SP" && l.Evidence.StartsWith("It closes no circuit", StringComparison.Ordinal));
    }

    [Fact]
    public void Stopped_work_ends_at_once() =>
        Assert.ThrowsAny<OperationCanceledException>(() => ProveStage.Run(Solved.Demo("amp"), SlipReportTests.WorkOf(DemoBooks.Amp).Work, Meters, null, new CancellationToken(true)));

    private static ProveResult Whole(Book book) => ProveStage.Run(Solved.Of(book), [], Meters, null, TestContext.Current.CancellationToken);

    // What would be read on one chassis: of the shorts' readings, or of all.
    private static ImmutableArray<Reading> Taken(ProveResult proof, Board board, SlipChange change, int seed, Random random, bool all = false)
    {
        var network = SoundnessTests.Sample(board, change, false, seed);
        return
        [
            .. from r in proof.Readings.Take(all ? proof.Readings.Length : proof.ShortReadings)
               let shown = SoundnessTests.Shown(network, change, board, r, Meters, random)
               where shown is not null
               select new Reading { Name = ProveStage.Place, Kind = r.Kind, Value = double.IsInfinity(shown.Value) ? Meters.Ohms.OhmsTop : shown.Value, IsOver = double.IsInfinity(shown.Value), FromLug = r.From, ToLug = r.To, Meter = r.Meter },
        ];
    }
}

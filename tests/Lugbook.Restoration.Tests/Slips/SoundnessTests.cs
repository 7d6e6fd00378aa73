using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Tests.Unseen;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Tests.Slips;

/// <summary>
/// "Exposed" is no figure of speech: chassis drawn at random within their tolerances, leakages and settings, solved by the engine's own ohms and impedance and read with a meter that errs within its statement, never show under an
/// exposed slip what a healthy one may show, nor healthy what is not expected.
/// </summary>
public class SoundnessTests
{
    [Theory]
    [InlineData("radio", 12)]
    [InlineData("amp", 12)]
    [InlineData("superhet", 8)]
    public void What_is_called_exposed_never_overlaps_with_a_healthy_chassis(string name, int samples)
    {
        var book = name == "superhet" ? UnseenBooks.Named(name) : DemoBooks.Named(name);
        var (netlist, work) = SlipReportTests.WorkOf(book);
        var meters = new BenchMeters(MeterShelf.All[0], MeterShelf.Named("lcr-bridge"));
        var random = new Random(7);
        var (healthy, exposed) = (0, 0);
        for (var i = 0; i < work.Length; i++)
        {
            var check = SlipsStage.CheckOf(netlist, work, work[i].Position, meters)!;
            var board = Board.Found(netlist).After(work.Where((e, k) => k == i || e.Done || k < i && !e.HeldBack));
            for (var n = 0; n < samples; n++)
            {
                var seed = random.Next();
                foreach (var reading in check.Readings)
                {
                    var shown = Shown(Sample(board, SlipChange.None, false, seed), SlipChange.None, board, reading, meters, random);
                    Assert.True(shown is null || reading.Expected.Low <= shown && shown <= reading.Expected.High, $"{name} {check.Position} healthy, {reading.Sentence}: {shown}");
                    healthy++;
                    foreach (var slip in reading.Slips.Where(s => s.Exposed).Where((_, k) => (k + n) % 5 == 0))
                    {
                        var wrong = Shown(Sample(board, slip.Slip.Change!, slip.Slip.Kind == SlipKind.OldLeft, seed), slip.Slip.Change!, board, reading, meters, random);
                        Assert.False(wrong is not null && reading.Expected.Low <= wrong && wrong <= reading.Expected.High, $"{name} {check.Position}, {slip.Slip.Id}, {reading.Sentence}: {wrong} is as expected");
                        exposed++;
                    }
                }
            }
        }
        Assert.True(healthy > 200 && exposed > 200, $"{healthy} healthy, {exposed} exposed readings looked at");
    }

    // What the meter shows: infinite for "over"; null where the capacitance meter has no business.
    internal static double? Shown(Network network, SlipChange change, Board board, CheckReading reading, BenchMeters meters, Random random)
    {
        int At(string lug) => change.Lugs.TryGetValue(lug, out var moved) ? moved : board.Netlist.Map.NodeOf(lug)!.Index;
        var (a, b) = (At(reading.From), At(reading.To));
        var error = 2 * random.NextDouble() - 1;
        if (reading.Kind == ReadingKind.Ohms)
        {
            var ohms = a == b ? 0 : Ohms.Between(network, a, b, meters.Ohms.OhmsTestVolts).Ohms + 0.5 * random.NextDouble();
            return ohms > meters.Ohms.OhmsTop ? double.PositiveInfinity : Math.Max(0, ohms + error * meters.Ohms.OhmsUncertainty(ohms));
        }
        if (a == b) return null;
        var z = Impedance.Between(network, a, b, meters.Farads!.FaradsHertz);
        // A meter that tells phase; above a loss of three it shows dashes.
        if (z.Dissipation > 3 || double.IsFinite(z.Magnitude) && z.ParallelFarads < 0) return null;
        var farads = z.ParallelFarads;
        return farads + error * meters.Farads.Farads!.Uncertainty(farads);
    }

    internal static Network Sample(Board board, SlipChange change, bool old, int seed)
    {
        var cold = ColdSet.Of(board.Netlist with { Network = change.Of(board.Netlist.Network!) });
        return new(cold.NodeNames, cold.Reference, cold.Elements.SelectMany(e => Drawn(e, old && change.Instead.Any(i => i.Name == e.Name) ? board.OldOf(e.Name) : board.Of(e.Name), seed)));
    }

    // Each part somewhere in its range, the same chassis for every reading of one seed; a leakage evenly by conductance.
    private static IEnumerable<Element> Drawn(Element element, Lugbook.Restoration.Slips.Range range, int seed)
    {
        var random = new Random(unchecked(element.Name.Aggregate(seed, (h, c) => h * 31 + c)));
        double In(double low, double high) => low <= 0 ? low + (high - low) * random.NextDouble() : low * Math.Pow(high / low, random.NextDouble());
        var ohms = In(range.OhmsLow, range.OhmsHigh);
        yield return element switch
        {
            Resistor e => e with { Ohms = e.Ohms * ohms },
            Inductor e => e with { Ohms = e.Ohms * ohms, Henries = e.Henries * In(0.4, 2.5) },
            Capacitor e => e with { Farads = e.Farads * In(range.FaradsLow, range.FaradsHigh), SeriesOhms = e.SeriesOhms * ohms, LeakOhms = double.IsInfinity(range.LeakLow) ? double.PositiveInfinity : 1 / (random.NextDouble() * (1 / range.LeakLow)) },
            Control e => e with { Ohms = e.Ohms * In(0.8, 1.2), Position = 0.02 + 0.96 * random.NextDouble() },
            Filament e => e with { ColdShare = e.ColdShare * ohms },
            Fuse e => e with { Ohms = e.Ohms * ohms },
            _ => element,
        };
    }
}

using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Sheet;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Tests.Judge;

/// <summary>Volts at a lug, against the sheet.</summary>
public class VoltsTests
{
    private static readonly Lazy<SheetResult> Digital = new(() => Sheet("radio", MeterShelf.All[0]));

    private static SheetResult Sheet(string book, Meter meter) =>
        SheetStage.Run(Solved.Demo(book), SheetConditions.Of(DemoBooks.Named(book), DemoBooks.Handbook) with { Meter = meter, Samples = 400 });

    // All readings in one run: what lies in parallel with every part is found only once.
    private static System.Collections.Immutable.ImmutableArray<VoltsVerdict> Judge(IEnumerable<(string Lug, double Volts)> read, Meter? meter = null, Lazy<SheetResult>? sheet = null, string name = "radio")
    {
        var book = DemoBooks.Named(name) with { Readings = Table<Reading>.Of(read.Select(r => new Reading { Name = r.Lug, Kind = ReadingKind.Volts, Value = r.Volts, Meter = meter?.Name })) };
        return JudgeStage.Run(book, new(Solved.Demo(name), new() { Positions = [] }, 0.5, sheet ?? Digital), new(), MeterShelf.All[0]).Volts;
    }

    /// <summary>Formula: a reading at an end of what healthy sets show, moved outwards by less and by more than the meter's error at it.</summary>
    [Fact]
    public void Outside_is_told_only_beyond_the_spread_and_the_meters_error()
    {
        var line = Digital.Value.Lines.Single(l => l.Lug == "V3-6");
        var (low, high) = line.MeterSpread!.Value;
        double Error(double v) => MeterShelf.All[0].Volts.Uncertainty(v);
        double[] read = [low - 1.2 * Error(low), low - 0.9 * Error(low), line.Meter!.Shown, high + 0.9 * Error(high), high + 1.2 * Error(high)];
        var told = Assert.Single(Judge(read.Select(v => ("V3-6", v))));
        Assert.Equal([Verdict.Outside, Verdict.Within, Verdict.Within, Verdict.Within, Verdict.Outside], told.Judgements.Select(j => j.Verdict));
    }

    /// <summary>Source: the sheet solved with that meter across each pin: what the source resistance of the other meter's sheet foretells must come out within 3 %.</summary>
    [Theory]
    [InlineData("pointer-20k")]
    [InlineData("valve-voltmeter-11M")]
    public void Another_meters_load_is_foretold_without_solving_anew(string name)
    {
        var meter = MeterShelf.Named(name)!;
        var lines = Sheet("radio", meter).Lines.Where(l => l is { IsAc: false, Unpredictable: null, Meter: not null, Volts: not null } && Math.Abs(l.Volts!.Value) > 2).ToArray();
        Assert.True(lines.Length >= 10);
        foreach (var (solved, told) in lines.Zip(Judge(lines.Select(l => (l.Lug, 10.0)), meter)))
        {
            var foretold = told.Judgements[0].Intact!.Value;
            Assert.Equal(solved.MeterSpread!.Value.Low, foretold.Low, 0.03 * Math.Abs(solved.MeterSpread.Value.Low) + 0.02);
            Assert.Equal(solved.MeterSpread.Value.High, foretold.High, 0.03 * Math.Abs(solved.MeterSpread.Value.High) + 0.02);
        }
    }

    /// <summary>Source: AWV Radiotron 6V6-GT sheets (Dec 1944): 12 W; in the amplifier one output valve alone takes more.</summary>
    [Fact]
    public void A_limit_that_the_solved_set_passes_is_told_at_the_electrode_that_passes_it()
    {
        var sheet = new Lazy<SheetResult>(() => Sheet("amp", MeterShelf.All[0]));
        var told = Judge([("V3-3", 280), ("V3-8", 18)], sheet: sheet, name: "amp");
        Assert.Contains(told[0].Passed, p => p.Contains("V4 pulled; limit 12 W", StringComparison.Ordinal));
        Assert.DoesNotContain(told[1].Passed, p => p.Contains("plate", StringComparison.Ordinal));
    }

    [Fact]
    public void Where_the_sheet_says_nothing_nothing_is_told()
    {
        var reading = Table<Reading>.Of([new() { Name = "A-1", Kind = ReadingKind.Volts, Value = 5 }]);
        var book = TestBook.New().Strip("A", 2).Resistor("R1", 1e3, "A-1", "A-2").Build() with { Readings = reading };
        var solved = Solved.Of(book);
        var told = JudgeStage.Run(book, new(solved, new() { Positions = [] }, 0.5, new(() => SheetStage.Run(solved, SheetConditions.Of(book, DemoBooks.Handbook)))), new(), MeterShelf.All[0]).Volts.Single();
        Assert.Equal(Verdict.CannotTell, told.Judgements[0].Verdict);
        Assert.Equal(Verdict.CannotTell, JudgeStage.Run(book, new(solved, new() { Positions = [] }, 0.5), new(), MeterShelf.All[0]).Volts.Single().Judgements[0].Verdict);
    }
}

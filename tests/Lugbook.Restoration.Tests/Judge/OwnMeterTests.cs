using CsCheck;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Tests.Judge;

/// <summary>Meters of the user's own.</summary>
public class OwnMeterTests
{
    /// <summary>A copy of any meter that ships is as good as the meter itself, at every reading.</summary>
    [Fact]
    public void A_copy_of_a_shipped_meter_reads_like_it()
    {
        foreach (var shipped in MeterShelf.All)
        {
            var copy = OwnMeter.Of("mine", OwnMeter.Copy(shipped, "mine"));
            Assert.Empty(OwnMeter.Copy(shipped, "mine").SelectMany(OwnMeter.Faults));
            Gen.Double[-3, 8].Select(e => Math.Pow(10, e)).Sample(x =>
                Same(shipped.OhmsUncertainty(x), copy.OhmsUncertainty(x)) && Same(shipped.Volts.Uncertainty(x), copy.Volts.Uncertainty(x)) && Same(shipped.AcVolts.Uncertainty(x), copy.AcVolts.Uncertainty(x))
                && Same(shipped.Farads?.Uncertainty(1e-12 * x), copy.Farads?.Uncertainty(1e-12 * x)) && Same(shipped.Insulation?.Uncertainty(x), copy.Insulation?.Uncertainty(x)) && Same(shipped.LoadOhms(x), copy.LoadOhms(x)), iter: 200);
            Assert.Equal((shipped.OhmsTop, shipped.OhmsTestVolts, shipped.InsulationVolts), (copy.OhmsTop, copy.OhmsTestVolts, copy.InsulationVolts));
        }
    }

    private static bool Same(double? a, double? b) => a is null ? b is null : b is { } y && (a.Value == y || Math.Abs(a.Value - y) <= 1e-9 * Math.Abs(y));

    /// <summary>Formula: ±(0.8 % + 3 digits of 2,000) of a 200 kΩ range at 100 kΩ is 800 + 300 Ω; its highest range is stated worse, ±(2 % + 5 digits).</summary>
    [Fact]
    public void Each_range_has_the_error_that_its_line_states()
    {
        MeterLine Line(double top, double percent, double digits) => new() { Name = "m", Function = MeterFunction.Ohms, Top = top, ReadingPercent = percent, Digits = digits, Counts = 2000 };
        var meter = OwnMeter.Of("m", [Line(20e6, 2, 5), Line(200e3, 0.8, 3)]);
        Assert.Equal(1100, meter.OhmsUncertainty(100e3), 6);
        Assert.Equal(0.02 * 10e6 + 5 * 20e6 / 2000, meter.OhmsUncertainty(10e6), 3);
        Assert.Equal(double.PositiveInfinity, meter.OhmsUncertainty(30e6));
    }

    [Fact]
    public void A_reading_is_judged_by_the_books_own_meter_and_an_unknown_one_is_named()
    {
        var book = TestBook.New().Strip("A", 2).Facts(f => f with { CommonLug = "A-2" }).Resistor("R1", 47e3, "A-1", "A-2").Build() with
        {
            Meters = Table<MeterLine>.Of([new() { Name = "coarse", Function = MeterFunction.Ohms, Top = 100e3, FullScalePercent = 20 }]),
            Readings = Table<Reading>.Of([new() { Name = "R1", Kind = ReadingKind.Ohms, Value = 57.8e3, IsLifted = true, Meter = "Coarse" }, new() { Name = "R1", Kind = ReadingKind.Ohms, Value = 57.8e3, IsLifted = true, Meter = "lost" }]),
        };
        var result = JudgeTests.Judge(book, MeterShelf.All[0]);
        // 57.8 kΩ against 47 kΩ ±20 % = 56.4 kΩ: proof with 0.8 %, none with an error of 20 kΩ.
        Assert.Equal([Lugbook.Restoration.Judge.Verdict.Outside, Lugbook.Restoration.Judge.Verdict.Undecided], result.Of("R1")!.Judgements.Select(j => j.Verdict));
        Assert.Contains("lost", Assert.Single(result.Remarks), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 1, null, null, "full scale above nought")]
    [InlineData(200, 80, null, null, "per cent of the reading")]
    [InlineData(200, null, 3, null, "how much a digit is")]
    [InlineData(200, null, null, 2000, "no error")]
    public void What_no_meter_can_be_is_refused_with_what_to_do(double top, int? percent, int? digits, int? counts, string problem)
    {
        var faults = OwnMeter.Faults(new() { Name = "m", Function = MeterFunction.Ohms, Top = top, ReadingPercent = percent, Digits = digits, Counts = counts });
        Assert.Contains(faults, f => f.Problem.Contains(problem, StringComparison.Ordinal) && f.Remedy.Length > 0);
    }
}

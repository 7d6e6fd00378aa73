using Lugbook.Circuit.Valves;

namespace Lugbook.Circuit.Tests.Valves;

/// <summary>Source: the handbook lines of data/valves, each with its own source.</summary>
public class ValveAccuracyTests
{
    // The figures stand a little above what docs/accuracy/valve-fits.md shows; issue 3 asks for 5 % (10 % of gm) fitted, 5 % and 15 % left out.
    [Theory]
    [InlineData(Quantity.PlateCurrent, false, 0.015, 0.05)]
    [InlineData(Quantity.Transconductance, false, 0.02, 0.06)]
    [InlineData(Quantity.ScreenCurrent, false, 0.07, 0.15)]
    [InlineData(Quantity.AmplificationFactor, false, 0.025, 0.06)]
    [InlineData(Quantity.PlateCurrent, true, 0.05, 0.15)]
    [InlineData(Quantity.Transconductance, true, 0.05, 0.15)]
    [InlineData(Quantity.ScreenCurrent, true, 0.15, 0.25)]
    public void Laws_meet_the_handbooks(Quantity quantity, bool leftOut, double median, double ninetyPerCent)
    {
        var errors = ValveAccuracy.Errors(Data.Accuracy, quantity, leftOut);
        Assert.True(errors.Length >= 25);
        Assert.InRange(ValveAccuracy.Percentile(errors, 0.5), 0, median);
        Assert.InRange(ValveAccuracy.Percentile(errors, 0.9), 0, ninetyPerCent);
    }

    [Fact]
    public void Every_line_of_the_files_is_fitted()
    {
        Assert.Empty(Data.Library.Faults);
        var lines = new[] { "tube-points.csv", "more-points.csv" }.Sum(f => Data.Text(f).Split('\n').Count(l => l.Length > 0 && l[0] != '#') - 1);
        Assert.Equal(lines, Data.Accuracy.Length);
    }

    [Fact]
    public void A_left_out_line_was_not_in_the_fit()
    {
        // The only current line of the E88CC left out: what remains is a cut-off line, which cannot know its large cathode.
        var row = Data.Accuracy.Single(r => r.Type == "E88CC" && r.Fitted.Line.Kind != LineKind.Cutoff);
        Assert.False(row.Supported);
        Assert.InRange(Math.Abs(row.Fitted.Figures[0].Error), 0, 0.05);
        Assert.InRange(Math.Abs(row.LeftOut!.Figures[0].Error), 0.2, 10);
    }

    /// <summary>Source: the files' types; `lugbook valve check` writes the pages.</summary>
    [Fact]
    public void The_pages_hold_every_type()
    {
        var numbers = ValveAccuracy.Numbers(Data.Library);
        Assert.Contains("| 6BE6 |", numbers, StringComparison.Ordinal);
        var page = ValveAccuracy.Page(Data.Accuracy, Data.Text("published-tube-model-parameters.csv"));
        Assert.Contains("| 12AX7A | Triode |", page, StringComparison.Ordinal);
    }
}

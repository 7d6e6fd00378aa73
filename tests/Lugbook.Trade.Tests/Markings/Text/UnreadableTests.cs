using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Markings.Text;

/// <summary>Source: the preferred and old values of data/reference/preferred-values.csv; common practice, no source.</summary>
public class UnreadableTests
{
    private static readonly MarkingContext Resistor = new() { Kind = PartKind.Resistor };

    [Fact]
    public void A_lost_figure_gives_the_made_values_that_fit()
    {
        var result = TextMarking.Read("4?K", Resistor);
        Assert.Equal(47e3, result.Best!.Value);
        Assert.Equal([40e3, 43e3, 47e3], result.Meanings.Where(m => m.Unit == Unit.Ohm).Select(m => m.Value).Order());
        Assert.All(result.Meanings, m => Assert.Contains(m.Doubts, d => d.Contains("cannot be read", StringComparison.Ordinal)));
        Assert.Equal(1, result.Meanings.Sum(m => m.Share), 1e-9);
    }

    [Theory]
    [InlineData("?7K", 27e3, 47e3)]
    [InlineData(".0? MFD", 1e-8, 5e-8)]
    [InlineData("2?0 MMF", 200e-12, 250e-12)]
    [InlineData("47?", 470, 47e3)]
    [InlineData("4?7", 4.7, 4700)]
    [InlineData("1/? MEG", 250e3, 500e3)]
    public void Each_candidate_is_made_and_the_likely_ones_are_there(string marking, double one, double other)
    {
        var result = TextMarking.Read(marking);
        Assert.Contains(result.Meanings, m => Math.Abs(m.Value / one - 1) < 1e-9);
        Assert.Contains(result.Meanings, m => Math.Abs(m.Value / other - 1) < 1e-9);
        Assert.All(result.Meanings, m => Assert.True(OldValues.IsMade(m.Value, m.Unit)));
    }

    [Fact]
    public void A_meter_reading_picks_the_candidate() =>
        Assert.Equal(43e3, TextMarking.Read("4?K", Resistor with { ExpectedValue = 43.4e3 }).Best!.Value);

    [Fact]
    public void A_lost_figure_of_the_volts_gives_usual_ratings()
    {
        var result = TextMarking.Read(".05 MFD 4?0V");
        Assert.Equal([400.0, 450.0], result.Meanings.Take(2).Select(m => m.RatedVolts!.Value).Order());
        Assert.All(result.Meanings, m => Assert.Equal(5e-8, m.Value));
    }

    [Theory]
    [InlineData(".05 M?D 400V", "0.05 µF@400")]
    [InlineData("473? 630", "0.047 µF@630")]
    [InlineData("47K ?", "47 kΩ")]
    [InlineData("? 47K", "47 kΩ")]
    [InlineData("47K?", "47 kΩ")]
    [InlineData("47K 1/?W", "47 kΩ 0.5W")]
    public void What_does_not_matter_may_be_lost(string marking, string meaning) =>
        Assert.Equal(meaning, Expect.Line(TextMarking.Read(marking).Best!));

    [Theory]
    [InlineData("???", 0)]
    [InlineData("?", 0)]
    [InlineData("?? MFD", 0)]
    [InlineData("4????K", 4)]
    [InlineData("  ?K", 2)]
    public void Too_much_lost_is_a_complaint(string marking, int at)
    {
        var complaint = TextMarking.Read(marking).Complaint;
        Assert.NotNull(complaint);
        Assert.Equal(at, complaint.At);
    }
}

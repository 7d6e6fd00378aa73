using CsCheck;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Markings;

/// <summary>What is printed on a new capacitor.</summary>
public class FigureCodeTests
{
    /// <summary>Source: IEC 60062, three-character code: two figures and the number of noughts, in pF.</summary>
    [Theory]
    [InlineData(22e-9, "223")]
    [InlineData(4.7e-9, "472")]
    [InlineData(100e-9, "104")]
    [InlineData(10e-12, "100")]
    [InlineData(1e-6, "105")]
    [InlineData(1.25e-9, null)]   // three figures
    [InlineData(4.7e-12, null)]
    [InlineData(47e-6, null)]
    public void Two_figures_and_noughts(double farads, string? code) => Assert.Equal(code, FigureCode.Of(farads));

    /// <summary>Law: whatever is printed reads back as the value, likeliest meaning first.</summary>
    [Fact]
    public void What_is_printed_reads_back() =>
        Gen.Select(Gen.Int[10, 99], Gen.Int[1, 5]).Sample((figures, noughts) =>
        {
            var farads = figures * Math.Pow(10, noughts) * 1e-12;
            var code = FigureCode.Of(farads);
            var meanings = MarkingReader.Read(code!, new() { Kind = Lugbook.Trade.Parts.PartKind.Film }).Meanings;
            Assert.Contains(meanings, m => m.Unit == Unit.Farad && Math.Abs(m.Value / farads - 1) < 1e-9);
        });
}

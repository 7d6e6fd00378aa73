using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Tests.Markings.Text;

/// <summary>Source: follows from the rules of data/reference/letter-codes.csv; the places are ours.</summary>
public class ComplaintTests
{
    [Theory]
    [InlineData("47 MFB", 3, "MFD")]
    [InlineData("47 KOM", 3, "KOHM")]
    [InlineData("100 XYZ", 4, "unit")]
    [InlineData("4.7.3K", 3, "decimal")]
    [InlineData(".05 MFD 0V", 8, "zero")]
    [InlineData("47K .05 MFD", 4, "sections")]
    [InlineData("47 OHMS .05 MFD", 8, "one part")]
    [InlineData(".05 MFD .1 MFD", 8, "sections")]
    [InlineData("473J630K7", 4, "blank")]
    [InlineData("47K 33", 4, "")]
    [InlineData("% 47K", 0, "tolerance")]
    [InlineData("1/2W", 0, "value")]
    [InlineData("120 mA", 0, "value")]
    [InlineData("MICA", 0, "figure")]
    [InlineData("10 MFD 120%", 7, "tolerance")]
    [InlineData("47K \u0001☃", 5, "")]
    [InlineData(" \u00A0 ", 0, "")]
    [InlineData("6J104", 0, "codes")]
    public void A_complaint_names_place_and_remedy(string marking, int at, string remedy)
    {
        var result = TextMarking.Read(marking);
        Assert.Empty(result.Meanings);
        Assert.Equal(at, result.Complaint!.At);
        Assert.Contains(remedy, result.Complaint.Remedy + result.Complaint.Problem, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(marking, result.Complaint.Text);
    }

    [Fact]
    public void The_place_counts_in_the_text_as_typed()
    {
        // The squared unit folds into two letters and a soft hyphen into none.
        Assert.Equal(7, TextMarking.Read("\u00AD\u00AD0.1㎌ 0V").Complaint!.At);
    }

    [Fact]
    public void A_valves_type_is_no_value() =>
        Assert.Contains("type", TextMarking.Read("6V6GT", new() { Kind = PartKind.Valve }).Complaint!.Problem, StringComparison.Ordinal);

    [Fact]
    public void A_novel_is_no_marking()
    {
        var complaint = TextMarking.Read(new string('4', 100_000)).Complaint!;
        Assert.Contains("long", complaint.Problem, StringComparison.Ordinal);
    }
}

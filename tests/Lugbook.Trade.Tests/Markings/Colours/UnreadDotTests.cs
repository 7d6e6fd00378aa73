using Lugbook.Trade.Markings;

namespace Lugbook.Trade.Tests.Markings.Colours;

/// <summary>Source: found by the random test of this folder.</summary>
public class UnreadDotTests
{
    [Theory]
    [InlineData("gold brown orange violet ? black", "mica-mil-6")]
    [InlineData("gold ? orange violet brown black", "mica-eia-6")]
    [InlineData("? gold red", "mica-rma-3")]
    public void An_unread_dot_in_a_part_that_cannot_be_is_a_complaint_and_no_crash(string dots, string code)
    {
        var read = ColourMarking.Read(dots, new() { ColourCode = code });
        Assert.True(read.Complaint is not null || read.Meanings.Length > 0);
    }
}

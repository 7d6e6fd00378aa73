using Lugbook.Trade.Markings;
using Lugbook.Trade.Markings.Colours;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Markings.Colours;

/// <summary>Source: IEC 60757 for the letters (from memory); short forms and words are common practice, no source.</summary>
public class ColourWordsTests
{
    [Theory]
    [InlineData("brown black orange silver")]
    [InlineData("Brown, Black, Orange, Silver")]
    [InlineData("BN-BK-OG-SR")]
    [InlineData("bn bk og sr")]
    [InlineData("brn/blk/org/slv")]
    [InlineData("brn blk orn silver")]
    [InlineData("brown band, black band, orange band and silver band")]
    [InlineData("braun schwarz orange silber")]
    [InlineData("marron noir orange argent")]
    [InlineData("  brown  black\torange  silver.")]
    public void All_spellings_of_one_resistor_read_alike(string marking)
    {
        Assert.True(ColourMarking.LooksLikeColours(marking));
        var best = ColourMarking.Read(marking).Best!;
        Assert.Equal((10_000, Unit.Ohm, Tolerance.Percent(10)), (best.Value, best.Unit, best.Tolerance));
        Assert.True(best.Share > 0.9);
    }

    [Theory]
    [InlineData("gray red brown gold", 820)]
    [InlineData("grey red brown golden", 820)]
    [InlineData("purple green red or", 7500)]
    [InlineData("vio grn red gld", 7500)]
    [InlineData("VT GN RD GD", 7500)]
    [InlineData("yel pur org sil", 47000)]
    [InlineData("wh bn bu gd", 91e6)]
    public void Names_differ_and_values_do_not(string marking, double ohms) =>
        Assert.Equal(ohms, ColourMarking.Read(marking, new() { Kind = PartKind.Resistor }).Best!.Value);

    [Fact]
    public void Every_letter_code_and_name_reads_as_its_own_colour()
    {
        foreach (var colour in ColourNames.All)
        {
            Assert.Equal((WordSort.Colour, colour, ""), ColourWord.Of(colour.LetterCode().ToLowerInvariant(), false));
            Assert.Equal((WordSort.Colour, colour, ""), ColourWord.Of(colour.Name(), false));
            Assert.Matches("^#[0-9a-f]{6}$", colour.Hex());
        }
        Assert.Equal(ColourNames.All.Count, ColourNames.All.Select(c => c.Hex()).Distinct().Count());
    }

    [Theory]
    [InlineData("body red, end green, dot orange", 25_000, 20)]
    [InlineData("body=red tip=green spot=orange", 25_000, 20)]
    [InlineData("red body, green tip, orange spot", 25_000, 20)]
    [InlineData("dot yellow, end red, body red, other end silver", 220_000, 10)]
    [InlineData("body green, tip black, spot yellow, other tip gold", 500_000, 5)]
    [InlineData("body yellow end violet", 470_000, 20)]
    [InlineData("orange body, no tip, green dot", 3_300_000, 20)]
    [InlineData("body red", 2200, 20)]
    [InlineData("body blue, end grey, band red", 6800, 20)]
    public void Body_end_dot_may_be_written_in_words(string marking, double ohms, double percent)
    {
        Assert.True(ColourMarking.LooksLikeColours(marking));
        var best = ColourMarking.Read(marking).Best!;
        Assert.Equal((ohms, Tolerance.Percent(percent)), (best.Value, best.Tolerance));
        Assert.Equal("resistor, body-end-dot", best.Code);
    }

    [Fact]
    public void Threads_and_the_places_of_six_dots_are_words_too()
    {
        Assert.Equal(750, ColourMarking.Read("body violet, heavy thread green, fine thread brown").Best!.Value);
        var mica = ColourMarking.Read("BR brown BC green BL green TL orange TC white TR black").Best!;
        Assert.Equal((3900e-12, Tolerance.Percent(5), 500.0), (mica.Value, mica.Tolerance, mica.RatedVolts));
    }

    [Theory]
    [InlineData("4K7")]
    [InlineData(".005 MFD 600V")]
    [InlineData("green dot .01")]
    [InlineData("?")]
    [InlineData("4? 7k")]
    [InlineData("silver mica")]
    [InlineData("none")]
    [InlineData("")]
    [InlineData("body")]
    public void Printed_values_are_not_taken_for_colours(string marking) => Assert.False(ColourMarking.LooksLikeColours(marking));

    [Theory]
    [InlineData("brown blcak red gold", 6, "black")]
    [InlineData("brown black yelow", 12, "yellow")]
    [InlineData("brown gr red", 6, "in full")]
    [InlineData("brown tan red", 6, "?")]
    [InlineData("brown black plaid gold", 12, "colour names")]
    [InlineData("brown or red black", 6, "red?")]
    [InlineData("body red end green orange", 19, "place")]
    [InlineData("end green dot orange", 0, "body")]
    [InlineData("red", 3, "body")]
    [InlineData("brown black red red red red red", 28, "nine")]
    public void A_complaint_points_at_the_word_and_says_what_to_write(string marking, int at, string remedy)
    {
        Assert.True(ColourMarking.LooksLikeColours(marking));
        var complaint = ColourMarking.Read(marking).Complaint!;
        Assert.Equal(at, complaint.At);
        Assert.Contains(remedy, complaint.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_code_is_answered_with_the_codes_there_are()
    {
        var complaint = ColourMarking.Read("red red red", new() { ColourCode = "mica-7" }).Complaint!;
        Assert.Equal("the colour code", complaint.Place);
        Assert.All(ColourCodes.Families, f => Assert.Contains(f.Id, complaint.Remedy, StringComparison.Ordinal));
    }
}

using CsCheck;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>New sections in an old can.</summary>
public class CanTests
{
    /// <summary>Source: the textbook table of equal circles in a circle: ratios 1, 2, 2.155, 2.414, 2.701, 3, 3 (proven values).</summary>
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 2)]
    [InlineData(3, 2.1547)]
    [InlineData(4, 2.4142)]
    [InlineData(5, 2.7013)]
    [InlineData(6, 3)]
    [InlineData(7, 3)]
    public void Equal_circles_need_the_bore_of_the_table(int count, double ratio) =>
        Assert.Equal(10 * ratio, CirclePacking.LeastBore([.. Enumerable.Repeat(10.0, count)]), 10 * ratio * 2e-3);

    /// <summary>Source: two circles of 20 in a bore of 40 leave room for one of 40/3 on either side (Descartes' circle theorem: curvatures -1/20, 1/10, 1/10 give 3/20).</summary>
    [Fact]
    public void A_small_circle_stands_in_the_gap_of_two_large_ones()
    {
        Assert.Equal(40, CirclePacking.LeastBore([20, 20, 13.3]), 0.1);
        Assert.Equal(40, CirclePacking.LeastBore([20, 20, 13.3, 13.3]), 0.1);
        Assert.True(CirclePacking.LeastBore([20, 20, 15]) > 40.2);
    }

    [Fact]
    public void No_bore_is_less_than_the_largest_or_the_area_and_none_more_than_all_in_a_row() => Gen.Double[3, 40].Array[1, 6].Sample(d =>
    {
        var bore = CirclePacking.LeastBore(d);
        return bore >= d.Max() - 1e-6 && bore * bore >= d.Sum(x => x * x) * 0.999 && bore <= d.Sum() * 1.001;
    }, iter: 100);

    [Theory]
    [InlineData("can 35 x 76 mm", 35.0, 76.0)]
    [InlineData("1 3/8 x 3 in", 34.9, 76.2)]
    [InlineData("1-3/8\" x 3-1/2\"", 34.9, 88.9)]
    [InlineData("1 in x 2 in, vented", 25.4, 50.8)]
    [InlineData("reservoir", null, null)]
    [InlineData("2 x 16 mm", null, null)]
    public void A_cans_size_is_read_from_its_note(string note, double? diameter, double? length)
    {
        var read = CanSize.Read(note);
        Assert.Equal((diameter, length), (read?.DiameterMm, read?.LengthMm));
    }

    [Fact]
    public void The_three_ways_with_a_can_are_compared_with_sizes_and_the_best_stands_first()
    {
        var ways = Ways("35 x 102 mm");
        Assert.Equal(3, ways.Length);
        Assert.True(ways[0].IsPossible);
        Assert.All(ways, w => Assert.NotEmpty(w.Sentence));
        // In a can as wide as a jar they find room, in a thimble not: then beneath.
        Assert.Equal("in the emptied can", Ways("60 x 102 mm")[0].Name);
        Assert.Equal("beneath the chassis", Ways("15 x 30 mm")[0].Name);
        Assert.Contains("written at C10A", Ways("60 x 102 mm")[0].Sentence, StringComparison.Ordinal);
        Assert.Contains(Ways(null), w => w.Sentence.Contains("measure yours", StringComparison.Ordinal));
    }

    private static System.Collections.Immutable.ImmutableArray<CanWay> Ways(string? size)
    {
        var book = DemoBooks.Amp;
        if (size is not null) book = book with { Parts = book.Parts.Replace(book.Parts.Named("C10A")! with { Note = size }) };
        return ChooseStage.Run(MapStage.Run(book, DemoBooks.Handbook), Shop.Policy).SharedBodies.Single(b => b.Group == "K1").Ways;
    }
}

using CsCheck;
using Lugbook.Store.History;

namespace Lugbook.Store.Tests.Shelves;

/// <summary>Source: the definition of an order; no outside figures.</summary>
public class PlacesTests
{
    [Fact]
    public void Places_always_rise() =>
        Gen.OneOf(Gen.Const((long?)null), Gen.Long[-50, 50].Select(v => (long?)v)).Array[0, 20]
            .Select(given => given.Where(g => g is not null).Distinct().Order().ToList() is var kept ? given.Select(g => g is null || kept.Count == 0 ? null : Take(kept)).ToArray() : given)
            .Sample(given =>
            {
                var places = Places.Fill(given);
                return places.Length == given.Length && places.Zip(places.Skip(1)).All(p => p.First < p.Second);
            });

    [Fact]
    public void A_row_put_between_two_moves_neither()
    {
        var places = Places.Fill([null, null, null]);
        Assert.Equal([Places.Gap, 2 * Places.Gap, 3 * Places.Gap], places);
        Assert.Equal([Places.Gap, 3 * Places.Gap / 2, 2 * Places.Gap, 3 * Places.Gap, 4 * Places.Gap], Places.Fill([places[0], null, places[1], places[2], null]));
        Assert.Equal([0, Places.Gap], Places.Fill([null, Places.Gap]));
    }

    [Fact]
    public void Twenty_rows_fit_before_one_neighbour_and_the_next_renumbers()
    {
        long low = 0, high = Places.Gap;
        for (var i = 0; i < 20; i++)
        {
            var places = Places.Fill([low, null, high]);
            Assert.Equal((low, high), (places[0], places[2]));
            high = places[1];
        }
        Assert.Equal([Places.Gap, 2 * Places.Gap, 3 * Places.Gap], Places.Fill([low, null, high]));
    }

    private static long? Take(List<long?> kept)
    {
        var first = kept[0];
        kept.RemoveAt(0);
        return first;
    }
}

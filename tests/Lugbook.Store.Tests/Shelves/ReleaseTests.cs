using Lugbook.Trade;
using static Lugbook.Store.Tests.Shelves.Bench;

namespace Lugbook.Store.Tests.Shelves;

/// <summary>Shelves written by released versions; each must open in every later one. Source: the files in fixtures/.</summary>
public sealed class ReleaseTests : IDisposable
{
    private readonly Bench _bench = new();

    public void Dispose() => _bench.Dispose();

    [Theory]
    [InlineData("v0.1.db")]
    public async Task A_shelf_of_an_earlier_release_opens_with_all_that_is_in_it(string fixture)
    {
        File.Copy(Path.Combine(AppContext.BaseDirectory, "Shelves", "fixtures", fixture), _bench.File);
        await using var shelf = await _bench.OpenAsync();
        Assert.Equal([("bench-radio", 4, 1), ("empty-1", 0, 0)], (await shelf.ListAsync(Stop)).Select(b => (b.Name, b.Parts, b.Done)));

        var stored = await shelf.OpenAsync("bench-radio", Stop);
        Assert.Equal((8, "turned round", "R2 gone"), (stored.Version, stored.UndoWhat, stored.RedoWhat));
        Assert.Equal(["R3", "R2", "R1", "C1"], stored.Book.Parts.Select(p => p.Name));
        Assert.Equal(
            [(6, "R2 gone", true, false), (5, "turned round", false, false), (4, "R4 entered", true, true), (3, "R3 entered", false, false), (2, "R2 entered", false, false), (1, "begun", false, false)],
            (await shelf.HistoryAsync("bench-radio", Stop)).Select(h => (h.Number, h.What, h.Undone, h.Dropped)));

        Assert.Equal(["R3", "R1", "C1"], (await shelf.RedoAsync("bench-radio", "Cy", Stop)).Book.Parts.Select(p => p.Name));
        for (var i = 0; i < 4; i++) stored = await shelf.UndoAsync("bench-radio", "Cy", Stop);
        Assert.Equal((ReleaseFixture.Book, (string?)null), (stored.Book, stored.UndoWhat));
        Assert.Equal(14, (await AddPart(shelf, "bench-radio", "R9")).Version);
        Assert.Equal(Book.Empty("empty-1", ""), (await shelf.OpenAsync("empty-1", Stop)).Book);
    }
}

using Lugbook.Store.Shelves;
using Lugbook.Trade;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using static Lugbook.Store.Tests.Shelves.Bench;

namespace Lugbook.Store.Tests.Shelves;

/// <summary>Source: the contract in IShelf; no outside figures.</summary>
public sealed class ConcurrencyTests : IDisposable
{
    private readonly Bench _bench = new();

    public void Dispose() => _bench.Dispose();

    private static IEnumerable<string> Names(int writers, int edits) =>
        from w in Enumerable.Range(0, writers) from e in Enumerable.Range(0, edits) select $"R{w}-{e}";

    private static void AssertComplete(StoredBook stored, IReadOnlyList<HistoryEntry> history, IEnumerable<string> names)
    {
        var expected = names.Order().ToList();
        Assert.Equal(expected, stored.Book.Parts.Select(p => p.Name).Order());
        Assert.Equal(expected.Count + 1, stored.Version);
        Assert.Equal(Enumerable.Range(1, expected.Count + 1).Reverse().Select(n => (long)n), history.Select(h => h.Number));
    }

    [Fact]
    public async Task Eight_writers_of_fifty_edits_each_lose_nothing()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        await Task.WhenAll(Enumerable.Range(0, 8).Select(w => Task.Run(async () =>
        {
            for (var e = 0; e < 50; e++) await AddPart(shelf, "radio", $"R{w}-{e}");
        })));
        AssertComplete(await shelf.OpenAsync("radio", Stop), await shelf.HistoryAsync("radio", Stop), Names(8, 50));
    }

    [Fact]
    public async Task Two_shelves_on_one_file_lose_nothing_and_see_each_other()
    {
        await using var one = await _bench.OpenAsync();
        await using var two = await _bench.OpenAsync();
        await one.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        await AddPart(two, "radio", "first");
        Assert.Single((await one.OpenAsync("radio", Stop)).Book.Parts);
        await two.UndoAsync("radio", "Ben", Stop);
        Assert.Equal("first entered", (await one.OpenAsync("radio", Stop)).RedoWhat);
        await one.RemoveAsync("radio", Stop);
        await Assert.ThrowsAsync<BookNotFoundException>(() => AddPart(two, "radio", "late"));
        await one.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun anew", Stop);
        await Task.WhenAll(new[] { one, two, one, two }.Select((shelf, w) => Task.Run(async () =>
        {
            for (var e = 0; e < 30; e++) await AddPart(shelf, "radio", $"R{w}-{e}");
        })));
        foreach (var shelf in new[] { one, two })
            AssertComplete(await shelf.OpenAsync("radio", Stop), await shelf.HistoryAsync("radio", Stop), Names(4, 30));
    }

    /// <summary>Each edit adds one part and one lug: a reader that saw half of one would see different counts.</summary>
    [Fact]
    public async Task A_reader_beside_writers_never_sees_half_an_edit()
    {
        await using var writer = await _bench.OpenAsync();
        await using var reader = await _bench.OpenAsync();
        await writer.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        var writing = Task.Run(async () =>
        {
            for (var i = 1; i <= 80; i++)
            {
                await writer.EditAsync("radio", "Ada", "both", b => b with
                {
                    Parts = b.Parts.Add(Resistor("R")), Lugs = b.Lugs.Add(new() { Name = "A-1", Mount = "A" }),
                }, Stop);
            }
        }, Stop);
        var seen = 0;
        do
        {
            var stored = await reader.OpenAsync("radio", Stop);
            Assert.Equal(stored.Book.Parts.Count, stored.Book.Lugs.Count);
            Assert.Equal(stored.Version, stored.Book.Parts.Count + 1);
            seen++;
        }
        while (!writing.IsCompleted);
        await writing;
        Assert.Equal(80, (await reader.OpenAsync("radio", Stop)).Book.Parts.Count);
        Assert.InRange(seen, 2, int.MaxValue);
    }

    [Fact]
    public async Task After_a_conflict_the_edit_runs_again_on_the_newest_content()
    {
        var conflicts = new Conflicts();
        await using var shelf = await _bench.OpenAsync(conflicts);
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        conflicts.Left = 3;
        var runs = 0;
        var stored = await shelf.EditAsync("radio", "Ada", "R1 entered", b => { runs++; return Adds(Resistor("R1"))(b); }, Stop);
        Assert.Equal((4, 2, 1), (runs, stored.Version, stored.Book.Parts.Count));
        conflicts.Left = int.MaxValue;
        Assert.Contains("try again", (await Assert.ThrowsAsync<ShelfException>(() => AddPart(shelf, "radio", "R2"))).Message);
        conflicts.Left = 0;
        Assert.Equal(3, (await AddPart(shelf, "radio", "R2")).Version);
    }

    [Fact]
    public async Task A_commit_that_fails_leaves_the_book_as_it_was()
    {
        var broken = new BrokenCommits();
        await using var shelf = await _bench.OpenAsync(broken);
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        var before = await AddPart(shelf, "radio", "R1");
        var told = 0;
        shelf.Changed += _ => told++;
        broken.On = true;
        await Assert.ThrowsAsync<IOException>(() => AddPart(shelf, "radio", "R2"));
        await Assert.ThrowsAsync<IOException>(() => shelf.UndoAsync("radio", "Ada", Stop));
        await Assert.ThrowsAsync<IOException>(() => shelf.RemoveAsync("radio", Stop));
        await Assert.ThrowsAsync<IOException>(() => shelf.AddAsync(Book.Empty("amp", "Amplifier"), "Ada", "begun", Stop));
        broken.On = false;
        Assert.Equal((before, 0), (await shelf.OpenAsync("radio", Stop), told));
        Assert.Single(await shelf.ListAsync(Stop));
        Assert.Equal(["R1", "R3"], (await AddPart(shelf, "radio", "R3")).Book.Parts.Select(p => p.Name));
    }

    [Fact]
    public async Task A_call_that_is_given_up_stores_nothing()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        using var givenUp = new CancellationTokenSource();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => shelf.EditAsync("radio", "Ada", "x", b =>
        {
            givenUp.Cancel();
            return Adds(Resistor("R1"))(b);
        }, givenUp.Token));
        Assert.Equal(1, (await shelf.OpenAsync("radio", Stop)).Version);
        Assert.Equal(2, (await AddPart(shelf, "radio", "R1")).Version);
    }

    private sealed class Conflicts : SaveChangesInterceptor
    {
        public int Left { get; set; }

        public override ValueTask<int> SavedChangesAsync(SaveChangesCompletedEventData eventData, int result, CancellationToken cancellationToken = default) =>
            Left-- > 0 ? throw new DbUpdateConcurrencyException("planted") : ValueTask.FromResult(result);
    }

    private sealed class BrokenCommits : DbTransactionInterceptor
    {
        public bool On { get; set; }

        public override ValueTask<InterceptionResult> TransactionCommittingAsync(
            System.Data.Common.DbTransaction transaction, TransactionEventData eventData, InterceptionResult result, CancellationToken cancellationToken = default) =>
            On ? throw new IOException("planted") : ValueTask.FromResult(result);
    }
}

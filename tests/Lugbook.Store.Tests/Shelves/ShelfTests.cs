using CsCheck;
using Lugbook.Store.Shelves;
using Lugbook.Trade;
using Lugbook.Trade.Work;
using static Lugbook.Store.Tests.Shelves.Bench;

namespace Lugbook.Store.Tests.Shelves;

/// <summary>Source: the contract in IShelf; no outside figures.</summary>
public sealed class ShelfTests : IDisposable
{
    private readonly Bench _bench = new();

    public void Dispose() => _bench.Dispose();

    [Fact]
    public async Task A_new_shelf_is_empty()
    {
        await using var shelf = await _bench.OpenAsync();
        Assert.Empty(await shelf.ListAsync(Stop));
    }

    [Fact]
    public async Task A_book_is_listed_with_its_counts_and_the_last_changed_comes_first()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Kitchen receiver"), "Ada", "begun", Stop);
        await shelf.AddAsync(Book.Empty("amp", "Amplifier"), "Ada", "begun", Stop);
        _bench.Clock.Now += TimeSpan.FromMinutes(1);
        await shelf.EditAsync("radio", "Ada", "R1 done", b => b with
        {
            Parts = b.Parts.AddRange([Resistor("R1"), Resistor("R2")]),
            Work = b.Work.AddRange([new PositionWork { Name = "R1", Done = true }, new PositionWork { Name = "R2" }]),
        }, Stop);
        Assert.Equal(
            [new BookCard("radio", "Kitchen receiver", 2, 1, _bench.Clock.Now), new BookCard("amp", "Amplifier", 0, 0, _bench.Clock.Now - TimeSpan.FromMinutes(1))],
            await shelf.ListAsync(Stop));
    }

    [Fact]
    public Task Any_book_comes_back_as_it_was_after_reopening() =>
        RandomBooks.Named("book").Array[25].SampleAsync(async any =>
        {
            using var bench = new Bench();
            var books = any.Select((book, i) => book with { Name = $"book-{i}" }).ToList();
            await using (var shelf = await bench.OpenAsync())
            {
                foreach (var book in books)
                    Assert.Equal(book, (await shelf.AddAsync(book, "Ada", "begun", CancellationToken.None)).Book);
            }
            await using var again = await bench.OpenAsync();
            foreach (var book in books)
                Assert.Equal(new StoredBook(book, 1, null, null), await again.OpenAsync(book.Name, CancellationToken.None));
        }, iter: 2, threads: 1);

    [Fact]
    public async Task Names_compare_without_case_and_are_given_once()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("röhre-1", "Set"), "Ada", "begun", Stop);
        Assert.Equal("röhre-1", (await shelf.OpenAsync("RÖHRE-1", Stop)).Book.Name);
        await Assert.ThrowsAsync<BookExistsException>(() => shelf.AddAsync(Book.Empty("Röhre-1", "Other"), "Ada", "begun", Stop));
        Assert.Equal("Set", Assert.Single(await shelf.ListAsync(Stop)).Title);
    }

    [Theory]
    [InlineData("", "needs a name")]
    [InlineData("kitchen radio", "' '")]
    [InlineData("a/b", "'/'")]
    [InlineData("a.b", "'.'")]
    public async Task A_name_that_cannot_stand_in_an_address_is_refused(string name, string says)
    {
        await using var shelf = await _bench.OpenAsync();
        var refusal = await Assert.ThrowsAsync<ShelfException>(() => shelf.AddAsync(Book.Empty(name, "Set"), "Ada", "begun", Stop));
        Assert.Contains(says, refusal.Message);
        Assert.Empty(await shelf.ListAsync(Stop));
    }

    [Fact]
    public async Task A_book_that_is_not_there_is_said_to_be_missing_by_every_call()
    {
        await using var shelf = await _bench.OpenAsync();
        await Assert.ThrowsAsync<BookNotFoundException>(() => shelf.OpenAsync("tv", Stop));
        await Assert.ThrowsAsync<BookNotFoundException>(() => shelf.EditAsync("tv", "Ada", "x", b => b, Stop));
        await Assert.ThrowsAsync<BookNotFoundException>(() => shelf.UndoAsync("tv", "Ada", Stop));
        await Assert.ThrowsAsync<BookNotFoundException>(() => shelf.RedoAsync("tv", "Ada", Stop));
        await Assert.ThrowsAsync<BookNotFoundException>(() => shelf.HistoryAsync("tv", Stop));
        await Assert.ThrowsAsync<BookNotFoundException>(() => shelf.RemoveAsync("tv", Stop));
    }

    [Fact]
    public async Task An_edit_is_there_after_reopening_and_in_the_history()
    {
        await using (var shelf = await _bench.OpenAsync())
        {
            await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
            _bench.Clock.Now += TimeSpan.FromSeconds(30);
            var stored = await shelf.EditAsync("radio", "Ben's tablet", "R1 entered", Adds(Resistor("R1")), Stop);
            Assert.Equal((2, "R1 entered", null), (stored.Version, stored.UndoWhat, stored.RedoWhat));
        }
        await using var again = await _bench.OpenAsync();
        Assert.Equal(4700, (await again.OpenAsync("radio", Stop)).Book.Parts.Named("R1")!.Value);
        Assert.Equal(
            [new HistoryEntry(2, _bench.Clock.Now, "Ben's tablet", "R1 entered", false), new HistoryEntry(1, _bench.Clock.Now - TimeSpan.FromSeconds(30), "Ada", "begun", false)],
            await again.HistoryAsync("radio", Stop));
        Assert.Equal(TimeSpan.Zero, (await again.HistoryAsync("radio", Stop))[0].When.Offset);
    }

    [Fact]
    public async Task An_edit_that_changes_nothing_leaves_no_trace()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        await AddPart(shelf, "radio", "R1");
        await shelf.UndoAsync("radio", "Ada", Stop);
        var told = 0;
        shelf.Changed += _ => told++;
        var stored = await shelf.EditAsync("radio", "Ada", "nothing", b => b with { Parts = Table<Trade.Parts.Part>.Of(b.Parts) }, Stop);
        Assert.Equal((3, "R1 entered", 0), (stored.Version, stored.RedoWhat, told));
        Assert.Equal(2, (await shelf.HistoryAsync("radio", Stop)).Count);
    }

    [Fact]
    public async Task An_edit_that_throws_stores_nothing_and_the_shelf_goes_on()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        await Assert.ThrowsAsync<KeyNotFoundException>(() => shelf.EditAsync("radio", "Ada", "x", b => b with { Parts = b.Parts.Remove(9) }, Stop));
        Assert.Equal(2, (await AddPart(shelf, "radio", "R1")).Version);
    }

    [Fact]
    public async Task A_name_can_be_changed_and_changed_back_but_not_to_one_that_is_taken()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        await shelf.AddAsync(Book.Empty("amp", "Amplifier"), "Ada", "begun", Stop);
        var told = new List<string>();
        shelf.Changed += told.Add;
        await Assert.ThrowsAsync<BookExistsException>(() => shelf.EditAsync("radio", "Ada", "named", b => b with { Name = "AMP" }, Stop));
        await Assert.ThrowsAsync<ShelfException>(() => shelf.EditAsync("radio", "Ada", "named", b => b with { Name = "a b" }, Stop));
        Assert.Equal("kitchen", (await shelf.EditAsync("radio", "Ada", "named", b => b with { Name = "kitchen" }, Stop)).Book.Name);
        await Assert.ThrowsAsync<BookNotFoundException>(() => shelf.OpenAsync("radio", Stop));
        Assert.Equal("radio", (await shelf.UndoAsync("kitchen", "Ada", Stop)).Book.Name);
        Assert.Equal("radio", (await shelf.OpenAsync("radio", Stop)).Book.Name);
        Assert.Equal(["radio", "kitchen", "kitchen", "radio"], told);
    }

    [Fact]
    public async Task A_removed_book_is_gone_and_its_name_free()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        await AddPart(shelf, "radio", "R1");
        await shelf.RemoveAsync("Radio", Stop);
        Assert.Empty(await shelf.ListAsync(Stop));
        Assert.Equal(0, _bench.Count("SELECT (SELECT COUNT(*) FROM Rows) + (SELECT COUNT(*) FROM Edits)"));
        Assert.Equal(new StoredBook(Book.Empty("radio", "Another"), 1, null, null), await shelf.AddAsync(Book.Empty("radio", "Another"), "Ada", "begun", Stop));
    }

    [Fact]
    public async Task Listeners_are_told_after_the_edit_is_stored_and_one_that_throws_hides_it_from_nobody()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        var seen = new List<(string, long)>();
        shelf.Changed += _ => throw new InvalidOperationException("a page that has gone");
        shelf.Changed += name => seen.Add((name, _bench.Count("SELECT COALESCE(MAX(Version), 0) FROM Books")));
        await AddPart(shelf, "radio", "R1");
        await shelf.UndoAsync("radio", "Ada", Stop);
        await shelf.RemoveAsync("radio", Stop);
        Assert.Equal([("radio", 2), ("radio", 3), ("radio", 0)], seen);
    }

    [Fact]
    public async Task A_closed_shelf_says_so()
    {
        var shelf = await _bench.OpenAsync();
        await shelf.DisposeAsync();
        await shelf.DisposeAsync();
        await Assert.ThrowsAsync<ObjectDisposedException>(() => shelf.ListAsync(Stop));
        await Assert.ThrowsAsync<ObjectDisposedException>(() => AddPart(shelf, "radio", "R1"));
        Assert.Equal(["shelf.lugbook.db"], Directory.GetFiles(_bench.Folder).Select(Path.GetFileName));   // the log is merged and gone
    }
}

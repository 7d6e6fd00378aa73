using Lugbook.Store.Sqlite;

namespace Lugbook.Store.Tests.Shelves;

/// <summary>Source: the promises in docs/store.md.</summary>
public sealed class PapersTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("lugbook-papers-").FullName;
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private Task<SqliteShelf> OpenAsync() => SqliteShelf.OpenAsync(Path.Combine(_folder, "shelf.db"), TimeProvider.System, Stop);

    [Fact]
    public async Task Papers_outlive_a_restart_and_so_does_undo()
    {
        await using (var shelf = await OpenAsync())
        {
            await shelf.EditPapersAsync("me", "drawer brought", p => p.Add("drawer", "one"), Stop);
            await shelf.EditPapersAsync("me", "order placed", p => p.SetItem("drawer", "two").Add("order", "x"), Stop);
        }
        await using (var shelf = await OpenAsync())
        {
            var papers = await shelf.PapersAsync(Stop);
            Assert.Equal(("two", "x", "order placed"), (papers["drawer"], papers["order"], papers.UndoWhat));
            var undone = await shelf.UndoPapersAsync(Stop);
            Assert.Equal(("one", null, "drawer brought"), (undone["drawer"], undone["order"], undone.UndoWhat));
            Assert.Empty((await shelf.UndoPapersAsync(Stop)).Papers);
            Assert.Null((await shelf.UndoPapersAsync(Stop)).UndoWhat);
        }
    }

    [Fact]
    public async Task An_edit_that_throws_or_changes_nothing_leaves_no_trace()
    {
        await using var shelf = await OpenAsync();
        var told = 0;
        shelf.PapersChanged += () => told++;
        await shelf.EditPapersAsync("me", "first", p => p.Add("a", "1"), Stop);
        await shelf.EditPapersAsync("me", "same", p => p.SetItem("a", "1"), Stop);
        await Assert.ThrowsAsync<InvalidOperationException>(() => shelf.EditPapersAsync("me", "bad", _ => throw new InvalidOperationException(), Stop));
        var papers = await shelf.PapersAsync(Stop);
        Assert.Equal(("1", "first", 1), (papers["a"], papers.UndoWhat, told));
    }

    [Fact]
    public async Task Writers_at_once_lose_nothing()
    {
        await using var shelf = await OpenAsync();
        await Task.WhenAll(Enumerable.Range(0, 20).Select(i => shelf.EditPapersAsync("me", "count", p => p.SetItem("n", p.TryGetValue("n", out var n) ? n + "I" : "I"), Stop)));
        Assert.Equal(new string('I', 20), (await shelf.PapersAsync(Stop))["n"]);
    }

    [Fact]
    public async Task Books_are_not_touched_by_papers()
    {
        await using var shelf = await OpenAsync();
        var added = await shelf.AddAsync(Trade.Book.Empty("one", "One"), "me", "added", Stop);
        await shelf.EditPapersAsync("me", "drawer", p => p.Add("drawer", "x"), Stop);
        await shelf.UndoPapersAsync(Stop);
        Assert.Equal(added.Version, (await shelf.OpenAsync("one", Stop)).Version);
    }
}

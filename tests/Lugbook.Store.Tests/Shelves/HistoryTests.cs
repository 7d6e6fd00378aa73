using CsCheck;
using Lugbook.Store.Shelves;
using Lugbook.Trade;
using static Lugbook.Store.Tests.Shelves.Bench;

namespace Lugbook.Store.Tests.Shelves;

/// <summary>Source: the contract in IShelf; no outside figures.</summary>
public sealed class HistoryTests : IDisposable
{
    private readonly Bench _bench = new();

    public void Dispose() => _bench.Dispose();

    [Fact]
    public async Task Undo_and_redo_say_what_they_would_do_and_stop_at_both_ends()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        Assert.Equal(new StoredBook(Book.Empty("radio", "Set"), 1, null, null), await shelf.UndoAsync("radio", "Ada", Stop));   // its arrival stays
        await AddPart(shelf, "radio", "R1");
        var two = await AddPart(shelf, "radio", "R2");
        var undone = await shelf.UndoAsync("radio", "Ben", Stop);
        Assert.Equal((4, "R1 entered", "R2 entered"), (undone.Version, undone.UndoWhat, undone.RedoWhat));
        Assert.Equal(["R1"], undone.Book.Parts.Select(p => p.Name));
        Assert.Equal("R1 entered", (await shelf.UndoAsync("radio", "Ben", Stop)).RedoWhat);
        await shelf.RedoAsync("radio", "Ada", Stop);
        var redone = await shelf.RedoAsync("radio", "Ada", Stop);
        Assert.Equal((7, two.Book, null), (redone.Version, redone.Book, redone.RedoWhat));
        Assert.Equal(7, (await shelf.RedoAsync("radio", "Ada", Stop)).Version);
    }

    [Fact]
    public async Task A_new_edit_after_an_undo_drops_what_could_be_redone_but_the_history_keeps_it()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        foreach (var part in new[] { "R1", "R2", "R3" }) await AddPart(shelf, "radio", part);
        _bench.Clock.Now += TimeSpan.FromHours(1);
        await shelf.UndoAsync("radio", "Ben", Stop);
        await shelf.UndoAsync("radio", "Cy", Stop);
        var stored = await AddPart(shelf, "radio", "R4");
        Assert.Equal(("R4 entered", null), (stored.UndoWhat, stored.RedoWhat));
        Assert.Equal(stored, await shelf.RedoAsync("radio", "Ada", Stop));
        Assert.Equal(
            [(5, false, false, null), (4, true, true, "Ben"), (3, true, true, "Cy"), (2, false, false, null), (1, false, false, (string?)null)],
            (await shelf.HistoryAsync("radio", Stop)).Select(h => (h.Number, h.Undone, h.Dropped, h.UndoneBy)));
        Assert.Equal(_bench.Clock.Now, (await shelf.HistoryAsync("radio", Stop))[1].UndoneWhen);
        Assert.Equal(["R1"], (await shelf.UndoAsync("radio", "Ada", Stop)).Book.Parts.Select(p => p.Name));
        Assert.Empty((await shelf.UndoAsync("radio", "Ada", Stop)).Book.Parts);   // passes over the dropped ones
    }

    [Fact]
    public async Task An_edit_that_is_sent_twice_is_stored_once_also_after_an_undo_and_a_reopening()
    {
        var token = Guid.NewGuid();
        await using (var shelf = await _bench.OpenAsync())
        {
            await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
            await shelf.EditOnceAsync("radio", token, "tablet", "R1 entered", Adds(Resistor("R1")), Stop);
            var again = await shelf.EditOnceAsync("radio", token, "tablet", "R1 entered", Adds(Resistor("R1")), Stop);
            Assert.Equal(2, again.Version);
            Assert.Single(again.Book.Parts);
            await shelf.UndoAsync("radio", "Ada", Stop);
        }
        await using var later = await _bench.OpenAsync();
        Assert.Empty((await later.EditOnceAsync("radio", token, "tablet", "R1 entered", Adds(Resistor("R1")), Stop)).Book.Parts);
        Assert.Single((await later.EditOnceAsync("radio", Guid.NewGuid(), "tablet", "R1 entered", Adds(Resistor("R1")), Stop)).Book.Parts);
    }

    [Fact]
    public async Task A_hundred_edits_go_back_and_forth_over_a_reopening()
    {
        var versions = new List<Book> { Book.Empty("radio", "Set") };
        await using (var shelf = await _bench.OpenAsync())
        {
            await shelf.AddAsync(versions[0], "Ada", "begun", Stop);
            for (var i = 1; i <= 100; i++)
            {
                var n = i;
                versions.Add((await shelf.EditAsync("radio", "Ada", $"edit {i}", b => n % 3 == 0
                    ? b with { Parts = Table<Trade.Parts.Part>.Of(b.Parts.Reverse()), Facts = b.Facts with { Year = n } }
                    : n % 5 == 0 ? b with { Parts = b.Parts.Remove(b.Parts[0].Id) } : Adds(Resistor($"R{n}", n))(b), Stop)).Book);
            }
        }
        await using (var shelf = await _bench.OpenAsync())
        {
            for (var i = 99; i >= 40; i--) Assert.Equal(versions[i], (await shelf.UndoAsync("radio", "Ada", Stop)).Book);
        }
        await using (var shelf = await _bench.OpenAsync())
        {
            for (var i = 39; i >= 0; i--) Assert.Equal(versions[i], (await shelf.UndoAsync("radio", "Ada", Stop)).Book);
            Assert.Null((await shelf.OpenAsync("radio", Stop)).UndoWhat);
        }
        await using (var shelf = await _bench.OpenAsync())
        {
            for (var i = 1; i <= 100; i++) Assert.Equal(versions[i], (await shelf.RedoAsync("radio", "Ada", Stop)).Book);
            Assert.Null((await shelf.OpenAsync("radio", Stop)).RedoWhat);
        }
    }

    [Fact]
    public async Task A_clock_that_goes_back_does_not_disturb_the_order()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("amp", "Amplifier"), "Ada", "begun", Stop);
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        await AddPart(shelf, "radio", "R1");
        _bench.Clock.Now -= TimeSpan.FromDays(3650);
        await AddPart(shelf, "radio", "R2");
        Assert.Equal(["R2 entered", "R1 entered", "begun"], (await shelf.HistoryAsync("radio", Stop)).Select(h => h.What));
        Assert.Equal("R2 entered", (await shelf.OpenAsync("radio", Stop)).UndoWhat);
        await AddPart(shelf, "amp", "R1");
        Assert.Equal(["amp", "radio"], (await shelf.ListAsync(Stop)).Select(b => b.Name));
        Assert.Equal(["R1"], (await shelf.UndoAsync("radio", "Ada", Stop)).Book.Parts.Select(p => p.Name));
    }

    /// <summary>The shelf against the simplest thing that could be right: a list of books and a pointer into it.</summary>
    [Fact]
    public async Task Any_walk_of_edits_undos_redos_and_reopenings_agrees_with_a_list_and_a_pointer()
    {
        await Gen.Select(RandomBooks.Named("radio"), RandomBooks.Named("radio"), Gen.Int[0, 9]).List[1, 25].SampleAsync(async walk =>
        {
            using var bench = new Bench();
            var shelf = await bench.OpenAsync();
            try
            {
                var (line, at) = (new List<Book> { walk[0].Item1 }, 0);
                await shelf.AddAsync(line[0], "Ada", "begun", CancellationToken.None);
                foreach (var (book, other, act) in walk)
                {
                    StoredBook stored;
                    switch (act)
                    {
                        case 0 or 1 or 2:
                            stored = await shelf.UndoAsync("radio", "Ada", CancellationToken.None);
                            at = Math.Max(0, at - 1);
                            break;
                        case 3 or 4:
                            stored = await shelf.RedoAsync("radio", "Ada", CancellationToken.None);
                            at = Math.Min(line.Count - 1, at + 1);
                            break;
                        case 5:
                            await shelf.DisposeAsync();
                            shelf = await bench.OpenAsync();
                            stored = await shelf.OpenAsync("radio", CancellationToken.None);
                            break;
                        default:
                            var next = book with { Parts = act == 6 ? line[at].Parts : other.Parts, Lugs = act == 7 ? line[at].Lugs : book.Lugs };
                            stored = await shelf.EditAsync("radio", "Ada", "edit", _ => next, CancellationToken.None);
                            if (next.Equals(line[at])) break;
                            line.RemoveRange(at + 1, line.Count - at - 1);
                            line.Add(next);
                            at++;
                            break;
                    }
                    Assert.Equal(line[at], stored.Book);
                    Assert.Equal((at > 0, at < line.Count - 1), (stored.UndoWhat is not null, stored.RedoWhat is not null));
                }
                await shelf.DisposeAsync();
                shelf = await bench.OpenAsync();
                Assert.Equal(line[at], (await shelf.OpenAsync("radio", CancellationToken.None)).Book);
            }
            finally
            {
                await shelf.DisposeAsync();
            }
        }, iter: 25, threads: 1);
    }

    [Fact]
    public async Task What_a_newer_version_wrote_in_a_row_outlives_an_edit_of_it_here_and_its_undo()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set") with { Parts = Table<Trade.Parts.Part>.Of([Resistor("R1")]) }, "Ada", "begun", Stop);
        await shelf.DisposeAsync();
        _bench.Sql("""
            UPDATE Rows SET Body = json_set(Body, '$.torque', 3) WHERE "Table" = 'parts';
            UPDATE Rows SET Body = json_set(Body, '$.shelfMark', 'B2') WHERE "Table" = 'facts';
            INSERT INTO Rows VALUES ((SELECT Id FROM Books), 'photographs', 1, 0, '', '{"file":"a.jpg"}');
            """);
        await using var again = await _bench.OpenAsync();
        await again.EditAsync("radio", "Ada", "R1 measured", b => b with { Facts = b.Facts with { Year = 1938 }, Parts = b.Parts.Replace(b.Parts[0] with { Value = 5200 }) }, Stop);
        Assert.Equal("""{"kindAsWritten":"resistor","value":5200,"name":"R1","torque":3}""", _bench.Sql("""SELECT Body FROM Rows WHERE "Table" = 'parts'"""));
        Assert.Equal("""{"title":"Set","year":1938,"megHabit":"Unknown","shelfMark":"B2"}""", _bench.Sql("""SELECT Body FROM Rows WHERE "Table" = 'facts'"""));
        await again.EditAsync("radio", "Ada", "R1 gone", b => b with { Parts = b.Parts.Remove(1) }, Stop);
        await again.UndoAsync("radio", "Ada", Stop);
        await again.UndoAsync("radio", "Ada", Stop);
        Assert.Equal("""{"kindAsWritten":"resistor","value":4700,"name":"R1","torque":3}""", _bench.Sql("""SELECT Body FROM Rows WHERE "Table" = 'parts'"""));
        Assert.Equal("""{"file":"a.jpg"}""", _bench.Sql("""SELECT Body FROM Rows WHERE "Table" = 'photographs'"""));
    }

    [Fact]
    public async Task A_row_of_a_newer_version_that_cannot_be_understood_is_named_and_not_guessed()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        await shelf.DisposeAsync();
        _bench.Sql("""INSERT INTO Rows VALUES ((SELECT Id FROM Books), 'work', 4, 0, 'C7', '{"name":"C7","decision":"Melted"}')""");
        await using var again = await _bench.OpenAsync();
        var refusal = await Assert.ThrowsAsync<ShelfException>(() => again.OpenAsync("radio", Stop));
        Assert.Contains("row 4 ('C7') of table 'work'", refusal.Message);
        Assert.Contains("newer Lugbook", refusal.Message);
        Assert.Single(await again.ListAsync(Stop));
    }
}

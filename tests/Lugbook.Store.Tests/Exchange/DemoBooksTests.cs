using Lugbook.Store.Reference;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Store.Tests.Exchange;

/// <summary>Source: data/demo/README.md, the facts of the invented sets.</summary>
public class DemoBooksTests
{
    private static async Task<Book[]> BooksAsync()
    {
        var results = await DemoBooks.ReadAllAsync(Path.Combine(AppContext.BaseDirectory, "data"), TestContext.Current.CancellationToken);
        Assert.All(results, r => Assert.Empty(r.Complaints));
        return [.. results.Select(r => r.Book!)];
    }

    [Fact]
    public async Task All_three_load_without_a_complaint_or_a_remark()
    {
        var results = await DemoBooks.ReadAllAsync(Path.Combine(AppContext.BaseDirectory, "data"), TestContext.Current.CancellationToken);
        Assert.Equal(["amp", "radio", "tv"], results.Select(r => r.Book?.Name));
        Assert.All(results, r => Assert.Equal("", string.Join("\n", r.Remarks)));
    }

    [Fact]
    public async Task Facts_are_those_of_the_story()
    {
        var books = await BooksAsync();
        Assert.Equal(["Tollgate School assembly-hall amplifier", "Marlpit kitchen receiver", "Sedgebank television"], books.Select(b => b.Facts.Title));
        Assert.Equal([1943, 1947, 1955], books.Select(b => b.Facts.Year));
        Assert.All(books, b => Assert.Equal((117.0, 60.0), (b.Facts.LineVolts, b.Facts.LineHertz)));
        Assert.Equal([MegHabit.Thousand, MegHabit.Unknown, MegHabit.Unknown], books.Select(b => b.Facts.MegHabit));
    }

    [Fact]
    public async Task The_television_has_the_counts_that_its_page_states()
    {
        var tv = (await BooksAsync())[2];
        Assert.Equal((230, 72, 323, 123, 29), (tv.Parts.Count, tv.Mounts.Count, tv.Lugs.Count, tv.Wires.Count(w => w.Kind != WireKind.Bond), tv.Wires.Count(w => w.Kind == WireKind.Bond)));
        var onLugs = tv.Parts.SelectMany(p => p.Leads).Select(l => l.Lug).Concat(tv.Wires.SelectMany(w => new[] { w.From, w.To })).Distinct().Count();
        Assert.InRange(onLugs, 280, 323);
    }

    [Fact]
    public async Task Every_lead_and_wire_is_on_a_lug_that_exists_and_no_name_is_used_twice()
    {
        foreach (var book in await BooksAsync())
        {
            Assert.All(book.Parts.SelectMany(p => p.Leads), l => Assert.NotNull(book.Lugs.Named(l.Lug)));
            Assert.All(book.Wires, w => Assert.True(book.Lugs.Named(w.From) is not null && book.Lugs.Named(w.To) is not null && w.From != w.To, w.Name));
            Assert.Equal(book.Parts.Count, book.Parts.Select(p => p.Name).Distinct().Count());
            Assert.All(book.Lugs, l => Assert.NotNull(book.Mounts.Named(l.Mount)));
            Assert.All(book.Parts.Where(p => p.Kind == PartKind.Valve), v => Assert.True(book.Mounts.Named(v.Name)?.Kind.IsSocket(), v.Name));
            Assert.All(book.SheetReadings, r => Assert.NotNull(book.Lugs.Named(r.Name)));
            Assert.All(book.Declared, d => Assert.NotNull(book.Lugs.Named(d.Name)));
        }
    }

    [Fact]
    public async Task Kinds_of_parts_and_mounts_are_all_understood()
    {
        foreach (var book in await BooksAsync())
        {
            Assert.All(book.Parts, p => Assert.NotEqual(PartKind.Other, p.Kind));
            Assert.All(book.Mounts, m => Assert.NotEqual(MountKind.Other, m.Kind));
        }
    }

    [Fact]
    public async Task The_amplifiers_secondary_is_loaded()
    {
        var speaker = (await BooksAsync())[0].Parts.Single(p => p.Kind == PartKind.Speaker);
        Assert.Equal(("TB-1", "TB-3"), (speaker.LeadA, speaker.LeadB));
    }
}

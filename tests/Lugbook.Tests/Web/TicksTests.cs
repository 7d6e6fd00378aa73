using Lugbook.Tests.Drawing;
using Lugbook.Store.Sqlite;
using Lugbook.Trade;
using Lugbook.Trade.Readings;
using Lugbook.Trade.Work;
using Lugbook.Web;
using Lugbook.Web.AtBench;

namespace Lugbook.Tests.Web;

/// <summary>What hands tick at several benches comes together without anybody's words being lost.</summary>
public class TicksTests
{
    private static readonly Book Amp = DemoBooks.Read("amp");

    private static Tick Made(TickKind kind, string? words = null, string? was = "") => new(Guid.NewGuid(), "C6", kind, words, was, DateTimeOffset.UnixEpoch);

    private static PositionWork Work(Book book) => book.Work.Named("C6") ?? new() { Name = "C6" };

    [Fact]
    public void A_tick_marks_a_position_and_settles_its_problem()
    {
        var stuck = Ticks.Apply(Amp, Made(TickKind.Problem, "lug broken"));
        Assert.Equal("lug broken", Work(stuck).Problem);
        var done = Ticks.Apply(stuck, Made(TickKind.Done));
        Assert.True(Work(done).Done);
        Assert.Null(Work(done).Problem);
        Assert.False(Work(Ticks.Apply(done, Made(TickKind.NotDone))).Done);
    }

    [Fact]
    public void Words_written_at_two_benches_are_both_kept_and_it_is_said()
    {
        var other = Ticks.Apply(Amp, Made(TickKind.Note, "sleeve it"));
        var mine = Made(TickKind.Note, "route it left", was: "");
        Assert.Contains("sleeve it", Ticks.Meanwhile(other, mine), StringComparison.Ordinal);
        Assert.Equal("sleeve it / route it left", Work(Ticks.Apply(other, mine)).Note);
    }

    [Fact]
    public void Words_changed_by_who_saw_them_take_their_place()
    {
        var noted = Ticks.Apply(Amp, Made(TickKind.Note, "sleeve it"));
        var change = Made(TickKind.Note, "sleeve both leads", was: "sleeve it");
        Assert.Null(Ticks.Meanwhile(noted, change));
        Assert.Equal("sleeve both leads", Work(Ticks.Apply(noted, change)).Note);
        Assert.Null(Work(Ticks.Apply(noted, Made(TickKind.Note, null, was: "sleeve it"))).Note);
    }

    [Fact]
    public void A_tick_for_a_part_that_is_no_longer_there_is_refused_with_its_reason()
    {
        Assert.Contains("C99", Ticks.Fault(Amp, Made(TickKind.Done) with { Position = "C99" }), StringComparison.Ordinal);
        Assert.NotNull(Ticks.Fault(Amp, Made(TickKind.Note, new('x', Ticks.MostWords + 1))));
        Assert.Null(Ticks.Fault(Amp, Made(TickKind.Done)));
    }

    [Fact]
    public void A_reading_taken_without_a_line_is_stored_with_its_lugs_and_what_is_none_is_refused_by_name()
    {
        var c6 = Amp.Parts.Named("C6")!;
        var tick = Made(TickKind.Reading, "57.8k", was: null) with { Read = new(ReadingKind.Ohms, c6.LeadA!, c6.LeadB!, null) };
        Assert.Null(Ticks.Fault(Amp, tick));
        var reading = Ticks.Apply(Amp, tick).Readings[^1];
        Assert.Equal((57_800, c6.LeadA, c6.LeadB, DateTimeOffset.UnixEpoch), (reading.Value, reading.FromLug, reading.ToLug, reading.At));
        Assert.Contains("banana", Ticks.Fault(Amp, tick with { Words = "banana" }), StringComparison.Ordinal);
        Assert.Contains("Q9-9", Ticks.Fault(Amp, tick with { Read = tick.Read! with { To = "Q9-9" } }), StringComparison.Ordinal);
        Assert.NotNull(Ticks.Fault(Amp, tick with { Read = null }));
    }

    [Fact]
    public async Task A_tick_with_a_piece_of_the_drawer_counts_it_once_however_often_it_arrives()
    {
        var folder = Directory.CreateTempSubdirectory("lugbook-ticks-");
        try
        {
            var stop = TestContext.Current.CancellationToken;
            await using var shelf = await SqliteShelf.OpenAsync(Path.Combine(folder.FullName, "shelf.db"), TimeProvider.System, stop);
            var desk = new SupplyDesk(shelf);
            await desk.BringDrawerAsync(new("drawer.csv", "item,value,volts,kind,count\nred box,47n,630,film,2\n"u8.ToArray()), stop);
            var tick = Made(TickKind.Done) with { Piece = new("red box", null) };
            var done = Ticks.Apply(Amp, tick);
            async Task<int> Left() => (await desk.ReadAsync(stop)).Drawer.Lines[0].Count;

            Assert.Null(await TickDrawer.CountAsync(desk, done, tick, true, stop));
            Assert.Null(await TickDrawer.CountAsync(desk, done, tick, false, stop));
            Assert.Equal(1, await Left());
            // Taken back, the piece lies in the drawer again; ticked with a part from elsewhere it stays there.
            var open = Ticks.Apply(done, Made(TickKind.NotDone));
            await desk.KeepStepAsync(open, stop);
            Assert.Equal(2, await Left());
            Assert.Null(await TickDrawer.CountAsync(desk, Ticks.Apply(open, Made(TickKind.Done)), Made(TickKind.Done), true, stop));
            Assert.Equal(2, await Left());
            Assert.Contains("blue box", await TickDrawer.CountAsync(desk, done, tick with { Piece = new("blue box", null) }, true, stop), StringComparison.Ordinal);
            // A tick that came late, after the exchange was taken back elsewhere, takes nothing.
            Assert.Null(await TickDrawer.CountAsync(desk, open, tick, false, stop));
            Assert.Equal(2, await Left());
        }
        finally { folder.Delete(recursive: true); }
    }
}

using Lugbook.Tests.Drawing;
using Lugbook.Trade;
using Lugbook.Trade.Work;
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
}

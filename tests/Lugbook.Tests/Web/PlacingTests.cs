using CsCheck;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Tests.Drawing;
using Lugbook.Trade;
using Lugbook.Trade.Chassis.Templates;
using Lugbook.Web;

namespace Lugbook.Tests.Web;

/// <summary>Laying mounts and bodies. Laws of rigid motion; data: the three invented demo books.</summary>
public class PlacingTests
{
    private static Stand StandOf(Book book, string mount) => Placing.Of(LayoutStage.Run(book).Mounts.First(m => m.Mount.Name == mount));
    private static Pt At(Book book, string lug) => new(book.Lugs.Named(lug)!.X!.Value, book.Lugs.Named(lug)!.Y!.Value);

    [Fact]
    public void A_moved_and_turned_mount_keeps_the_distances_of_its_lugs_and_stands_where_it_was_put()
    {
        var book = DemoBooks.Read("amp");
        var layout = LayoutStage.Run(book);
        Gen.Select(Gen.Int[0, 2].Select(i => new[] { "A", "V2", "K1" }[i]), Gen.Double[-50, 400], Gen.Double[-50, 300], Gen.Int[0, 359]).Sample((name, x, y, turn) =>
        {
            var moved = Placing.Mount(book, layout, name, new(new(x, y), turn));
            var lugs = book.Lugs.Where(l => l.Mount == name).Select(l => l.Name).ToArray();
            foreach (var (a, b) in lugs.Zip(lugs.Skip(1))) Assert.Equal(At(book, a).To(At(book, b)), At(moved, a).To(At(moved, b)), 0.15);   // places are kept to a tenth of a millimetre
            Assert.True(StandOf(moved, name).At.To(new(x, y)) < 0.15, $"{name} at {StandOf(moved, name)}");
            var off = Math.Abs(StandOf(moved, name).Turn - turn) % 360;
            // A tenth of a millimetre on a socket of 22 mm is half a degree.
            Assert.True(Math.Min(off, 360 - off) < 0.7, $"{name} turned {StandOf(moved, name).Turn}, wanted {turn}");
            Assert.Equal(book.Lugs.Where(l => l.Mount != name), moved.Lugs.Where(l => l.Mount != name));
        }, iter: 15);
    }

    [Fact]
    public void A_quarter_turn_clockwise_seen_from_beneath_brings_the_right_end_to_the_front()
    {
        var book = Placing.Add(Book.Empty("n", "N"), MountTemplates.TagStrip(5, 3), "A", new(new(100, 50), 0));
        Assert.Equal(new Pt(119, 50), At(book, "A-5"));
        var turned = Placing.Mount(book, LayoutStage.Run(book), "A", new(new(100, 50), 90));
        Assert.Equal(new Pt(100, 31), At(turned, "A-5"));
        Assert.Equal("mounting foot", turned.Lugs.Named("A-3")!.Function);
    }

    [Fact]
    public void Every_socket_of_the_drawer_is_drawn_and_read_back_where_it_was_put()
    {
        foreach (var socket in MountTemplates.Sockets)
        {
            var book = Placing.Add(Book.Empty("n", "N"), socket, "V1", new(new(80, 60), 30));
            var stand = StandOf(book, "V1");
            Assert.True(stand.At.To(new(80, 60)) < 0.3, $"{socket.KindAsWritten} at {stand}");
            Assert.True(Math.Abs(stand.Turn - 30) < 1.5, $"{socket.KindAsWritten} turned {stand.Turn}");
        }
    }

    [Fact]
    public void A_body_laid_by_hand_lies_there_goes_with_its_mount_and_comes_back()
    {
        var book = DemoBooks.Read("radio");
        var part = LayoutStage.Run(book).Bodies.First(b => Placing.IsFree(b) && b.Leads.Length == 2).Part;
        var laid = Placing.Body(book, part.Name, new(new(77, 33), 40));
        var body = LayoutStage.Run(laid).Bodies.First(b => b.Part.Name == part.Name);
        Assert.Equal(new Stand(new(77, 33), 40), Placing.Of(body));
        foreach (var lead in body.Leads) Assert.True(lead.Points[^1].To(lead.Lug!.At) < 0.01);
        Assert.Equal(book, Placing.BodyBack(laid, part.Name));

        var own = Placing.Body(book with { Parts = book.Parts.Add(new() { Name = "R99", KindAsWritten = "resistor", LeadA = "A-1", LeadB = "A-2" }) }, "R99", new(new(20, 40), 0));
        var was = StandOf(own, "A");
        var moved = Placing.Mount(own, LayoutStage.Run(own), "A", was with { At = was.At + new Pt(10, 5) });
        Assert.Equal((30.0, 45.0), (moved.Parts.Named("R99")!.BodyX, moved.Parts.Named("R99")!.BodyY));
    }

    [Fact]
    public void A_mount_with_leads_on_it_is_not_taken_out_and_a_bare_one_goes_with_its_bond()
    {
        var book = DemoBooks.Read("amp");
        var holds = Placing.Holds(book, "A");
        Assert.Contains("C1 (lead a on A-5, lead b on A-3)", holds);
        Assert.Same(book, Placing.Remove(book, "A"));
        var more = Placing.Add(book, MountTemplates.TagStrip(3, 2), "Q", new(new(10, 10), 0));
        more = more with { Wires = more.Wires.Add(new() { Name = "W900", From = "CH", To = "Q-2", KindAsWritten = "bond" }) };
        Assert.Equal(book, Placing.Remove(more, "Q"));
    }

    [Fact]
    public void Where_nothing_was_measured_keeping_the_proposal_changes_nothing_that_is_seen()
    {
        var book = DemoBooks.Read("radio");
        book = book with { Lugs = Table<Trade.Chassis.Lug>.Of(book.Lugs.Select(l => l with { X = null, Y = null })) };
        var proposed = LayoutStage.Run(book);
        var kept = LayoutStage.Run(Placing.KeepAll(book, proposed));
        Assert.All(kept.Places.Lugs, l => Assert.True(l.Measured));
        Assert.All(kept.Places.Lugs, l => Assert.True(l.At.To(proposed.Places.Find(l.Name)!.At) < 0.08));
        var one = LayoutStage.Run(Placing.Mount(book, proposed, "V1", new(new(300, 20), 0)));
        Assert.All(one.Places.Lugs.Where(l => l.Mount != "V1"), l => Assert.True(l.At.To(proposed.Places.Find(l.Name)!.At) < 0.08, l.Name));
    }

    [Theory, InlineData(null), InlineData(" "), InlineData("A-1"), InlineData("a"), InlineData("V 3")]
    public void A_name_that_cannot_be_is_refused_with_a_reason(string? name) => Assert.NotNull(Placing.Refuses(DemoBooks.Read("amp"), name));
}

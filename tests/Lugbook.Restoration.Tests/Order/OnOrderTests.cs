using System.Text;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Restoration.Tests.Choose;
using Lugbook.Restoration.Tests.Order.Lists;
using Lugbook.Store.Exchange;
using Lugbook.Trade.Text;

namespace Lugbook.Restoration.Tests.Order;

/// <summary>Source: counting.</summary>
public class OnOrderTests
{
    private static OnOrder Ordered()
    {
        var supplier = Listed.Offers("supplier,North\nitem,description,breaks,pack\nN-47,film 47nF 630V 10%,1:0.60,5\nN-100,film 100nF 630V 10%,1:0.70,1\n").Lists.Single();
        var drawer = Listed.Drawer("description,count\nfilm 22nF 630V 10%,5\n").Lists.Single();
        return OnOrder.Empty.With(OrderStage.Plan([new("amp", Shop.Choose(DemoBooks.Amp))], new() { Catalogue = Shop.Catalogue, Suppliers = [supplier], Drawer = drawer }, new(), null, TestContext.Current.CancellationToken));
    }

    private static LooseTable Table(string text) => TableFiles.Read(new("came.csv", Encoding.UTF8.GetBytes(text)), SupplierList.Understood).Tables.Single();

    [Fact]
    public void What_came_beyond_what_is_fitted_goes_into_the_drawer_and_comes_out_again()
    {
        var order = Ordered();
        var at = order.Lines.ToList().FindIndex(l => l.Item == "N-47");
        Assert.Equal((5, 2), (order.Lines[at].Count, order.Lines[at].Needed));
        var (came, drawer) = order.Receive(at, 5, Drawer.Empty);
        Assert.Equal((5, 3), (came.Lines[at].Received, drawer.Lines.Single().Count));
        Assert.True(came.Lines[at].IsComplete);
        var (back, emptied) = came.Receive(at, 1, drawer);
        Assert.Equal((1, 0), (back.Lines[at].Received, emptied.Lines.Single().Count));
    }

    [Fact]
    public void What_comes_from_the_drawer_is_there_already() => Assert.True(Ordered().Lines.Single(l => l.Supplier is null).IsComplete);

    [Fact]
    public void A_list_that_was_filled_in_is_taken_over_and_strange_lines_are_named()
    {
        var (order, drawer, complaints, taken) = Ordered().Fill(Table("supplier,item,part,received\nNorth,N-47,film,5\nNorth,N-100,film,some\nNorth,X-9,film,1\ndrawer,22 nF 630 V film 10 %,film,1\n"), Drawer.Empty);
        Assert.Equal((1, 3), (taken, drawer.Lines.Single().Count));
        Assert.Equal(["came.csv, line 3, received", "came.csv, line 4"], complaints.Select(c => c.Place));
        Assert.Equal(5, order.Lines.Single(l => l.Item == "N-47").Received);
        Assert.Contains("received", Assert.Single(Ordered().Fill(Table("a,b\n1,2\n"), Drawer.Empty).Complaints).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_on_order_reads_back_the_same()
    {
        var order = Ordered();
        var again = OnOrder.Parse(order.ToCsv());
        Assert.Equal(order.Lines.Select(l => (l.Supplier, l.Item, l.Count, l.Needed, l.Received, string.Join(' ', l.Places), l.Part.Text, l.Part.Value, l.Part.Volts)),
            again.Lines.Select(l => (l.Supplier, l.Item, l.Count, l.Needed, l.Received, string.Join(' ', l.Places), l.Part.Text, l.Part.Value, l.Part.Volts)));
        Assert.Empty(OnOrder.Parse(null).Lines);
    }

    [Fact]
    public void Complete_lines_are_put_away() => Assert.All(Ordered().Tidied().Lines, l => Assert.False(l.IsComplete));
}

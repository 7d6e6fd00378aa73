using CsCheck;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Restoration.Tests.Choose;
using Lugbook.Restoration.Tests.Order.Lists;

namespace Lugbook.Restoration.Tests.Order;

/// <summary>The drawer counted down at the bench. Source: counting.</summary>
public class FittedTests
{
    private static Drawer Two() => Listed.Drawer("description,count,where\nfilm 47nF 630V 10%,2,box 3\nfilm 100nF 630V 10%,1,\n").Lists.Single();

    [Fact]
    public void A_piece_that_is_fitted_is_counted_once_and_comes_back_when_the_exchange_does()
    {
        var drawer = Two();
        var fitted = drawer.Fit("amp/C6", drawer.Lines[0]).Fit("amp/C6", drawer.Lines[0]);
        Assert.Equal((1, "box 3"), (fitted.Lines[0].Count, fitted.FittedAt("AMP/c6")!.Where));
        // Taken back, done again, taken back: however often it is asked, the count follows the book.
        var back = fitted.InStep(_ => false).InStep(_ => false);
        Assert.Equal(2, back.Lines[0].Count);
        Assert.Null(back.FittedAt("amp/C6"));
        Assert.Equal(1, back.InStep(_ => true).Lines[0].Count);
        Assert.Equal(1, fitted.InStep(_ => null).Lines[0].Count);
        Assert.Equal((2, 0), (fitted.Forget("amp/C6").Lines[0].Count, fitted.Forget("amp/C6").Lines[0].Fitted.Length));
        Assert.Equal(2, back.Forget("amp/C6").InStep(_ => true).Lines[0].Count);
    }

    [Fact]
    public void What_was_fitted_reads_back_the_same()
    {
        var drawer = Two();
        var kept = drawer.Fit("amp/C6", drawer.Lines[0]).Fit("amp/C7", drawer.Lines[0]).InStep(p => p != "amp/C7");
        var read = Listed.Drawer(kept.ToCsv()).Lists.Single();
        Assert.Equal(kept.Lines.Select(l => (l.Item, l.Count, string.Join(' ', l.Fitted))), read.Lines.Select(l => (l.Item, l.Count, string.Join(' ', l.Fitted))));
    }

    [Fact]
    public void Pieces_are_neither_made_nor_lost_whatever_is_ticked() => Gen.Int[0, 39].Array[0, 30].Sample(steps =>
    {
        var (drawer, done) = (Two(), new HashSet<string>());
        foreach (var step in steps)
        {
            var place = $"amp/C{step % 5}";
            if (step < 16) { drawer = drawer.Forget(place).Fit(place, drawer.Lines[step % 2]); done.Add(place); }
            else if (step < 32) done.Remove(place);
            else done.Add(place);
            drawer = drawer.InStep(p => done.Contains(p));
            if (drawer.Lines.Any(l => l.Count < 0) || drawer.Lines.Sum(l => l.Count + l.Fitted.Count(f => f[0] != '-')) != 3) return false;
            if (drawer.Lines.SelectMany(l => l.Fitted).Any(f => f[0] != '-' && !done.Contains(f))) return false;
        }
        return true;
    }, iter: 500);

    [Fact]
    public void The_drawer_offers_only_what_may_stand_there_and_what_was_chosen_first()
    {
        var drawer = Listed.Drawer("description,count\nfilm 47nF 250V 10%,5\nfilm 56nF 1000V 10%,5\nfilm 47nF 630V 10%,5\nfilm 47nF 1000V 10%,0\n").Lists.Single();
        var offered = OrderStage.InDrawer(Shop.Choose(DemoBooks.Amp).For("C6")!, drawer, Shop.Catalogue);
        Assert.Equal(["47 nF 630 V film 10 %", "56 nF 1000 V film 10 %"], offered.Select(l => l.Part.Text));
    }

    /// <summary>Source: arithmetic: 3.3 nF and 2.7 nF side by side are 6 nF.</summary>
    [Fact]
    public void A_pair_can_be_pinned_and_one_that_may_not_stand_is_refused()
    {
        var tolerant = DemoBooks.Amp with { Parts = DemoBooks.Amp.Parts.Replace(DemoBooks.Amp.Parts.Named("C5")! with { Tolerance = Trade.Quantities.Tolerance.Percent(5) }) };
        var list = Listed.Offers("item,description,price\nA,polypropylene 3.3nF 630V 5%,0.9\nB,polypropylene 2.7nF 630V 5%,0.9\nC,polypropylene 3nF 630V 5%,0.1\nD,polypropylene 1nF 630V 5%,0.1\n").Lists.Single();
        OrderPlan Plan(string pin) => OrderStage.Plan([new("amp", Shop.Choose(tolerant))], new() { Catalogue = Shop.Catalogue, Suppliers = [list] }, new() { Pins = [new("amp", "C5", pin)] }, null, TestContext.Current.CancellationToken);
        var pinned = Plan("A + B").Positions.Single(p => p.At.Position == "C5");
        Assert.Equal("A + B", string.Join(" + ", pinned.PinItem.Split(" + ").Order(StringComparer.Ordinal)));
        Assert.Equal("C + C", Plan("C + C").Positions.Single(p => p.At.Position == "C5").PinItem);
        Assert.Contains("may not stand", Plan("A + D").Open.Single(o => o.At.Position == "C5").Reason, StringComparison.Ordinal);
        Assert.Contains("'X' is pinned", Plan("A + X").Open.Single(o => o.At.Position == "C5").Reason, StringComparison.Ordinal);
        // What the plan itself proposes can be kept as it is.
        var free = OrderStage.Plan([new("amp", Shop.Choose(tolerant))], new() { Catalogue = Shop.Catalogue, Suppliers = [list] }, new(), null, TestContext.Current.CancellationToken).Positions.Single(p => p.At.Position == "C5");
        Assert.Equal(free.Text, Plan(free.PinItem).Positions.Single(p => p.At.Position == "C5").Text);
    }

    /// <summary>Source: common practice: the life of an electrolytic halves with every 10 °C.</summary>
    [Fact]
    public void An_electrolytic_for_85_degrees_is_taken_only_where_none_for_105_is_sold_and_the_plan_says_what_that_costs()
    {
        OrderPlan Plan(string lines) => OrderStage.Plan([new("amp", Shop.Choose(DemoBooks.Amp))], new() { Catalogue = Shop.Catalogue, Suppliers = [Listed.Offers($"item,description,price\n{lines}").Lists.Single()] }, new(), null, TestContext.Current.CancellationToken);
        var only = Plan("A,Elko 22uF 500V 85°C 20%,1\n").Positions.Where(p => p.Part.Kind == NewKind.Electrolytic).ToArray();
        Assert.NotEmpty(only);
        Assert.All(only, p => Assert.Contains("a quarter as long", p.Why, StringComparison.Ordinal));
        Assert.All(Plan("A,Elko 22uF 500V 85°C 20%,1\nB,Elko 22uF 500V 105°C 20%,9\n").Positions.Where(p => p.Part.Kind == NewKind.Electrolytic), p => Assert.Equal("B", p.Item));
    }
}

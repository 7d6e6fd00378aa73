using System.Collections.Immutable;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Restoration.Order.Solving;
using Lugbook.Restoration.Tests.Choose;
using Lugbook.Restoration.Tests.Order.Lists;
using Lugbook.Trade;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Order;

/// <summary>Source: sums that can be done by hand over small invented lists.</summary>
public class PlanTests
{
    private const string North = """
        supplier,North
        postage,4.95
        free from,50
        item,description,breaks,pack,stock
        N-22,polypropylene film 22nF 630V 5%,1:0.50 10:0.40,1,
        N-47,film 47nF 630V 10%,1:0.60 10:0.45,1,
        N-100,film 100nF 630V 10%,1:0.70,1,
        N-E22,elko 22uF 450V 105°C,1:2.10,1,40
        N-E10,elko 10uF 450V 105°C,1:1.60,1,
        N-E63,elko 22uF 63V 105°C,1:0.20,1,
        N-E10L,elko 10uF 63V 105°C,1:0.18,5,
        N-3n3,polypropylene 3.3nF 1600V 5%,1:0.90,1,
        N-Y,ceramic 4.7nF Y1 500VAC,1:0.55,1,

        """;

    private const string South = """
        supplier;South
        postage;2,00
        item;description;price
        S-47;Folie 47nF 1000V 10%;0,30
        S-E22;Elko 22uF 450V 105°C;1,40
        S-E10;Elko 10uF 450V 105°C;1,10
        S-100;Folie 100nF 400V 10%;0,10

        """;

    private static SupplierList List(string text)
    {
        var read = Listed.Offers(text);
        Assert.Empty(read.Complaints);
        return read.Lists.Single();
    }

    private static OrderPlan Plan(OrderRules? rules = null, Drawer? drawer = null, Book? book = null, params SupplierList[] suppliers) => OrderStage.Plan(
        [new("amp", Shop.Choose(book ?? DemoBooks.Amp))], new() { Catalogue = Shop.Catalogue, Suppliers = [.. suppliers], Drawer = drawer ?? Drawer.Empty }, rules ?? new(), null, TestContext.Current.CancellationToken);

    [Fact]
    public void A_user_without_lists_gets_todays_list_from_the_catalogue()
    {
        var (plan, list) = (Plan(), OrderStage.Run(Shop.Choose(DemoBooks.Amp)));
        Assert.Equal(list.Lines.Select(l => (l.Part.Text, l.Count)).Order(), plan.Lines.Select(l => (l.Part.Text, l.Count)).Order());
        Assert.InRange(plan.Money, list.PriceLow, list.PriceHigh);
        Assert.Contains("not an offer", plan.Proof, StringComparison.Ordinal);
    }

    [Fact]
    public void Each_position_is_served_open_or_has_its_reason()
    {
        var plan = Plan(null, null, null, List(North), List(South));
        var named = plan.Positions.Select(p => p.At.Position).Concat(plan.Open.Select(o => o.At.Position)).Concat(plan.NotOrdered.Select(o => o.At.Position));
        Assert.Equal(DemoBooks.Amp.Parts.Select(p => p.Name).Order(StringComparer.Ordinal), named.Order(StringComparer.Ordinal));
        Assert.Equal(plan.Positions.Select(p => p.At).Order(PlaceOrder), plan.Lines.SelectMany(l => l.Positions).Distinct().Order(PlaceOrder));
        Assert.Equal(plan.Positions.Sum(p => p.Count + p.Also.Sum(a => a.Count)), plan.Lines.Sum(l => l.Needed));
        Assert.Equal(plan.Money, plan.Shops.Sum(s => s.Total));
        Assert.All(plan.Shops, s => Assert.Equal(s.Goods, s.Lines.Sum(l => l.Count * l.Each!.Value)));
        Assert.True(plan.IsProven);
    }

    private static readonly Comparer<PlacedAt> PlaceOrder = Comparer<PlacedAt>.Create((a, b) => string.CompareOrdinal(a.Position, b.Position));

    [Fact]
    public void A_second_supplier_is_used_only_where_it_saves_more_than_its_postage()
    {
        // The cheap 100 nF of South bears 400 V only and may not stand; its electrolytics save 2 × 0.70 + 0.50, with film 0.60 more, above 2.00 postage.
        var with = Plan(new() { LinePrice = 0 }, null, null, List(North), List(South));
        Assert.Contains(with.Shops, s => s.Supplier == "South");
        var dear = List(South) with { Terms = new(30m) };
        var without = Plan(new() { LinePrice = 0 }, null, null, List(North), dear);
        Assert.DoesNotContain(without.Shops, s => s.Supplier == "South");
        Assert.All(with.Positions, p => Assert.NotEqual("S-100", p.Item));
        var other = with.Others.Single(o => o.Without == "South");
        Assert.Equal(without.Money - with.Money, other.Extra);
    }

    [Fact]
    public void The_drawer_serves_first_and_is_counted()
    {
        var drawer = Listed.Drawer("description,count,where\nfilm 47nF 630V 10%,1,A3\nfilm 47nF 250V,50,A4\n").Lists.Single();
        var plan = Plan(null, drawer, null, List(North));
        var taken = Assert.Single(plan.FromDrawer);
        Assert.Equal((1, "A3"), (taken.Count, taken.Where));
        Assert.Contains(plan.Shops.Single().Lines, l => l.Item == "N-47" && l.Count == 1);
    }

    [Fact]
    public void Pins_and_bans_hold_and_a_pin_that_may_not_stand_is_refused_with_the_reason()
    {
        var pinned = Plan(new() { Pins = [new(null, "C6", "S-47")] }, null, null, List(North), List(South));
        Assert.Equal("S-47", pinned.Positions.Single(p => p.At.Position == "C6").Item);
        var banned = Plan(new() { Bans = ["N-47", "S-47"] }, null, null, List(North), List(South));
        Assert.Contains(banned.Open, o => o.At.Position == "C6" && o.Reason.Contains("nearest", StringComparison.Ordinal));
        var wrong = Plan(new() { Pins = [new(null, "C3", "S-100")] }, null, null, List(North), List(South));
        Assert.Contains("400 V is less than", wrong.Open.Single(o => o.At.Position == "C3").Reason, StringComparison.Ordinal);
        var gone = Plan(new() { Pins = [new(null, "C3", "X-1")] }, null, null, List(North));
        Assert.Contains("neither the drawer nor a list has it", gone.Open.Single(o => o.At.Position == "C3").Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_books_are_bought_together()
    {
        var one = new BookChoices("amp", Shop.Choose(DemoBooks.Amp));
        var plan = OrderStage.Plan([one, one with { Book = "twin" }], new() { Catalogue = Shop.Catalogue, Suppliers = [List(North)] }, new(), null, TestContext.Current.CancellationToken);
        var line = plan.Lines.Single(l => l.Item == "N-47");
        Assert.Equal([new("amp", "C6"), new("amp", "C7"), new("twin", "C6"), new("twin", "C7")], line.Positions);
        Assert.Equal(4.95m, plan.Shops.Single().Postage);
    }

    [Fact]
    public void A_line_says_why_it_has_more_than_are_needed()
    {
        var plan = Plan(null, null, null, List(North));
        var pack = plan.Lines.Single(l => l.Item == "N-E10L");
        Assert.Equal((5, 1, "sold by 5"), (pack.Count, pack.Needed, pack.Why));
        Assert.Contains("more as spares", Plan(new() { Policy = new() { SparesPerLine = 2 } }, null, null, List(North)).Lines.Single(l => l.Item == "N-47").Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Lists_in_two_currencies_are_not_added_up()
    {
        var plan = Plan(null, null, null, List(North) with { Currency = "GBP" }, List(South) with { Currency = "EUR" });
        Assert.Equal("GBP", plan.Currency);
        Assert.DoesNotContain(plan.Shops, s => s.Supplier == "South");
        Assert.Contains(plan.Remarks, r => r.Contains("EUR", StringComparison.Ordinal));
    }

    [Fact]
    public void A_quotation_counts_work_as_a_range_and_hides_prices_unless_wanted()
    {
        var books = ImmutableArray.Create(new BookChoices("amp", Shop.Choose(DemoBooks.Amp)));
        var plan = Plan(null, null, null, List(North), List(South));
        var quiet = OrderStage.Quote(books, plan, new());
        Assert.Null(quiet.PartsMoney);
        Assert.Equal(plan.Lines.Sum(l => l.Needed), quiet.Parts.Sum(p => p.Count));
        var goes = books[0].Choices.Choices.Count(c => c.Decision == Decision.Goes && !c.Done);
        Assert.Equal(goes, quiet.Work.Where(w => w.Work.StartsWith("parts exchanged", StringComparison.Ordinal) || w.Work.StartsWith("sections", StringComparison.Ordinal)).Sum(w => w.Count));
        Assert.True(0 < quiet.HoursLow && quiet.HoursLow < quiet.HoursHigh);
        var full = OrderStage.Quote(books, plan, new() { ShowPartPrices = true, HourPrice = 40 });
        Assert.Equal(plan.Money, full.PartsMoney);
        Assert.InRange(full.LabourLow!.Value, 39m * (decimal)full.HoursLow, 41m * (decimal)full.HoursLow);
    }

    [Fact]
    public void Where_no_single_part_fits_two_are_bought_with_what_balances_them()
    {
        // 20 µF for 700 V: nobody sells it, two of 47 µF 450 V in series make 23.5 µF; each bears (1 + 0.2)/2 of the volts.
        var book = Book.Empty("b", "b") with { Parts = Table<Trade.Parts.Part>.Of([Shop.Part("C1", "electrolytic", 20e-6, 700)]) };
        const string Pairs = "supplier,P\nitem,description,price\nE,elko 47uF 450V 105°C 20%,2.00\nR,metal film 390k 3W 1%,0.30\nR2,metal film 470k 2W 1%,0.20\n";
        var plan = Plan(null, null, book, List(Pairs));
        var position = plan.Positions.Single();
        Assert.Equal((2, "E"), (position.Count, position.Item));
        var resistor = position.Also.Single();
        Assert.Equal(2, resistor.Count);
        Assert.Contains("series", position.Why, StringComparison.Ordinal);
        Assert.Equal(2 * 2.00m + 2 * plan.Lines.Single(l => l.Item == resistor.Item).Each, plan.Money);
        // Without the resistors there is no pair.
        Assert.Single(Plan(null, null, book, List(Pairs.Replace("R,metal film 390k 3W 1%,0.30\nR2,metal film 470k 2W 1%,0.20\n", "", StringComparison.Ordinal))).Open);
        // A user without lists gets the same from the catalogue.
        Assert.Equal(4, Plan(null, null, book).Lines.Sum(l => l.Needed));
    }

    [Fact]
    public void A_gap_is_said_when_the_search_is_stopped()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var plan = OrderStage.Plan([new("amp", Shop.Choose(DemoBooks.Amp))], new() { Catalogue = Shop.Catalogue, Suppliers = [List(North)] }, new(), null, stop.Token);
        Assert.Equal(SolveEnd.Stopped, plan.End);
        Assert.Contains("Stopped", plan.Proof, StringComparison.Ordinal);
    }
}

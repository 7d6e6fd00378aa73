using CsCheck;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Tests.Choose;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Order;

/// <summary>Source: counting. Rules of thumb for consumables: common practice, no source.</summary>
public class OrderTests
{
    [Fact]
    public void Equal_parts_stand_on_one_line_with_their_positions()
    {
        var order = OrderStage.Run(Shop.Choose(DemoBooks.Amp));
        var couplings = order.Lines.Single(l => l.Positions.Contains("C6"));
        Assert.Equal(["C6", "C7"], couplings.Positions);
        Assert.Equal(2, couplings.Count);
        Assert.Equal(couplings.Part.PriceLow * 2, couplings.PriceLow);
        Assert.Equal(["C10B", "C10C"], order.Lines.Single(l => l.Positions.Contains("C10B")).Positions);
    }

    [Fact]
    public void Each_position_is_bought_once_or_has_its_reason() =>
        RandomChassis.Full.Sample(book =>
        {
            var choices = Shop.Choose(book);
            var order = OrderStage.Run(choices, new() { IncludeMeasureFirst = book.Parts.Count % 2 == 0 });
            var named = order.Lines.SelectMany(l => l.Positions).Distinct().Concat(order.NotOrdered.Select(n => n.Position)).Order(StringComparer.Ordinal);
            return named.SequenceEqual(book.Parts.Select(p => p.Name).Order(StringComparer.Ordinal))
                && order.Lines.All(l => l.Count == l.Positions.Sum(p => choices.For(p)!.Candidates[0].Parts.Count(c => c == l.Part)) && l.Positions.All(p => choices.For(p)!.Candidates[0].Parts.Contains(l.Part)))
                && order.Lines.Select(l => l.Part).Distinct().Count() == order.Lines.Length
                && order.Count == order.Lines.Sum(l => l.Count);
        }, iter: 500);

    [Fact]
    public void What_stays_what_is_measured_first_and_what_is_done_is_not_bought()
    {
        var done = DemoBooks.Radio with { Work = Trade.Table<PositionWork>.Of([new() { Name = "C10", Done = true }]) };
        var order = OrderStage.Run(Shop.Choose(done));
        var reasons = order.NotOrdered.ToDictionary(n => n.Position, n => n.Reason);
        Assert.Contains("done", reasons["C10"], StringComparison.Ordinal);
        Assert.StartsWith("It stays", reasons["C9"], StringComparison.Ordinal);
        Assert.Contains("if it fails: 470 kΩ", reasons["R7"], StringComparison.Ordinal);
        Assert.StartsWith("Not chosen here", reasons["V1"], StringComparison.Ordinal);
        Assert.Contains(OrderStage.Run(Shop.Choose(done), new() { IncludeMeasureFirst = true }).Lines, l => l.Positions.Contains("R7"));
    }

    [Fact]
    public void Consumables_follow_the_counts_and_the_rules_can_be_edited()
    {
        var choices = Shop.Choose(DemoBooks.Radio);
        var bought = OrderStage.Run(choices).Count;
        double Sleeve(double mm) => OrderStage.Run(choices, new() { SleeveMmPerLead = mm }).Consumables.Single(c => c.What.StartsWith("sleeve", StringComparison.Ordinal)).Amount;
        Assert.Equal(Math.Ceiling(bought * 2 * 25 / 100.0) / 10, Sleeve(25), 1e-9);
        Assert.Equal(Math.Ceiling(bought * 2 * 50 / 100.0) / 10, Sleeve(50), 1e-9);
    }

    [Fact]
    public void Spares_are_counted_and_said()
    {
        var line = OrderStage.Run(Shop.Choose(DemoBooks.Amp), new() { SparesPerLine = 1 }).Lines.Single(l => l.Positions.Contains("C6"));
        Assert.Equal((3, 1), (line.Count, line.Spares));
    }

    [Fact]
    public void The_csv_has_a_line_for_each_part_and_decimal_points()
    {
        var order = OrderStage.Run(Shop.Choose(DemoBooks.Amp));
        var lines = OrderStage.Csv(order).TrimEnd('\n').Split('\n');
        Assert.Equal(1 + order.Lines.Length + order.Consumables.Length, lines.Length);
        Assert.StartsWith("count,part,value,unit", lines[0], StringComparison.Ordinal);
        Assert.Contains(lines, l => l.StartsWith("2,47 nF 630 V film,4.7E-08,farad,630,", StringComparison.Ordinal) && l.Contains(",C6 C7,", StringComparison.Ordinal));
    }

    [Fact]
    public void Questions_stay_with_the_order()
    {
        var order = OrderStage.Run(Shop.Choose(DemoBooks.Radio));
        Assert.Contains(order.Questions, q => q.StartsWith("C3: Yours to decide", StringComparison.Ordinal));
    }
}

using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Restoration.Order.Solving;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Order;

/// <summary>What do I buy, once? Equal parts on one line, with what the work uses up.</summary>
public static class OrderStage
{
    /// <summary>The order as comma-separated text: first line the header, numbers with a decimal point, prices as sums of the line.</summary>
    public static string Csv(OrderResult order) => OrderText.Csv(order);

    /// <summary>The cheapest plan for the positions of one or several books, from the drawer and the suppliers.</summary>
    /// <param name="books">What was chosen in each book.</param>
    /// <param name="supply">Drawer, suppliers, catalogue.</param>
    /// <param name="rules">Spares, line price, pins, bans, time.</param>
    /// <param name="progress">Hears of better plans and bounds while it is solved, on other threads.</param>
    /// <param name="stop">Ends early with the best plan so far.</param>
    public static OrderPlan Plan(ImmutableArray<BookChoices> books, OrderSupply supply, OrderRules rules, IProgress<SolveProgress>? progress = null, CancellationToken stop = default) =>
        new Planner(books, supply, rules).Plan(progress, stop);

    /// <summary>What of the drawer may stand at a position, the nearest first: the part that was chosen, then kind, value and rating as the plan would take them.</summary>
    public static ImmutableArray<DrawerLine> InDrawer(Choice choice, Drawer drawer, Catalogue catalogue)
    {
        var shelf = SupplyShelf.Of(new() { Drawer = drawer, Catalogue = catalogue }, new());
        return [.. shelf.Sources.Where(s => Fitting.Of(choice.Requirement, s.Part) is null).OrderBy(s => s.Part.Text != choice.New).ThenBy(s => Planner.Distance(choice.Requirement, s.Part)).Select(s => s.Line!)];
    }

    /// <summary>What the owner of the sets is told beforehand: parts and a range of hours.</summary>
    public static Quotation Quote(ImmutableArray<BookChoices> books, OrderPlan? plan, QuotationRules rules) => Quoting.Of(books, plan, rules);

    /// <summary>Pure: the same choices, the same list, from the catalogue alone and at its example prices.</summary>
    public static OrderResult Run(ChooseResult choices, OrderPolicy? policy = null)
    {
        policy ??= new();
        var wanted = new List<Choice>();
        var not = ImmutableArray.CreateBuilder<NotOrdered>();
        foreach (var choice in choices.Choices)
            if (Wanted.WhyNot(choice, policy) is { } reason) not.Add(new(choice.Position, reason));
            else wanted.Add(choice);
        not.AddRange(choices.NotChosen.Select(n => new NotOrdered(n.Position, n.Reason)));

        ImmutableArray<OrderLine> lines = [.. wanted.SelectMany(c => c.Candidates[0].Parts.Select(p => (Part: p, Choice: c))).GroupBy(c => c.Part, c => c.Choice)
            .OrderBy(g => g.Key.Unit == Unit.Ohm).ThenBy(g => g.Key.SafetyClass == SafetyClass.None).ThenBy(g => g.Key.Kind)
            .ThenByDescending(g => g.Key.Value).ThenBy(g => g.Key.Volts).ThenBy(g => g.Key.Text, StringComparer.Ordinal)
            .Select(g => Line(g.Key, [.. g], policy))];
        return new()
        {
            Lines = lines,
            Consumables = [.. Balancers(wanted), .. Wanted.Consumables(choices, wanted, policy)],
            NotOrdered = not.ToImmutable(),
            Count = lines.Sum(l => l.Count),
            PriceLow = lines.Sum(l => l.PriceLow ?? 0),
            PriceHigh = lines.Sum(l => l.PriceHigh ?? 0),
            PriceNote = "Example prices in no particular currency, from the catalogue's own bands: an order of size, not an offer."
                + (lines.Any(l => l.PriceLow is null || l.PriceHigh is null) ? " Lines without a price are not in the sum." : ""),
            Questions = [.. (choices.Line.Known ? [] : new[] { choices.Line.Sentence }), .. wanted.Where(c => c.Question is not null).Select(c => $"{c.Position}: {c.Question}")],
        };
    }

    private static OrderLine Line(ChosenPart part, ImmutableArray<Choice> choices, OrderPolicy policy)
    {
        var spares = Math.Max(0, policy.SparesPerLine);
        var count = choices.Length + spares;
        return new(part, count, [.. choices.Select(c => c.Position).Distinct()], spares, part.PriceLow * count, part.PriceHigh * count);
    }

    private static IEnumerable<Consumable> Balancers(IEnumerable<Choice> wanted) => wanted.Where(c => c.Candidates[0].Balancer is not null)
        .Select(c => new Consumable($"{Show.Value(c.Candidates[0].Balancer!.Ohms, Unit.Ohm)} {Show.Number(c.Candidates[0].Balancer!.Watts)} W across the pair at {c.Position}", 2, "pieces", c.Candidates[0].Balancer!.Sentence));
}

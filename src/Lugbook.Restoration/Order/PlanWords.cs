using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order.Solving;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Order;

/// <summary>A solution as a plan that explains itself.</summary>
internal static class PlanWords
{
    public static OrderPlan Of(Planner planner, OrderProblem problem, OrderSolution solution, ImmutableArray<OtherPlan> others)
    {
        var sources = planner.Shelf.Sources;
        var positions = ImmutableArray.CreateBuilder<PlannedPosition>();
        var open = planner.Unserved.ToList();
        var at = new List<(PlacedAt At, Choice Choice, Candidate? Pair)>[sources.Count];
        for (var d = 0; d < planner.Positions.Count; d++)
        {
            var (place, choice, _, bags) = planner.Positions[d];
            if (solution.WayOf[d] < 0) { open.Add(new(place, "There is not enough in the drawer and in stock for all positions of this sort.")); continue; }
            var items = problem.Demands[d].Ways[solution.WayOf[d]].Items;
            var source = sources[items[0].Item];
            var pair = items is [{ Count: 1 }] ? null : bags.First(b => b.Items.SequenceEqual(items)).Candidate;
            // The gate once more, on what really came out: a plan that breaks a requirement must never be shown.
            if ((pair is null ? Fitting.Of(choice.Requirement, source.Part) : BagFinder.Fault(choice.Requirement, pair)) is { } fault) throw new InvalidOperationException($"The plan put {source.Part.Text} at {place.Position}: {fault}");
            positions.Add(new(place, source.Supplier, source.Item, source.Part, pair is null ? Differs(choice, source.Part) : $"{pair.Text}. {pair.Sharing}{(pair.Balancer is { } b ? $" {b.Sentence}" : "")}")
            {
                Count = items[0].Count, Also = [.. items.Skip(1).Select(i => new PlannedItem(sources[i.Item].Supplier, sources[i.Item].Item, sources[i.Item].Part, i.Count))],
            });
            foreach (var (item, _) in items) (at[item] ??= []).Add((place, choice, pair));
        }
        var lines = Enumerable.Range(0, sources.Count).Where(i => solution.Cost.Need[i] > 0).Select(i => (Source: sources[i], Index: i, Line: Line(sources[i], solution.Cost, i, at[i]))).ToArray();
        var shops = lines.Where(l => l.Source.Shop is not null).GroupBy(l => l.Source.Shop!.Value)
            .Select(g => Shop(planner.Shelf.Shops[g.Key], [.. g.Select(l => l.Line).OrderBy(Order)], positions.Count, OnlyThere(planner, solution, problem, g.Key))).OrderByDescending(s => s.Total).ThenBy(s => s.Supplier, StringComparer.Ordinal);
        var assumed = lines.Where(l => l.Source.Assumed is not null).Select(l => $"{l.Source.Item}: {l.Source.Assumed}");
        var ripple = lines.SelectMany(l => at[l.Index].Where(a => l.Source.IsUsualRipple && a.Choice.Requirement.RippleAmperes is not null).Take(1)
            .Select(a => $"{l.Source.Item}: its ripple current is not stated; {RippleRating.Amperes(l.Source.Part.RippleAmperes!.Value)} at {Show.Number(l.Source.Part.RippleHertz ?? 120)} Hz is usual for its value and volts, and {a.At.Position} asks for {RippleRating.Amperes(a.Choice.Requirement.RippleAmperes!.Value)}. Read its sheet."));
        return new()
        {
            Shops = [.. shops],
            FromDrawer = [.. lines.Where(l => l.Source.Shop is null).Select(l => l.Line).OrderBy(Order)],
            Positions = positions.ToImmutable(),
            Open = [.. open],
            NotOrdered = [.. planner.NotOrdered],
            Consumables = planner.Consumables,
            Currency = planner.Shelf.Currency,
            Money = solution.Cost.Money / SupplyShelf.Scale,
            IsProven = solution.End == SolveEnd.Proven,
            Gap = solution.Gap,
            Seconds = solution.Elapsed.TotalSeconds,
            End = solution.End,
            Proof = Proof(solution, planner.Shelf.HasSuppliers),
            Others = others,
            Remarks = [.. planner.Remarks, .. assumed.Concat(ripple).Distinct()],
            Questions = [.. planner.Questions],
        };
    }

    private static string Order(PlanLine line) => string.Create(CultureInfo.InvariantCulture, $"{(line.Part.Unit == Unit.Ohm ? 1 : 0)}{(line.Part.SafetyClass == SafetyClass.None ? 1 : 0)}{(int)line.Part.Kind:00}{line.Part.Value:E12}");

    private static PlanLine Line(Source source, OrderCost cost, int item, List<(PlacedAt At, Choice Choice, Candidate? Pair)> at) => new()
    {
        Supplier = source.Supplier,
        Item = source.Item,
        Part = source.Part,
        Count = cost.Bought[item],
        Needed = cost.Need[item],
        Each = source.Shop is null ? null : source.Sale.PriceAt(cost.Bought[item]) / SupplyShelf.Scale,
        Sum = source.Shop is null ? null : cost.Bought[item] * source.Sale.PriceAt(cost.Bought[item]) / SupplyShelf.Scale,
        Positions = [.. at.Select(a => a.At)],
        Why = Why(source, cost.Bought[item], cost.Need[item], at),
        Where = source.Where,
    };

    private static string Why(Source source, int bought, int need, List<(PlacedAt At, Choice Choice, Candidate? Pair)> at)
    {
        var why = new List<string>();
        var alone = at.Where(a => a.Pair is null).ToArray();
        var ratings = alone.Select(a => a.Choice.Requirement.VoltsAtLeast).Where(v => v is not null).Distinct().Order().ToArray();
        if (source.Part.SafetyClass == SafetyClass.None && source.Part.Unit == Unit.Farad && ratings.Length > 1) why.Add($"one line for positions that ask for {Show.List([.. ratings.Select(v => Show.Volts(v!.Value))])}");
        var values = alone.Select(a => a.Choice.OldValue).Where(v => v is not null).Distinct().Order().ToArray();
        if (values.Length > 1) why.Add($"one line in place of {Show.List([.. values.Select(v => Show.Value(v!.Value, source.Part.Unit))])}");
        // Words of a pair name both parts and how they are joined; its resistors stand at the same position.
        why.AddRange(at.Where(a => a.Pair is not null).Select(a => a.Choice.Unit == source.Part.Unit ? $"{a.At.Position}: {a.Pair!.Text}" : $"balances the pair at {a.At.Position}"));
        if (source.Shop is not null)
        {
            var wanted = need + source.Sale.Spares;
            if (source.Sale.Spares > 0) why.Add(string.Create(CultureInfo.InvariantCulture, $"{source.Sale.Spares} more as spares"));
            if (bought > wanted)
            {
                var plain = source.Sale.RoundUp(Math.Max(wanted, source.Sale.Minimum));
                why.Add(plain == bought
                    ? source.Sale.Minimum > wanted && bought <= source.Sale.RoundUp(source.Sale.Minimum) ? string.Create(CultureInfo.InvariantCulture, $"least quantity {source.Sale.Minimum}") : string.Create(CultureInfo.InvariantCulture, $"sold by {source.Sale.Pack}")
                    : string.Create(CultureInfo.InvariantCulture, $"{bought} cost {bought * source.Sale.PriceAt(bought) / SupplyShelf.Scale:0.00}, {plain} would cost {plain * source.Sale.PriceAt(plain) / SupplyShelf.Scale:0.00}"));
            }
        }
        return string.Join("; ", why);
    }

    private static string Differs(Choice choice, ChosenPart part)
    {
        var differs = new List<string>();
        if (choice.OldValue is { } old) differs.Add(Math.Abs(part.Value / old - 1) < 0.0005 ? "the same value" : $"value {Show.Deviation(old, part.Value)}");
        if (part.SafetyClass != SafetyClass.None) differs.Add($"class {part.SafetyClass}");
        else if (part.Unit == Unit.Farad && part.Volts is { } volts && choice.Requirement.VoltsAtLeast is { } least) differs.Add($"{Show.Volts(volts)} where {Show.Volts(least)} are asked for");
        if (part.Watts is { } watts && choice.Requirement.WattsAtLeast is { } asked) differs.Add($"{Show.Number(watts)} W where {Show.Number(asked)} W are asked for");
        if (choice.Requirement.RippleAmperes is { } asks && part.RippleAmperes is { } bears && choice.Unit == part.Unit)
            differs.Add($"{RippleRating.Amperes(RippleRating.At(choice.Requirement.RippleHertz ?? 120, bears, part.RippleHertz))} of ripple where {RippleRating.Amperes(asks)} are asked for");
        var words = string.Join(", ", differs);
        return CategoryTemperature.OfLife(part.Kind, part.Celsius) is { } life ? $"{words}. {life}" : words;
    }

    // Served by this shop, and by nothing else that is offered.
    private static string[] OnlyThere(Planner planner, OrderSolution solution, OrderProblem problem, int shop) =>
    [
        .. planner.Positions.Where((p, d) => solution.WayOf[d] >= 0 && planner.Shelf.Sources[problem.Demands[d].Ways[solution.WayOf[d]].Items[0].Item].Shop == shop
            && planner.Shelf.Shops.Length > 1 && !p.Sources.IsEmpty && p.Sources.All(s => planner.Shelf.Sources[s].Shop == shop)).Select(p => p.At.Position),
    ];

    private const int MostNamed = 6;

    private static ShopPlan Shop((string Name, ShopTerms Terms) shop, ImmutableArray<PlanLine> lines, int positions, string[] only)
    {
        var goods = lines.Sum(l => l.Sum ?? 0);
        var (filling, postage) = shop.Terms.Charge((long)(goods * SupplyShelf.Scale));
        var served = lines.Sum(l => l.Positions.Length);
        var sentence = string.Create(CultureInfo.InvariantCulture, $"For {served} of {positions} positions, {lines.Length} {(lines.Length == 1 ? "line" : "lines")}.");
        if (only.Length > 0) sentence += $" Nobody else has what fits at {(only.Length <= MostNamed ? Show.List(only) : $"{Show.List([.. only.Take(MostNamed)])} and others")}.";
        if (filling > 0)
            sentence += string.Create(CultureInfo.InvariantCulture, $" Add {filling / SupplyShelf.Scale:0.00} of anything useful: {(goods * SupplyShelf.Scale < shop.Terms.MinimumOrder ? "the least order asks for it" : "then postage is free, and that is cheaper")}.");
        return new(shop.Name, lines, goods, filling / SupplyShelf.Scale, postage / SupplyShelf.Scale, sentence);
    }

    private static string Proof(OrderSolution solution, bool suppliers) => solution.End switch
    {
        SolveEnd.Proven => suppliers ? "Proven: no other plan from these lists costs less, the price of a line counted." : "From the drawer and the catalogue at its example prices: an order of size, not an offer.",
        SolveEnd.TimeUp => string.Create(CultureInfo.InvariantCulture, $"Time was up. Another plan could be {solution.Gap * 100:0.0} % cheaper at most; give more time to find out."),
        _ => string.Create(CultureInfo.InvariantCulture, $"Stopped. Another plan could be {solution.Gap * 100:0.0} % cheaper at most."),
    };
}

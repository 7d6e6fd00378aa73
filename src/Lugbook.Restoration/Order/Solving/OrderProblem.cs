using System.Collections.Immutable;

namespace Lugbook.Restoration.Order.Solving;

/// <summary>From this quantity on each piece costs this much.</summary>
/// <param name="From">Pieces, 1 or more; the first step's is 1.</param>
/// <param name="Price">Of one piece, in ten-thousandths of the currency.</param>
public readonly record struct PriceStep(int From, long Price);

/// <summary>Something that can be bought, or lies there.</summary>
public sealed record SaleItem
{
    /// <summary>Index of its shop; null: the user's own, free of charge.</summary>
    public int? Shop { get; init; }
    /// <summary>Prices; quantities rise from 1, prices do not rise. Empty for the user's own.</summary>
    public ImmutableArray<PriceStep> Prices { get; init; } = [];
    /// <summary>Sold in multiples of this, 1 or more.</summary>
    public int Pack { get; init; } = 1;
    /// <summary>Least quantity, 1 or more.</summary>
    public int Minimum { get; init; } = 1;
    /// <summary>Pieces there; null: as many as wanted.</summary>
    public int? Stock { get; init; }
    /// <summary>Pieces more than needed, when any are bought.</summary>
    public int Spares { get; init; }

    /// <summary>Least money that brings at least so many pieces, spares included, and how many are bought for it; null when there are not so many.</summary>
    /// <remarks>Buys more than is needed where a pack, a least quantity or the next price step makes that cheaper.</remarks>
    public (int Count, long Cost)? Buy(int need)
    {
        if (need <= 0) return (0, 0);
        if (Shop is null) return Stock is { } there && there < need ? null : (need, 0);
        (int Count, long Cost)? best = null;
        foreach (var step in Prices)
        {
            var count = RoundUp(Math.Max(Math.Max(need + Spares, Minimum), step.From));
            if (count > (Stock ?? int.MaxValue)) break;
            var cost = count * PriceAt(count);
            if (best is null || cost < best.Value.Cost) best = (count, cost);
        }
        return best;
    }

    /// <summary>Price of one piece when so many are bought.</summary>
    public long PriceAt(int count)
    {
        var price = Prices[0].Price;
        foreach (var step in Prices)
            if (count >= step.From) price = step.Price;
        return price;
    }

    internal int RoundUp(int count) => (count + Pack - 1) / Pack * Pack;
}

/// <summary>A shop's terms, in ten-thousandths of the currency.</summary>
/// <param name="Postage">Once an order.</param>
/// <param name="FreeFrom">Goods from which postage is free; null: never.</param>
/// <param name="MinimumOrder">Least goods.</param>
public sealed record ShopTerms(long Postage, long? FreeFrom, long MinimumOrder)
{
    /// <summary>What goods of this sum come to: filled up to the least order, and on to free postage where that is cheaper. Goods, added filling, postage.</summary>
    /// <remarks>Filling up means: anything of use for the difference. Which, the user chooses.</remarks>
    public (long Filling, long Postage) Charge(long goods)
    {
        var least = Math.Max(goods, MinimumOrder);
        if (FreeFrom is not { } free || Postage == 0) return (least - goods, Postage);
        if (least >= free) return (least - goods, 0);
        return free < least + Postage ? (free - goods, 0) : (least - goods, Postage);
    }
}

/// <summary>So many of an item.</summary>
/// <param name="Item">Index.</param>
/// <param name="Count">1 or more.</param>
public readonly record struct ItemCount(int Item, int Count);

/// <summary>One way to serve a demand: a bag of items, so that two in series are one way too.</summary>
/// <param name="Items">The bag; every item once.</param>
/// <param name="Distance">How far it lies from what is wanted, 0 or more: decides between ways of equal cost.</param>
public sealed record Way(ImmutableArray<ItemCount> Items, int Distance = 0);

/// <summary>Something that is to be served by exactly one of its ways.</summary>
/// <param name="Ways">One or more.</param>
public sealed record Demand(ImmutableArray<Way> Ways);

/// <summary>What is to be bought where? All money in ten-thousandths of one currency.</summary>
public sealed record OrderProblem
{
    /// <summary>What is to be served.</summary>
    public required ImmutableArray<Demand> Demands { get; init; }
    /// <summary>What there is.</summary>
    public required ImmutableArray<SaleItem> Items { get; init; }
    /// <summary>Who sells.</summary>
    public required ImmutableArray<ShopTerms> Shops { get; init; }
    /// <summary>What a further line is worth avoiding; not paid.</summary>
    public long LinePrice { get; init; }

    /// <summary>Counts exactly what an assignment costs.</summary>
    /// <param name="wayOf">Index of the way of each demand; −1: left open.</param>
    /// <returns>Null when there is not enough of something.</returns>
    public OrderCost? CostOf(IReadOnlyList<int> wayOf)
    {
        var need = new int[Items.Length];
        var open = 0;
        for (var d = 0; d < Demands.Length; d++)
        {
            if (wayOf[d] < 0) { open++; continue; }
            foreach (var (item, count) in Demands[d].Ways[wayOf[d]].Items) need[item] += count;
        }
        var bought = new int[Items.Length];
        var goods = new long[Shops.Length];
        var used = new bool[Shops.Length];
        var lines = 0;
        for (var i = 0; i < need.Length; i++)
        {
            if (need[i] == 0) continue;
            if (Items[i].Buy(need[i]) is not var (count, cost)) return null;
            bought[i] = count;
            if (Items[i].Shop is not { } shop) continue;
            goods[shop] += cost;
            used[shop] = true;
            lines++;
        }
        var money = 0L;
        for (var s = 0; s < goods.Length; s++)
            if (used[s])
            {
                var (filling, postage) = Shops[s].Charge(goods[s]);
                money += goods[s] + filling + postage;
            }
        return new([.. need], [.. bought], open, money, lines, money + lines * LinePrice);
    }
}

/// <summary>An assignment, counted.</summary>
/// <param name="Need">Pieces that are fitted, of each item.</param>
/// <param name="Bought">Pieces that are bought or taken, of each item.</param>
/// <param name="Open">Demands that are left open.</param>
/// <param name="Money">Paid: goods, filling and postage.</param>
/// <param name="Lines">Lines bought; the user's own do not count.</param>
/// <param name="Total">Money and the price of the lines.</param>
public sealed record OrderCost(ImmutableArray<int> Need, ImmutableArray<int> Bought, int Open, long Money, int Lines, long Total);

/// <summary>How far a solve has come.</summary>
/// <param name="Best">Total of the best plan so far; null before the first.</param>
/// <param name="Bound">No plan costs less.</param>
/// <param name="Elapsed">Time so far.</param>
public sealed record SolveProgress(long? Best, long? Bound, TimeSpan Elapsed);

/// <summary>How a solve ended.</summary>
public enum SolveEnd
{
    /// <summary>No plan is cheaper.</summary>
    Proven,
    /// <summary>Time was up; the bound tells how much cheaper a plan could be at most.</summary>
    TimeUp,
    /// <summary>The user stopped it; the best plan so far.</summary>
    Stopped,
}

/// <summary>The best plan found.</summary>
/// <param name="WayOf">Index of the way of each demand; −1: left open, because there is not enough.</param>
/// <param name="Cost">Counted exactly.</param>
/// <param name="Bound">No plan that leaves as few open has a smaller total; equal to it when proven.</param>
/// <param name="End">How it ended.</param>
/// <param name="Elapsed">How long it took.</param>
public sealed record OrderSolution(ImmutableArray<int> WayOf, OrderCost Cost, long Bound, SolveEnd End, TimeSpan Elapsed)
{
    /// <summary>How much cheaper a plan could be at most, as a fraction of this one's total; 0 when proven.</summary>
    public double Gap => Cost.Total <= 0 ? 0 : Math.Max(0, (double)(Cost.Total - Bound) / Cost.Total);
}

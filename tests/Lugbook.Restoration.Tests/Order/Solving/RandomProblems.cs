using System.Collections.Immutable;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Tests.Order.Solving;

/// <summary>Small problems with everything in them: breaks, packs, least quantities, stock, a drawer, spares, bags of two, thresholds.</summary>
internal static class RandomProblems
{
    public static OrderProblem Of(int seed, int mostDemands = 5)
    {
        var random = new Random(seed);
        var shops = Enumerable.Range(0, random.Next(1, 4)).Select(_ => new ShopTerms(random.Next(3) * 20_000L, random.Next(2) == 0 ? random.Next(2, 12) * 10_000L : null, random.Next(3) == 0 ? random.Next(1, 6) * 10_000L : 0)).ToImmutableArray();
        var items = Enumerable.Range(0, random.Next(2, 7)).Select(_ => Item(random, shops.Length)).ToImmutableArray();
        var demands = Enumerable.Range(0, random.Next(1, mostDemands + 1)).Select(_ => new Demand([.. Enumerable.Range(0, random.Next(1, 4)).Select(_ => OneWay(random, items.Length)).DistinctBy(w => string.Join(',', w.Items.OrderBy(i => i.Item)))])).ToImmutableArray();
        return new() { Demands = demands, Items = items, Shops = shops, LinePrice = random.Next(3) * 3_000 };
    }

    private static SaleItem Item(Random random, int shops)
    {
        if (random.Next(5) == 0) return new() { Stock = random.Next(4) };
        var price = random.Next(500, 30_000);
        var prices = new List<PriceStep> { new(1, price) };
        if (random.Next(2) == 0) prices.Add(new(random.Next(2, 6), price * random.Next(50, 101) / 100));
        if (random.Next(3) == 0) prices.Add(new(10, prices[^1].Price * random.Next(30, 101) / 100));
        return new()
        {
            Shop = random.Next(shops), Prices = [.. prices], Pack = random.Next(3) == 0 ? random.Next(2, 6) : 1, Minimum = random.Next(4) == 0 ? random.Next(2, 5) : 1,
            Stock = random.Next(3) == 0 ? random.Next(0, 9) : null, Spares = random.Next(4) == 0 ? random.Next(1, 3) : 0,
        };
    }

    private static Way OneWay(Random random, int items)
    {
        var first = random.Next(items);
        if (random.Next(6) > 0) return new([new(first, random.Next(8) == 0 ? 2 : 1)], random.Next(50));
        var second = random.Next(items);
        return second == first ? new([new(first, 2)], random.Next(50)) : new([new(first, 1), new(second, random.Next(1, 3))], random.Next(50));
    }
}

using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Tests.Order.Solving;

/// <summary>Tries every assignment and every quantity: slow, and plainly right. Shares no code with the solver but the problem's own words.</summary>
internal static class Exhaustive
{
    /// <summary>Fewest demands left open, and the least total among such plans.</summary>
    public static (int Open, long Total) Best(OrderProblem problem)
    {
        var best = (Open: int.MaxValue, Total: long.MaxValue);
        var ways = new int[problem.Demands.Length];
        Visit(0);
        return best;

        void Visit(int d)
        {
            if (d == ways.Length)
            {
                var open = ways.Count(w => w < 0);
                if (Total(problem, ways) is { } total && (open, total).CompareTo(best) < 0) best = (open, total);
                return;
            }
            for (ways[d] = -1; ways[d] < problem.Demands[d].Ways.Length; ways[d]++) Visit(d + 1);
        }
    }

    private static long? Total(OrderProblem problem, int[] ways)
    {
        var goods = new Dictionary<int, long>();
        var lines = 0;
        for (var i = 0; i < problem.Items.Length; i++)
        {
            var need = 0;
            for (var d = 0; d < ways.Length; d++)
                if (ways[d] >= 0) need += problem.Demands[d].Ways[ways[d]].Items.Where(x => x.Item == i).Sum(x => x.Count);
            if (need == 0) continue;
            var item = problem.Items[i];
            if (item.Shop is not { } shop)
            {
                if (need > (item.Stock ?? int.MaxValue)) return null;
                continue;
            }
            long? least = null;
            for (var count = need + item.Spares; count <= Math.Min(item.Stock ?? 200, 200); count++)
            {
                if (count % item.Pack != 0 || count < item.Minimum) continue;
                var cost = count * item.Prices.Last(p => p.From <= count).Price;
                if (least is null || cost < least) least = cost;
            }
            if (least is null) return null;
            goods[shop] = goods.GetValueOrDefault(shop) + least.Value;
            lines++;
        }
        var total = lines * problem.LinePrice;
        foreach (var (shop, sum) in goods)
        {
            var terms = problem.Shops[shop];
            var paid = Math.Max(sum, terms.MinimumOrder);
            var plain = paid + (terms.FreeFrom is { } f && paid >= f ? 0 : terms.Postage);
            total += terms.FreeFrom is { } free ? Math.Min(plain, Math.Max(paid, free)) : plain;
        }
        return total;
    }
}

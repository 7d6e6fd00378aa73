namespace Lugbook.Restoration.Order.Solving;

/// <summary>A plan to start from: each demand takes the way that costs least on top of what is bought already, scarce demands first.</summary>
internal static class FirstPlan
{
    public static int[] Of(OrderProblem problem)
    {
        var wayOf = new int[problem.Demands.Length];
        Array.Fill(wayOf, -1);
        var need = new int[problem.Items.Length];
        foreach (var d in Enumerable.Range(0, wayOf.Length).OrderBy(d => problem.Demands[d].Ways.Length).ThenBy(d => d))
        {
            var (best, least) = (-1, long.MaxValue);
            for (var w = 0; w < problem.Demands[d].Ways.Length; w++)
                if (Extra(problem, need, problem.Demands[d].Ways[w]) is { } extra && extra < least) (best, least) = (w, extra);
            if (best < 0) continue;
            wayOf[d] = best;
            foreach (var (item, count) in problem.Demands[d].Ways[best].Items) need[item] += count;
        }
        return wayOf;
    }

    private static long? Extra(OrderProblem problem, int[] need, Way way)
    {
        var extra = 0L;
        foreach (var (item, count) in way.Items)
        {
            if (problem.Items[item].Buy(need[item] + count) is not { } after) return null;
            extra += after.Cost - problem.Items[item].Buy(need[item])!.Value.Cost + (need[item] == 0 && problem.Items[item].Shop is not null ? problem.LinePrice : 0);
        }
        return extra;
    }
}

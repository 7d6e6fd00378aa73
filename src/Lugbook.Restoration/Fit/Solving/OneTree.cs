namespace Lugbook.Restoration.Fit.Solving;

/// <summary>A bound that holds for every order of one position at a time: the shortest spanning tree with a start, its nodes priced until it looks like a tour.</summary>
/// <remarks>
/// Held and Karp, Operations Research 18, 1970, p. 1138, for a path through the classes in turn: an added node joins the first class and the last, and crossing from
/// one class to the next more than once is priced like a wrong degree. What lies buried is left out, so the bound can only be too low.
/// </remarks>
internal static class OneTree
{
    /// <summary>No order costs less.</summary>
    /// <param name="problem">The jobs.</param>
    /// <param name="step">What it adds that one comes right after another.</param>
    /// <param name="known">Cost of some order, for the length of steps.</param>
    /// <param name="rounds">How often the nodes are priced anew.</param>
    public static long Bound(WorkProblem problem, long[,] step, long known, int rounds)
    {
        var n = problem.Jobs.Length;
        var fixedCost = problem.FixedCost();
        int[] classes = [.. problem.Jobs.Select(j => j.Class).Distinct().Order()];
        var kind = problem.Jobs.Select(j => Array.IndexOf(classes, j.Class)).ToArray();
        // The added node needs two ends.
        if (n < 3 || classes.Length == 1 && n < 2) return problem.LeastCost();
        var (price, border) = (new double[n], new double[classes.Length]);
        var (degree, crossed) = (new int[n], new int[classes.Length]);
        var (near, link, done) = (new double[n], new int[n], new bool[n]);
        var (best, stride, still) = (double.NegativeInfinity, 2.0, 0);
        for (var round = 0; round < rounds && stride > 1e-4; round++)
        {
            var total = Tree();
            if (total > best + 1e-9) (best, still) = (total, 0);
            else if (++still >= Math.Max(10, rounds / 40)) (stride, still) = (stride / 2, 0);
            if (fixedCost + best > known - 1 + 1e-6) break;
            var norm = degree.Sum(d => (d - 2.0) * (d - 2)) + crossed.Skip(1).Sum(c => (c - 1.0) * (c - 1));
            if (norm == 0) break;
            var length = stride * Math.Max(1, known - fixedCost - total) / norm;
            for (var i = 0; i < n; i++) price[i] += length * (degree[i] - 2);
            for (var c = 1; c < classes.Length; c++) border[c] += length * (crossed[c] - 1);
        }
        return Math.Max(problem.LeastCost(), (long)Math.Ceiling(fixedCost + best - 1e-6));

        // Prim's tree over all jobs, and the two cheapest edges of the added node; crossed[c] counts edges into class c from the one before.
        double Tree()
        {
            Array.Clear(degree);
            Array.Clear(crossed);
            Array.Clear(done);
            Array.Fill(near, double.PositiveInfinity);
            near[0] = 0;
            link[0] = -1;
            var sum = 0.0;
            for (var k = 0; k < n; k++)
            {
                var here = -1;
                for (var i = 0; i < n; i++) if (!done[i] && (here < 0 || near[i] < near[here])) here = i;
                done[here] = true;
                sum += near[here];
                if (link[here] is >= 0 and var from)
                {
                    degree[here]++;
                    degree[from]++;
                    if (kind[here] != kind[from]) crossed[Math.Max(kind[here], kind[from])]++;
                }
                for (var i = 0; i < n; i++)
                {
                    var apart = kind[i] - kind[here];
                    if (done[i] || apart is > 1 or < -1) continue;
                    var cost = step[here, i] + price[here] + price[i] + (apart == 0 ? 0 : border[Math.Max(kind[here], kind[i])]);
                    if (cost < near[i]) (near[i], link[i]) = (cost, here);
                }
            }
            var start = Cheapest(0, -1);
            var end = Cheapest(classes.Length - 1, classes.Length == 1 ? start : -1);
            degree[start]++;
            degree[end]++;
            return sum + price[start] + price[end] - 2 * price.Sum() - border.Sum();
        }

        int Cheapest(int inClass, int but)
        {
            var found = -1;
            for (var i = 0; i < n; i++) if (kind[i] == inClass && i != but && (found < 0 || price[i] < price[found])) found = i;
            return found;
        }
    }
}

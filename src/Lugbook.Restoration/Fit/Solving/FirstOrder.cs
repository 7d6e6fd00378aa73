using System.Collections.Immutable;

namespace Lugbook.Restoration.Fit.Solving;

/// <summary>An order to start from, found at once and always the same: the nearest job next, then jobs and stretches are moved while that helps, and a while longer.</summary>
internal static class FirstOrder
{
    private const int MostPasses = 30, Moves = 120_000;

    public static ImmutableArray<ImmutableArray<int>> Of(WorkProblem problem)
    {
        if (problem.Before.Any(b => problem.Jobs[b.Cover].Class > problem.Jobs[b.Buried].Class)) throw new ArgumentException("What covers a part may not be in a later class than the part.", nameof(problem));
        var step = Steps(problem);
        var order = Nearest(problem, step);
        Improve(problem, step, order);
        int[] better = [.. order];
        Annealing.Better(problem, step, better, Moves, long.MinValue, hot: 1);
        return problem.Open == 1 ? One(better) : Rounds(problem, [.. better]);
    }

    /// <summary>One position in each round.</summary>
    public static ImmutableArray<ImmutableArray<int>> One(IEnumerable<int> order) => [.. order.Select(j => ImmutableArray.Create(j))];

    /// <summary>What it adds that one job comes right after another.</summary>
    public static long[,] Steps(WorkProblem problem)
    {
        var n = problem.Jobs.Length;
        var step = new long[n, n];
        for (var i = 0; i < n; i++)
            for (var j = 0; j < n; j++)
                if (i != j) step[i, j] = SequenceModel.Step(problem, i, j);
        return step;
    }

    private static List<int> Nearest(WorkProblem problem, long[,] step)
    {
        var left = Enumerable.Range(0, problem.Jobs.Length).ToList();
        var order = new List<int>(left.Count);
        while (left.Count > 0)
        {
            var now = left.Min(j => problem.Jobs[j].Class);
            var free = left.Where(j => problem.Jobs[j].Class == now && !problem.Before.Any(b => b.Buried == j && left.Contains(b.Cover))).ToList();
            if (free.Count == 0) throw new ArgumentException("Parts cover each other in a circle.", nameof(problem));
            var next = order.Count == 0 ? free[0] : free.MinBy(j => step[order[^1], j]);
            left.Remove(next);
            order.Add(next);
        }
        return order;
    }

    // A stretch of up to eight jobs goes elsewhere in its class, as it is or turned round.
    private static void Improve(WorkProblem problem, long[,] step, List<int> order)
    {
        var n = order.Count;
        var place = new int[n];
        var covers = problem.Before.Where(b => problem.Jobs[b.Cover].Class == problem.Jobs[b.Buried].Class).ToArray();
        for (var (pass, better) = (0, true); better && pass < MostPasses; pass++)
        {
            better = false;
            for (var from = 0; from < n; from++)
                for (var length = 1; length <= 8 && from + length <= n; length++)
                {
                    var end = from + length - 1;
                    if (problem.Jobs[order[from]].Class != problem.Jobs[order[end]].Class) break;
                    if (Best(from, end) is not var (to, turned)) continue;
                    var stretch = order.GetRange(from, length);
                    if (turned) stretch.Reverse();
                    var kept = order.ToArray();
                    order.RemoveRange(from, length);
                    order.InsertRange(to, stretch);
                    if (Allowed()) better = true;
                    else for (var k = 0; k < n; k++) order[k] = kept[k];
                }
        }

        // Where the stretch saves most; the index counts after it was taken out.
        (int To, bool Turned)? Best(int from, int end)
        {
            var kind = problem.Jobs[order[from]].Class;
            long Edge(int a, int b) => a < 0 || b >= n ? 0 : step[order[a], order[b]];
            var saved = Edge(from - 1, from) + Edge(end, end + 1) - Edge(from - 1, end + 1);
            (int, bool)? best = null;
            var most = 0L;
            for (var gap = 0; gap <= n; gap++)
            {
                if (gap >= from && gap <= end + 1)
                {
                    if (gap != from || end == from) continue;
                    Consider(from, Edge(from - 1, end + 1), from - 1, end + 1);
                    continue;
                }
                if (!(gap > 0 && problem.Jobs[order[gap - 1]].Class == kind || gap < n && problem.Jobs[order[gap]].Class == kind)) continue;
                Consider(gap > end ? gap - (end - from + 1) : gap, Edge(gap - 1, gap), gap - 1, gap);
            }
            return best;

            void Consider(int to, long without, int a, int b)
            {
                foreach (var turned in (ReadOnlySpan<bool>)[false, true])
                {
                    var (head, tail) = turned ? (end, from) : (from, end);
                    var gain = saved + without - (a < 0 ? 0 : step[order[a], order[head]]) - (b >= n ? 0 : step[order[tail], order[b]]);
                    if (gain <= most) continue;
                    (most, best) = (gain, (to, turned));
                }
            }
        }

        bool Allowed()
        {
            for (var k = 0; k < n; k++) place[order[k]] = k;
            for (var k = 1; k < n; k++) if (problem.Jobs[order[k]].Class < problem.Jobs[order[k - 1]].Class) return false;
            return Array.TrueForAll(covers, c => place[c.Cover] < place[c.Buried]);
        }
    }

    // Cut into rounds so that neighbouring rounds save most; exact for the order as it is, as far as neighbouring rounds tell.
    private static ImmutableArray<ImmutableArray<int>> Rounds(WorkProblem problem, List<int> order)
    {
        var n = order.Count;
        var best = new Dictionary<(int Start, int End), (long Cost, int Before)>();    // the last round runs from start to before end
        for (var start = 0; start < n; start++)
            foreach (var end in Ends(start))
            {
                if (start == 0) { best[(0, end)] = (-Twice(0, end), -1); continue; }
                foreach (var before in Enumerable.Range(0, start).Where(b => best.ContainsKey((b, start))))
                {
                    var cost = best[(before, start)].Cost + Joint(before, start, end);
                    if (!best.TryGetValue((start, end), out var known) || cost < known.Cost) best[(start, end)] = (cost, before);
                }
            }
        var rounds = new List<ImmutableArray<int>>();
        var last = best.Where(b => b.Key.End == n).MinBy(b => (b.Value.Cost, b.Key.Start)).Key;
        for (var (s, e) = last; ; (s, e) = (best[(s, e)].Before, s))
        {
            rounds.Insert(0, [.. order[s..e]]);
            if (s == 0) return [.. rounds];
        }

        IEnumerable<int> Ends(int start)
        {
            var size = 0;
            for (var end = start + 1; end <= n; end++)
            {
                var job = order[end - 1];
                size += problem.Jobs[job].Size;
                if (end > start + 1 && (size > problem.Open || problem.Jobs[job].Class != problem.Jobs[order[start]].Class
                    || order[start..(end - 1)].Any(o => problem.Apart.Contains((o, job)) || problem.Apart.Contains((job, o))))) yield break;
                yield return end;
            }
        }

        long Twice(int start, int end) => order[start..end].SelectMany(j => problem.Jobs[j].Lugs).CountBy(l => l).Sum(c => (c.Value - 1) * problem.LugCost[c.Key]);

        // A lug worked on in two neighbouring rounds, or twice in one, is taken up once less.
        long Joint(int before, int start, int end)
        {
            var was = order[before..start].SelectMany(j => problem.Jobs[j].Lugs).ToHashSet();
            var cost = -order[start..end].SelectMany(j => problem.Jobs[j].Lugs).Distinct().Where(was.Contains).Sum(l => problem.LugCost[l]) - Twice(start, end);
            var mounts = order[before..start].SelectMany(j => problem.Jobs[j].Mounts).ToHashSet();
            return cost + (order[start..end].SelectMany(j => problem.Jobs[j].Mounts).Any(mounts.Contains) ? 0 : problem.MoveCost);
        }
    }
}

using Lugbook.Restoration.Fit.Solving;

namespace Lugbook.Restoration.Tests.Fit.Solving;

/// <summary>Tries every order and every way to cut it into rounds: slow, and plainly right. Counts and allows by its own words; shares nothing with the solver but the problem.</summary>
internal static class EveryOrder
{
    /// <summary>The least cost of all orders that are allowed.</summary>
    public static long Best(WorkProblem problem)
    {
        var best = long.MaxValue;
        Extend([], Enumerable.Range(0, problem.Jobs.Length).ToList());
        return best;

        void Extend(List<int[]> rounds, List<int> left)
        {
            if (left.Count == 0)
            {
                best = Math.Min(best, Cost(problem, rounds));
                return;
            }
            var urgent = left.Min(j => problem.Jobs[j].Class);
            var free = left.Where(j => problem.Jobs[j].Class == urgent).ToArray();
            for (var set = 1; set < 1 << free.Length; set++)
            {
                int[] round = [.. free.Where((_, k) => (set >> k & 1) != 0)];
                if (round.Length > 1 && round.Sum(j => problem.Jobs[j].Size) > problem.Open) continue;
                if (problem.Apart.Any(p => round.Contains(p.A) && round.Contains(p.B))) continue;
                if (problem.Before.Any(p => round.Contains(p.Buried) && left.Contains(p.Cover) && !round.Contains(p.Cover))) continue;
                rounds.Add(round);
                Extend(rounds, [.. left.Except(round)]);
                rounds.RemoveAt(rounds.Count - 1);
            }
        }
    }

    // Lug by lug: the number of stretches of rounds without a break in which it is worked on, less one.
    private static long Cost(WorkProblem problem, List<int[]> rounds)
    {
        var sum = 0L;
        for (var lug = 0; lug < problem.LugCost.Length; lug++)
        {
            var text = string.Concat(rounds.Select(r => r.Any(j => problem.Jobs[j].Lugs.Contains(lug)) ? 'x' : ' '));
            sum += problem.LugCost[lug] * Math.Max(0, text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length - 1);
        }
        for (var r = 1; r < rounds.Count; r++)
            if (!rounds[r].SelectMany(j => problem.Jobs[j].Mounts).Intersect(rounds[r - 1].SelectMany(j => problem.Jobs[j].Mounts)).Any()) sum += problem.MoveCost;
        return sum;
    }
}

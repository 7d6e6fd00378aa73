using System.Collections.Immutable;
using Google.OrTools.Sat;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Fit.Solving;

/// <summary>Several positions open at once: which job in which round.</summary>
internal static class RoundsModel
{
    /// <param name="problem">The jobs.</param>
    /// <param name="first">An order to begin with.</param>
    /// <param name="most">Rounds there may be; with as many as there are jobs the bound holds for all orders.</param>
    /// <param name="search">Limit, progress, stop.</param>
    public static (ImmutableArray<ImmutableArray<int>> Rounds, long Bound, SolveEnd End) Solve(WorkProblem problem, ImmutableArray<ImmutableArray<int>> first, int most, Search search)
    {
        var model = new CpModel();
        var (n, jobs) = (problem.Jobs.Length, problem.Jobs);
        BoolVar[] Row(int count) => [.. Enumerable.Range(0, count).Select(_ => model.NewBoolVar(""))];
        var used = Row(most);
        var at = jobs.Select(_ => Row(most)).ToArray();      // job, round
        var round = jobs.Select(_ => model.NewIntVar(0, most - 1, "")).ToArray();
        for (var r = 1; r < most; r++) model.AddImplication(used[r], used[r - 1]);
        for (var j = 0; j < n; j++)
        {
            model.AddExactlyOne(at[j]);
            model.Add(round[j] == LinearExpr.WeightedSum(at[j], Enumerable.Range(0, most)));
            for (var r = 0; r < most; r++)
            {
                model.AddImplication(at[j][r], used[r]);
                model.AddHint(at[j][r], r < first.Length && first[r].Contains(j) ? 1 : 0);
            }
        }
        for (var r = 0; r < most; r++)
        {
            model.AddBoolOr([.. Enumerable.Range(0, n).Select(j => (ILiteral)at[j][r]), used[r].Not()]);
            var small = Enumerable.Range(0, n).Where(j => jobs[j].Size <= problem.Open).ToArray();
            model.Add(LinearExpr.WeightedSum(small.Select(j => at[j][r]), small.Select(j => jobs[j].Size)) <= problem.Open);
            foreach (var big in Enumerable.Range(0, n).Where(j => jobs[j].Size > problem.Open))
                foreach (var other in Enumerable.Range(0, n).Where(j => j != big)) model.AddBoolOr([at[big][r].Not(), at[other][r].Not()]);
            foreach (var (a, b) in problem.Apart) model.AddBoolOr([at[a][r].Not(), at[b][r].Not()]);
        }
        foreach (var (cover, buried) in problem.Before) model.Add(round[buried] >= round[cover]);
        int[] classes = [.. jobs.Select(j => j.Class).Distinct().Order()];
        for (var c = 1; c < classes.Length; c++)
        {
            var border = model.NewIntVar(0, most, "");
            foreach (var j in Enumerable.Range(0, n))
                if (jobs[j].Class <= classes[c - 1]) model.Add(round[j] < border);
                else model.Add(round[j] >= border);
        }
        var total = LinearExpr.NewBuilder();
        Lugs(model, problem, at, most, total);
        Moves(model, problem, at, used, most, total);
        model.Minimize(total);
        var (solver, bound, end) = search.Run(model, n <= 6);
        if (solver is null) return (first, 0, end);
        var found = Enumerable.Range(0, n).GroupBy(j => solver.Value(round[j])).OrderBy(g => g.Key).Select(g => Ordered(problem, [.. g])).ToImmutableArray();
        return (found, bound, end);
    }

    private static void Lugs(CpModel model, WorkProblem problem, BoolVar[][] at, int most, LinearExprBuilder total)
    {
        for (var lug = 0; lug < problem.LugCost.Length; lug++)
        {
            int[] here = [.. Enumerable.Range(0, at.Length).Where(j => problem.Jobs[j].Lugs.Contains(lug))];
            if (here.Length < 2 || problem.LugCost[lug] == 0) continue;
            var work = Presence(model, at, here, most);
            BoolVar[] taken = [.. Enumerable.Range(0, most).Select(_ => model.NewBoolVar(""))];
            for (var r = 0; r < most; r++) model.Add(taken[r] >= (r == 0 ? LinearExpr.Affine(work[r], 1, 0) : work[r] - work[r - 1]));
            model.AddBoolOr(taken);
            foreach (var t in taken) total.AddTerm(t, problem.LugCost[lug]);
            total.Add(-problem.LugCost[lug]);
        }
    }

    private static void Moves(CpModel model, WorkProblem problem, BoolVar[][] at, BoolVar[] used, int most, LinearExprBuilder total)
    {
        if (problem.MoveCost == 0) return;
        var mounts = problem.Jobs.SelectMany(j => j.Mounts).Distinct().ToDictionary(m => m, m => Presence(model, at, [.. Enumerable.Range(0, at.Length).Where(j => problem.Jobs[j].Mounts.Contains(m))], most));
        for (var r = 1; r < most; r++)
        {
            var move = model.NewBoolVar("");
            List<ILiteral> reasons = [move, used[r].Not()];
            foreach (var work in mounts.Values)
            {
                var both = model.NewBoolVar("");
                model.AddImplication(both, work[r]);
                model.AddImplication(both, work[r - 1]);
                reasons.Add(both);
            }
            model.AddBoolOr(reasons);
            total.AddTerm(move, problem.MoveCost);
        }
    }

    /// <summary>Is any of these jobs in the round? Exactly so, both ways.</summary>
    private static BoolVar[] Presence(CpModel model, BoolVar[][] at, int[] jobs, int most)
    {
        var work = new BoolVar[most];
        for (var r = 0; r < most; r++)
        {
            var here = work[r] = model.NewBoolVar("");
            foreach (var j in jobs) model.AddImplication(at[j][r], here);
            model.AddBoolOr([.. jobs.Select(j => (ILiteral)at[j][r]), here.Not()]);
        }
        return work;
    }

    /// <summary>Within a round what covers comes off first.</summary>
    internal static ImmutableArray<int> Ordered(WorkProblem problem, ImmutableArray<int> round)
    {
        var left = round.Order().ToList();
        var ordered = ImmutableArray.CreateBuilder<int>(round.Length);
        while (left.Count > 0)
        {
            var next = left.FirstOrDefault(j => !problem.Before.Any(b => b.Buried == j && left.Contains(b.Cover)), left[0]);
            left.Remove(next);
            ordered.Add(next);
        }
        return ordered.ToImmutable();
    }
}

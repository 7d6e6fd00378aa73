using System.Collections.Immutable;
using Google.OrTools.Sat;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Fit.Solving;

/// <summary>One position open at a time: a tour through all jobs, class by class, in which each lug that two neighbours share saves a heating.</summary>
/// <remarks>A lug with k jobs is taken up k times, less one for each pair of neighbours in the order that both work on it: the cost is a sum over neighbours.</remarks>
internal static class SequenceModel
{
    public static (ImmutableArray<ImmutableArray<int>> Rounds, long Bound, SolveEnd End) Solve(WorkProblem problem, ImmutableArray<ImmutableArray<int>> first, Search search)
    {
        var model = new CpModel();
        var n = problem.Jobs.Length;
        int[] classes = [.. problem.Jobs.Select(j => j.Class).Distinct().Order()];
        var follows = classes.Zip(classes.Skip(1)).ToDictionary(p => p.First, p => p.Second);
        var circuit = model.AddCircuit();
        var hint = first.Select(r => r[0]).ToArray();
        var next = hint.Zip(hint.Skip(1)).ToDictionary(p => p.First, p => p.Second);
        var total = LinearExpr.NewBuilder();
        total.Add(problem.FixedCost());
        var arcs = new Dictionary<(int From, int To), BoolVar>();
        // Node n is the beginning and the end.
        foreach (var j in Enumerable.Range(0, n))
        {
            if (problem.Jobs[j].Class == classes[0]) Arc(n, j, 0, hint[0] == j);
            if (problem.Jobs[j].Class == classes[^1]) Arc(j, n, 0, hint[^1] == j);
            for (var k = 0; k < n; k++)
                if (k != j && (problem.Jobs[k].Class == problem.Jobs[j].Class || follows.TryGetValue(problem.Jobs[j].Class, out var after) && problem.Jobs[k].Class == after))
                    Arc(j, k, Step(problem, j, k), next.GetValueOrDefault(j, -1) == k);
        }
        Precedences();
        model.Minimize(total);
        var (solver, bound, end) = search.Run(model, n <= 30);
        if (solver is null) return (first, 0, end);
        var to = arcs.Where(a => solver.BooleanValue(a.Value)).ToDictionary(a => a.Key.From, a => a.Key.To);
        var rounds = ImmutableArray.CreateBuilder<ImmutableArray<int>>(n);
        for (var at = to[n]; at != n; at = to[at]) rounds.Add([at]);
        return (rounds.ToImmutable(), bound, end);

        void Arc(int from, int to, long cost, bool hinted)
        {
            var arc = model.NewBoolVar("");
            circuit.AddArc(from, to, arc);
            arcs[(from, to)] = arc;
            total.AddTerm(arc, cost);
            model.AddHint(arc, hinted ? 1 : 0);
        }

        // Ranks only in classes in which something lies buried.
        void Precedences()
        {
            foreach (var pairs in problem.Before.Where(b => problem.Jobs[b.Cover].Class == problem.Jobs[b.Buried].Class).GroupBy(b => problem.Jobs[b.Cover].Class))
            {
                int[] members = [.. Enumerable.Range(0, n).Where(j => problem.Jobs[j].Class == pairs.Key)];
                var rank = members.ToDictionary(j => j, _ => model.NewIntVar(0, members.Length - 1, ""));
                foreach (var j in members)
                    foreach (var k in members)
                        if (j != k) model.Add(rank[k] >= rank[j] + 1).OnlyEnforceIf(arcs[(j, k)]);
                foreach (var (cover, buried) in pairs)
                {
                    model.Add(rank[buried] >= rank[cover] + 1);
                    model.Add(arcs[(buried, cover)] == 0);
                }
            }
        }
    }

    /// <summary>What it adds that one job comes right after the other.</summary>
    public static long Step(WorkProblem problem, int before, int after)
    {
        var (a, b) = (problem.Jobs[before], problem.Jobs[after]);
        var step = 0L;
        foreach (var lug in a.Lugs) if (b.Lugs.Contains(lug)) step -= problem.LugCost[lug];
        foreach (var mount in a.Mounts) if (b.Mounts.Contains(mount)) return step;
        return step + problem.MoveCost;
    }
}

using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit.Solving;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Fit;

/// <summary>A position in the order of the work.</summary>
/// <param name="Choice">What is exchanged.</param>
/// <param name="Why">Why at this place.</param>
/// <param name="Round">Positions of one round are open at once; from 1.</param>
internal sealed record Turn(Choice Choice, string Why, int Round);

/// <summary>In which order? The positions as a problem for the solver, and its answer as turns.</summary>
internal sealed class WorkOrder
{
    public const string Rule = "What protects a life or the set comes first (line positions, couplings to output grids, reservoir and filters, screens and control voltages, plates, cathodes, tone, the rest; what is held back last), "
        + "and what covers comes before what it covers. Within that, the order heats as few lugs as possible once more (10 each, 15 where something beside it suffers from heat) and seldom changes the mount (1 each). Sections of one can follow each other.";

    private readonly IReadOnlyList<Choice> _work;
    private readonly ImmutableArray<int[]> _jobs;       // indices into the work
    private readonly WorkProblem _problem;
    private readonly int[] _ranks;
    private readonly ImmutableArray<(int Cover, int Buried)> _covers;
    private readonly int[] _fixed;                      // for each position its step if it was done as that step, or 0

    public WorkOrder(MapResult map, Bench bench, IReadOnlyList<Choice> work, IReadOnlySet<int> held, FitRules rules)
    {
        _work = work;
        var outputs = WorkClass.OutputGrids(map);
        _ranks = [.. work.Select(c => held.Contains(c.PartId) ? WorkClass.Held : WorkClass.Of(c, outputs, map))];
        _covers = bench.Around.Covers([.. work.Select(c => c.PartId)]);
        // A can is taken in hand once: at the turn of its most urgent section.
        _jobs = [.. work.Select((c, i) => (Choice: c, Index: i)).GroupBy(x => Body(x.Choice, _ranks[x.Index]) ?? $"#{x.Index}", StringComparer.OrdinalIgnoreCase).Select(g => g.Select(x => x.Index).ToArray())];
        var jobOf = new Dictionary<int, int>();
        for (var j = 0; j < _jobs.Length; j++) foreach (var i in _jobs[j]) jobOf[work[i].PartId] = j;
        var classes = _jobs.Select(j => j.Min(i => _ranks[i])).ToArray();
        ImmutableArray<(int Cover, int Buried)> before = [.. _covers.Select(c => (Cover: jobOf[c.Cover], Buried: jobOf[c.Buried])).Where(b => b.Cover != b.Buried && (classes[b.Cover] != WorkClass.Held || classes[b.Buried] == WorkClass.Held)).Distinct()];
        before = WithoutCircles(before);
        // What covers an urgent part is as urgent.
        for (var (changed, round) = (true, 0); changed && round <= _jobs.Length; round++)
        {
            changed = false;
            foreach (var (cover, buried) in before)
                if (classes[cover] > classes[buried]) (classes[cover], changed) = (classes[buried], true);
        }
        var lugs = bench.Lugs.Select((l, i) => (l, i)).ToDictionary(x => x.l, x => x.i, StringComparer.OrdinalIgnoreCase);
        var mounts = map.Book.Lugs.Select(l => l.Mount).Distinct(StringComparer.OrdinalIgnoreCase).Select((m, i) => (m, i)).ToDictionary(x => x.m, x => x.i, StringComparer.OrdinalIgnoreCase);
        _problem = new()
        {
            Jobs = [.. _jobs.Select((members, j) => new WorkJob(
                [.. members.SelectMany(i => work[i].Lugs).Select(l => lugs[l]).Distinct().Order()],
                [.. members.SelectMany(i => work[i].Lugs).Select(l => map.Book.Lugs.Named(l)?.Mount).OfType<string>().Select(m => mounts[m]).Distinct().Order()],
                classes[j], members.Length))],
            LugCost = [.. bench.Lugs.Select(l => bench.HeatSensitive(l).IsEmpty ? 10L : 15L)],
            Before = before,
            Apart = Confusable.Pairs(map, work, _jobs),
            Open = rules.Open,
        };
        _fixed = [.. work.Select(c => c.Done && map.Book.Work.Named(c.Position)?.DoneStep is { } step && step >= 1 && step <= work.Count ? step : 0)];
        Key = KeyOf();
    }

    /// <summary>Stands for the problem, ticks apart.</summary>
    public string Key { get; }

    /// <summary>The order that is given at once, or the one that a search finds. What was done as a numbered step keeps its number.</summary>
    public FitOrder Find(Func<WorkProblem, WorkSolution> solve, bool first)
    {
        // A place is kept for the first that claims it.
        var slots = new int?[_work.Count];
        foreach (var i in Enumerable.Range(0, _work.Count).Where(i => _fixed[i] > 0)) slots[_fixed[i] - 1] ??= i;
        var kept = slots.OfType<int>().ToHashSet();
        int[] open = [.. Enumerable.Range(0, _jobs.Length).Where(j => _jobs[j].Any(i => !kept.Contains(i)))];
        var at = open.Select((j, k) => (j, k)).ToDictionary(x => x.j, x => x.k);
        var rest = _problem with
        {
            Jobs = [.. open.Select(j => _problem.Jobs[j])],
            Before = [.. _problem.Before.Where(b => at.ContainsKey(b.Cover) && at.ContainsKey(b.Buried)).Select(b => (at[b.Cover], at[b.Buried]))],
            Apart = [.. _problem.Apart.Where(b => at.ContainsKey(b.A) && at.ContainsKey(b.B)).Select(b => (at[b.A], at[b.B]))],
        };
        var solution = open.Length == 0 ? new([], new(0, 0, 0), 0, SolveEnd.Proven, TimeSpan.Zero) : solve(rest);
        var queue = new Queue<(int Index, int Round)>(solution.Rounds.SelectMany((round, r) => Spread(round.Select(j => _jobs[open[j]].Where(i => !kept.Contains(i)).ToArray()), r)));
        var rounds = new List<(int Id, ImmutableArray<int>.Builder Parts)>();
        for (var s = 0; s < slots.Length; s++)
        {
            var (index, id) = slots[s] is { } done ? (done, -1 - s) : queue.Dequeue();
            if (rounds.Count == 0 || rounds[^1].Id != id) rounds.Add((id, ImmutableArray.CreateBuilder<int>()));
            rounds[^1].Parts.Add(_work[index].PartId);
        }
        return new()
        {
            Rounds = [.. rounds.Select(r => r.Parts.ToImmutable())], Key = Key, Cost = solution.Cost, Bound = solution.Bound, End = solution.End, IsFirst = first, Elapsed = solution.Elapsed,
        };
    }

    // A can with more sections than may be open is worked off section by section.
    private IEnumerable<(int Index, int Round)> Spread(IEnumerable<int[]> jobs, int round)
    {
        var k = 0;
        foreach (var i in jobs.SelectMany(j => j)) yield return (i, round * 1000 + k++ / _problem.Open);
    }

    /// <summary>The positions in the order, each with its reason.</summary>
    public ImmutableArray<Turn> Turns(FitOrder order)
    {
        var byPart = _work.Select((c, i) => (c, i)).ToDictionary(x => x.c.PartId, x => x.i);
        var turns = ImmutableArray.CreateBuilder<Turn>(_work.Count);
        for (var r = 0; r < order.Rounds.Length; r++)
            foreach (var part in order.Rounds[r])
            {
                var choice = _work[byPart[part]];
                turns.Add(new(choice, Why(byPart[part], choice, turns.Count == 0 ? null : turns[^1].Choice), r + 1));
            }
        return turns.ToImmutable();
    }

    private string Why(int index, Choice choice, Choice? last)
    {
        var buried = _covers.Where(c => c.Cover == choice.PartId).Select(c => _work.First(w => w.PartId == c.Buried).Position).Distinct().ToArray();
        var why = WorkClass.Why(_ranks[index]);
        if (buried.Length > 0) why += $" In plan it lies over {Show.List(buried)}, which {(buried.Length == 1 ? "comes" : "come")} after it: dress the new part aside.";
        return last is not null && choice.Lugs.Intersect(last.Lugs, StringComparer.OrdinalIgnoreCase).Any() ? $"{why} Shares a lug with {last.Position}." : why;
    }

    private static string? Body(Choice choice, int rank) => rank != WorkClass.Held && choice.Group is { } group && choice.Requirement.Polarity is not null ? group : null;

    // Sections of a can can make a circle out of what is none; the pairs found first stand.
    private static ImmutableArray<(int Cover, int Buried)> WithoutCircles(ImmutableArray<(int Cover, int Buried)> pairs)
    {
        var kept = new List<(int Cover, int Buried)>();
        foreach (var pair in pairs)
            if (!Reaches(pair.Buried, pair.Cover)) kept.Add(pair);
        return [.. kept];

        bool Reaches(int from, int to)
        {
            var (seen, queue) = (new HashSet<int> { from }, new Queue<int>([from]));
            while (queue.TryDequeue(out var here))
            {
                if (here == to) return true;
                foreach (var (_, next) in kept.Where(k => k.Cover == here)) if (seen.Add(next)) queue.Enqueue(next);
            }
            return false;
        }
    }

    private string KeyOf() => string.Join('|', _jobs.Select((members, j) => $"{string.Join(',', members.Select(i => _work[i].PartId))}:{_problem.Jobs[j].Class}:{string.Join(',', _problem.Jobs[j].Lugs)}"))
        + $"#{_problem.Open}#{string.Join(',', _problem.LugCost)}#{string.Join(',', _problem.Before)}#{string.Join(',', _problem.Apart)}";
}

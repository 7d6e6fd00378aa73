using System.Collections.Immutable;

namespace Lugbook.Restoration.Fit.Solving;

/// <summary>Something to be done without interruption: one position, or the sections of one can.</summary>
/// <param name="Lugs">Lugs that it heats, by index, each once.</param>
/// <param name="Mounts">Mounts at which it works, by index, each once.</param>
/// <param name="Class">0 is done before 1, and so on.</param>
/// <param name="Size">Positions that are open in it, 1 or more.</param>
public sealed record WorkJob(ImmutableArray<int> Lugs, ImmutableArray<int> Mounts, int Class, int Size = 1);

/// <summary>Jobs, and what their order costs.</summary>
/// <remarks>
/// An answer is a sequence of rounds. What is in one round is open at once: first all of it comes off, then all goes on. A lug that is worked on in
/// consecutive rounds stays in work; each time it is taken up again it is heated once more. Cost = for each lug, its price times the times it is
/// taken up again, plus <see cref="MoveCost"/> for each round that has no mount in common with the one before.
/// </remarks>
public sealed record WorkProblem
{
    /// <summary>The jobs.</summary>
    public required ImmutableArray<WorkJob> Jobs { get; init; }
    /// <summary>What it costs to heat a lug once more, by lug; 0 or more.</summary>
    public required ImmutableArray<long> LugCost { get; init; }
    /// <summary>The second is buried beneath the first: the first is done before it, or in one round with it. Never from a later class to an earlier one.</summary>
    public ImmutableArray<(int Cover, int Buried)> Before { get; init; } = [];
    /// <summary>Never in one round: they look alike, or their leads could be confused.</summary>
    public ImmutableArray<(int A, int B)> Apart { get; init; } = [];
    /// <summary>Positions open at once, 1 or more. A job of more than this is alone in its round.</summary>
    public int Open { get; init; } = 1;
    /// <summary>What it costs to go on at another mount.</summary>
    public long MoveCost { get; init; } = 1;

    /// <summary>Counts an answer.</summary>
    public WorkCost CostOf(IReadOnlyList<ImmutableArray<int>> rounds)
    {
        ArgumentNullException.ThrowIfNull(rounds);
        var last = new Dictionary<int, int>();
        var (again, total, moves) = (0, 0L, 0);
        HashSet<int> before = [];
        for (var r = 0; r < rounds.Count; r++)
        {
            HashSet<int> mounts = [];
            foreach (var job in rounds[r])
            {
                mounts.UnionWith(Jobs[job].Mounts);
                foreach (var lug in Jobs[job].Lugs)
                {
                    if (last.TryGetValue(lug, out var at) && at < r - 1) { again++; total += LugCost[lug]; }
                    last[lug] = r;
                }
            }
            if (r > 0 && !mounts.Overlaps(before)) { moves++; total += MoveCost; }
            before = mounts;
        }
        return new(again, moves, total);
    }

    /// <summary>Why an answer is not allowed, as a sentence; null when it is.</summary>
    public string? FaultOf(IReadOnlyList<ImmutableArray<int>> rounds)
    {
        ArgumentNullException.ThrowIfNull(rounds);
        var at = new int[Jobs.Length];
        Array.Fill(at, -1);
        for (var r = 0; r < rounds.Count; r++)
        {
            if (rounds[r].IsDefaultOrEmpty) return "A round is empty.";
            if (rounds[r].Length > 1 && rounds[r].Sum(j => Jobs[j].Size) > Open) return "Too much is open at once.";
            foreach (var job in rounds[r])
            {
                if (at[job] >= 0) return "A job comes twice.";
                at[job] = r;
                if (r > 0 && Jobs[rounds[r - 1][0]].Class > Jobs[job].Class) return "A class comes too late.";
                if (Jobs[rounds[r][0]].Class != Jobs[job].Class) return "Two classes share a round.";
            }
        }
        if (Array.IndexOf(at, -1) >= 0) return "A job is missing.";
        if (Before.Any(b => at[b.Cover] > at[b.Buried])) return "A buried part comes before what covers it.";
        return Apart.Any(a => at[a.A] == at[a.B]) ? "Parts that could be confused are open at once." : null;
    }

    /// <summary>What it costs to take up every lug anew for each job, before neighbours share.</summary>
    internal long FixedCost() => LugCost.Select((c, lug) => c * Math.Max(0, Jobs.Count(j => j.Lugs.Contains(lug)) - 1)).Sum();

    /// <summary>What no order can avoid: a lug with work in two classes and none in a class between them is taken up again.</summary>
    internal long LeastCost()
    {
        var classes = Jobs.Select(j => j.Class).Distinct().Order().Select((c, i) => (c, i)).ToDictionary(x => x.c, x => x.i);
        var sum = 0L;
        for (var lug = 0; lug < LugCost.Length; lug++)
        {
            var at = Jobs.Where(j => j.Lugs.Contains(lug)).Select(j => classes[j.Class]).Distinct().Order().ToArray();
            for (var k = 1; k < at.Length; k++)
                if (at[k] > at[k - 1] + 1) sum += LugCost[lug];
        }
        return sum;
    }
}

/// <summary>An order, counted.</summary>
/// <param name="Reheats">Times that a lug is taken up again.</param>
/// <param name="Moves">Times that the work goes on at another mount.</param>
/// <param name="Total">Their price.</param>
public sealed record WorkCost(int Reheats, int Moves, long Total);

using System.Collections.Immutable;
using Lugbook.Restoration.Fit.Solving;

namespace Lugbook.Restoration.Tests.Fit.Solving;

/// <summary>Work thrown together: jobs on lugs of mounts, some urgent, some buried, some alike.</summary>
internal static class ThrownWork
{
    public static WorkProblem Of(int seed, int jobs, int lugs, int perMount, int classes, int open)
    {
        var random = new Random(seed);
        var made = Enumerable.Range(0, jobs).Select(_ =>
        {
            ImmutableArray<int> on = [.. new[] { random.Next(lugs), random.Next(lugs) }.Distinct().Order()];
            return new WorkJob(on, [.. on.Select(l => l / perMount).Distinct()], random.Next(classes), random.Next(6) == 0 ? 2 : 1);
        }).ToImmutableArray();
        // From the lower number to the higher, so never in a circle; never against the classes.
        var before = Enumerable.Range(0, jobs / 2).Select(_ => (A: random.Next(jobs), B: random.Next(jobs))).Where(p => p.A < p.B && made[p.A].Class <= made[p.B].Class).Distinct().Take(jobs / 4);
        var apart = Enumerable.Range(0, jobs / 2).Select(_ => (A: random.Next(jobs), B: random.Next(jobs))).Where(p => p.A < p.B).Distinct();
        return new() { Jobs = made, LugCost = [.. Enumerable.Range(0, lugs).Select(_ => random.Next(3) == 0 ? 15L : 10L)], Before = [.. before], Apart = [.. apart], Open = open };
    }
}

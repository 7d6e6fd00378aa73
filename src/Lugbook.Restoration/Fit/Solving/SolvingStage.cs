using System.Diagnostics;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Fit.Solving;

/// <summary>The order of the work that heats no lug needlessly, with its proof or the gap that is left. The formula is in docs/fit.md.</summary>
public static class SolvingStage
{
    // Above this the rounds of several open positions are improved, not proven.
    private const int ProvenRounds = 14;

    /// <summary>A good order at once, the same on every run, with a bound that holds for all orders.</summary>
    /// <exception cref="ArgumentException">What covers lies in a later class than what it covers, or in a circle.</exception>
    public static WorkSolution First(WorkProblem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var clock = Stopwatch.StartNew();
        var rounds = FirstOrder.Of(problem);
        var cost = problem.CostOf(rounds);
        var bound = problem.LeastCost();
        return new(rounds, cost, bound, cost.Total == bound ? SolveEnd.Proven : SolveEnd.TimeUp, clock.Elapsed);
    }

    /// <summary>Solves. The answer's cost is counted exactly, whatever the solver said; a proven answer costs the same on every run.</summary>
    /// <param name="problem">The jobs.</param>
    /// <param name="limit">Time after which the best order so far is given, with its gap.</param>
    /// <param name="progress">Hears of better orders and bounds, on other threads.</param>
    /// <param name="stop">Ends early with the best order so far.</param>
    /// <exception cref="ArgumentException">What covers lies in a later class than what it covers, or in a circle.</exception>
    public static WorkSolution Run(WorkProblem problem, TimeSpan limit, IProgress<SolveProgress>? progress = null, CancellationToken stop = default)
    {
        var clock = Stopwatch.StartNew();
        var first = First(problem);
        if (first.End == SolveEnd.Proven || stop.IsCancellationRequested) return first with { End = first.End == SolveEnd.Proven ? first.End : SolveEnd.Stopped };
        var search = new Search(limit, progress, clock, stop);
        var exact = problem.Open == 1 || problem.Jobs.Length <= ProvenRounds;
        var (found, bound, end) = problem.Open == 1 ? SequenceModel.Solve(problem, first.Rounds, search) : RoundsModel.Solve(problem, first.Rounds, exact ? problem.Jobs.Length : first.Rounds.Length + 1, search);
        // Of equals the one that comes out the same on every run.
        var rounds = problem.FaultOf(found) is null && problem.CostOf(found).Total < first.Cost.Total ? found : first.Rounds;
        var cost = problem.CostOf(rounds);
        var least = Math.Max(first.Bound, exact ? bound : 0);
        var proven = cost.Total <= least;
        return new(rounds, cost, proven ? cost.Total : Math.Min(least, cost.Total), proven ? SolveEnd.Proven : end == SolveEnd.Proven ? SolveEnd.TimeUp : end, clock.Elapsed);
    }
}

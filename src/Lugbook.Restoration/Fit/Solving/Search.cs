using System.Diagnostics;
using Google.OrTools.Sat;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Fit.Solving;

/// <summary>One search of a model: time limit, progress, stop.</summary>
internal sealed class Search(TimeSpan limit, IProgress<SolveProgress>? progress, Stopwatch clock, CancellationToken stop)
{
    /// <summary>Solves; null when no order was found in time. The bound is the least whole number that any order costs.</summary>
    public (CpSolver? Solver, long Bound, SolveEnd End) Run(CpModel model, bool small)
    {
        var solver = new CpSolver();
        var seconds = Math.Max(0.05, (limit - clock.Elapsed).TotalSeconds);
        // Eight workers whatever the machine: fewer leave out the strategies that move the bound.
        solver.StringParameters = FormattableString.Invariant($"max_time_in_seconds:{seconds} num_workers:{(small ? 1 : 8)} relative_gap_limit:0 absolute_gap_limit:0.99");
        // Asked again and again: a stop that comes before the search has begun is not heard.
        using var ended = new CancellationTokenSource();
        using var registration = stop.Register(() => _ = StopAsync(solver, ended.Token));
        var heard = new Heard(progress, clock);
        if (progress is not null) solver.SetBestBoundCallback(heard.BoundIs);
        var status = progress is null ? solver.Solve(model) : solver.Solve(model, heard);
        ended.Cancel();
        var early = stop.IsCancellationRequested ? SolveEnd.Stopped : SolveEnd.TimeUp;
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? (solver, (long)Math.Ceiling(solver.BestObjectiveBound - 1e-6), status == CpSolverStatus.Optimal ? SolveEnd.Proven : early)
            : (null, 0, early);
    }

    private static async Task StopAsync(CpSolver solver, CancellationToken ended)
    {
        for (; !ended.IsCancellationRequested; await Task.Delay(20, CancellationToken.None)) solver.StopSearch();
    }

    /// <summary>Passes on what the solver tells while it works.</summary>
    private sealed class Heard(IProgress<SolveProgress>? progress, Stopwatch clock) : CpSolverSolutionCallback
    {
        private readonly Lock _lock = new();
        private long? _best, _bound;

        public override void OnSolutionCallback() => Tell((long)Math.Round(ObjectiveValue()), (long)Math.Ceiling(BestObjectiveBound() - 1e-6));

        public void BoundIs(double bound) => Tell(null, (long)Math.Ceiling(bound - 1e-6));

        private void Tell(long? best, long bound)
        {
            SolveProgress now;
            lock (_lock)
            {
                (_best, _bound) = (best ?? _best, Math.Max(_bound ?? long.MinValue, bound));
                now = new(_best, _bound, clock.Elapsed);
            }
            progress?.Report(now);
        }
    }
}

using System.Diagnostics;
using Google.OrTools.Sat;

namespace Lugbook.Restoration.Order.Solving;

/// <summary>The problem in whole numbers for the solver. The only place that knows the solver.</summary>
internal sealed class ConstraintModel
{
    private readonly CpModel _model = new();
    private readonly Reduction _reduced;
    private readonly IntVar[][] _take;      // kind, way: how many of the kind's demands go this way
    private readonly BoolVar?[] _used;      // item
    private readonly LinearExprBuilder[] _need;
    private readonly long[] _most;          // item: pieces that all demands together could need
    private readonly LinearExprBuilder _total = LinearExpr.NewBuilder();

    private ConstraintModel(Reduction reduced)
    {
        _reduced = reduced;
        var problem = reduced.Problem;
        _need = [.. problem.Items.Select(_ => LinearExpr.NewBuilder())];
        _used = new BoolVar?[problem.Items.Length];
        _most = new long[problem.Items.Length];
        foreach (var kind in reduced.Kinds)
            foreach (var (item, most) in problem.Demands[kind[0]].Ways.SelectMany(w => w.Items).GroupBy(i => i.Item).Select(g => (g.Key, g.Max(i => i.Count)))) _most[item] += (long)most * kind.Length;
        _take = [.. reduced.Kinds.Select(k => problem.Demands[k[0]].Ways.Select((w, at) => _model.NewIntVar(0, k.Length, "")).ToArray())];
        Demands();
        var goods = Items();
        Shops(goods);
        _model.Minimize(_total);
    }

    /// <summary>Way of each demand, the bound, and how it ended.</summary>
    public static (int[] WayOf, long Bound, SolveEnd End) Solve(Reduction reduced, int[] start, TimeSpan limit, IProgress<SolveProgress>? progress, Stopwatch clock, CancellationToken stop)
    {
        if (reduced.Kinds.IsEmpty) return (start, 0, SolveEnd.Proven);
        var model = new ConstraintModel(reduced);
        model.Hint(start);
        var solver = new CpSolver();
        // Eight workers whatever the machine: fewer leave out the strategies that move the bound (measured). A small problem needs one.
        var workers = reduced.Kinds.Sum(k => reduced.Problem.Demands[k[0]].Ways.Length) <= 40 ? 1 : 8;
        var seconds = Math.Max(0.05, (limit - clock.Elapsed).TotalSeconds);
        solver.StringParameters = FormattableString.Invariant($"max_time_in_seconds:{seconds} num_workers:{workers} relative_gap_limit:0 absolute_gap_limit:0.99");
        // Asked again and again: a stop that comes before the search has begun is not heard.
        using var ended = new CancellationTokenSource();
        using var registration = stop.Register(() => _ = StopAsync(solver, ended.Token));
        var heard = new Heard(progress, clock);
        if (progress is not null) solver.SetBestBoundCallback(heard.BoundIs);
        var status = progress is null ? solver.Solve(model._model) : solver.Solve(model._model, heard);
        ended.Cancel();
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible)) return (start, 0, stop.IsCancellationRequested ? SolveEnd.Stopped : SolveEnd.TimeUp);
        var wayOf = model.WayOf(solver);
        var bound = Math.Max(0, (long)Math.Ceiling(solver.BestObjectiveBound - 1e-6) - wayOf.Count(w => w < 0) * model.Dearest);
        return (wayOf, bound, status == CpSolverStatus.Optimal ? SolveEnd.Proven : stop.IsCancellationRequested ? SolveEnd.Stopped : SolveEnd.TimeUp);
    }

    private static async Task StopAsync(CpSolver solver, CancellationToken ended)
    {
        for (; !ended.IsCancellationRequested; await Task.Delay(20, CancellationToken.None)) solver.StopSearch();
    }

    private void Demands()
    {
        var problem = _reduced.Problem;
        for (var k = 0; k < _take.Length; k++)
        {
            var (ways, size) = (problem.Demands[_reduced.Kinds[k][0]].Ways, _reduced.Kinds[k].Length);
            var served = LinearExpr.NewBuilder();
            for (var w = 0; w < ways.Length; w++)
            {
                served.Add(_take[k][w]);
                foreach (var (item, count) in ways[w].Items)
                {
                    _need[item].AddTerm(_take[k][w], count);
                    // One link for each way holds the relaxation tighter than one for each item.
                    _model.Add(_take[k][w] <= size * (_used[item] ??= _model.NewBoolVar("")));
                }
            }
            // Only where every way may run out can something stay open; that costs more than any plan.
            if (ways.All(w => w.Items.Any(i => problem.Items[i.Item].Stock is not null)))
            {
                var open = _model.NewIntVar(0, size, "");
                served.Add(open);
                _total.AddTerm(open, Dearest);
            }
            _model.Add(served == size);
        }
    }

    private LinearExprBuilder[] Items()
    {
        var problem = _reduced.Problem;
        var goods = problem.Shops.Select(_ => LinearExpr.NewBuilder()).ToArray();
        for (var i = 0; i < problem.Items.Length; i++)
        {
            var item = problem.Items[i];
            if (_used[i] is not { } used) continue;
            if (item.Shop is not { } shop)
            {
                if (item.Stock is { } there) _model.Add(_need[i] <= there);
                continue;
            }
            var (bought, steps) = (LinearExpr.NewBuilder(), new List<BoolVar>());
            for (var s = 0; s < item.Prices.Length; s++)
            {
                // At this step no more is bought than the need asks for, rounded up to what is sold.
                var least = item.RoundUp(Math.Max(item.Prices[s].From, item.Minimum));
                var most = Math.Max(least, item.RoundUp((int)Math.Min(int.MaxValue / 2, _most[i] + item.Spares)));
                if (s + 1 < item.Prices.Length) most = Math.Min(most, (item.Prices[s + 1].From - 1) / item.Pack * item.Pack);
                if (item.Stock is { } there) most = Math.Min(most, there / item.Pack * item.Pack);
                if (least > most) continue;
                var (step, packs) = (_model.NewBoolVar(""), _model.NewIntVar(0, most / item.Pack, ""));
                _model.Add(packs >= least / item.Pack * step);
                _model.Add(packs <= most / item.Pack * step);
                steps.Add(step);
                bought.AddTerm(packs, item.Pack);
                goods[shop].AddTerm(packs, item.Pack * item.Prices[s].Price);
            }
            _model.Add(LinearExpr.Sum(steps) == used);
            bought.AddTerm(used, -item.Spares);
            _model.Add(bought >= _need[i]);
            _total.AddTerm(used, problem.LinePrice);
        }
        return goods;
    }

    private void Shops(LinearExprBuilder[] goods)
    {
        var problem = _reduced.Problem;
        for (var s = 0; s < problem.Shops.Length; s++)
        {
            var terms = problem.Shops[s];
            var lines = Enumerable.Range(0, problem.Items.Length).Where(i => problem.Items[i].Shop == s && _used[i] is not null).Select(i => _used[i]!).ToArray();
            if (lines.Length == 0) continue;
            var used = _model.NewBoolVar("");
            foreach (var line in lines) _model.AddImplication(line, used);
            var paid = _model.NewIntVar(0, Dearest, "");
            _model.Add(paid >= goods[s]);
            if (terms.MinimumOrder > 0) _model.Add(paid >= terms.MinimumOrder * used);
            _total.Add(paid);
            if (terms.Postage == 0) continue;
            if (terms.FreeFrom is not { } free) _total.AddTerm(used, terms.Postage);
            else
            {
                var posted = _model.NewBoolVar("");
                _model.Add(LinearExpr.NewBuilder().Add(paid).AddTerm(posted, free).AddTerm(used, -free) >= 0);
                _total.AddTerm(posted, terms.Postage);
            }
        }
    }

    // Above every sensible plan: all demands at their dearest way, with all postage and every least order.
    private long Dearest => _dearest ??= DearestOf(_reduced.Problem);
    private long? _dearest;

    private static long DearestOf(OrderProblem problem)
    {
        var sum = problem.Shops.Sum(s => s.Postage + s.MinimumOrder + (s.FreeFrom is { } free ? Math.Min(free, s.Postage) : 0)) + 1;
        foreach (var demand in problem.Demands)
            sum += demand.Ways.Select(w => w.Items.Sum(i => problem.LinePrice + (problem.Items[i.Item].Shop is null ? 0 : (long)problem.Items[i.Item].RoundUp(Math.Max(i.Count + problem.Items[i.Item].Spares, problem.Items[i.Item].Minimum)) * problem.Items[i.Item].Prices[0].Price))).DefaultIfEmpty(0).Max();
        return sum;
    }

    private void Hint(int[] start)
    {
        for (var k = 0; k < _take.Length; k++)
            for (var w = 0; w < _take[k].Length; w++) _model.AddHint(_take[k][w], _reduced.Kinds[k].Count(d => start[d] == w));
    }

    private int[] WayOf(CpSolver solver)
    {
        var wayOf = new int[_reduced.Problem.Demands.Length];
        Array.Fill(wayOf, -1);
        for (var k = 0; k < _take.Length; k++)
        {
            var at = 0;
            for (var w = 0; w < _take[k].Length; w++)
                for (var n = solver.Value(_take[k][w]); n > 0; n--) wayOf[_reduced.Kinds[k][at++]] = w;
        }
        return wayOf;
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

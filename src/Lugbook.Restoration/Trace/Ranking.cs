using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>Bayes' rule over all faults and their sizes.</summary>
internal sealed class Ranking
{
    // Faults within this of the best are looked at exactly; common practice, no source.
    private const double KeptLog = 12;
    private const int LeastKept = 16, MostKept = 70;
    private const double SizeKeptLog = 9;
    // What is not modelled may be off by so much of the volts, or by such a ratio.
    private const double StrangeShare = 0.35, StrangeVolts = 1.5, StrangeRatio = 1.2;

    private readonly TraceModel _model;
    private readonly Predictor _predictor;
    private readonly Observation[] _read;

    public Ranking(TraceModel model, Predictor predictor, IReadOnlyList<Observation> observations)
    {
        (_model, _predictor, _read) = (model, predictor, [.. observations]);
        LogLikelihood = new double[model.Variants.Length];
        Array.Fill(LogLikelihood, double.NegativeInfinity);
        Odd = new double[_read.Length];
        Rank();
    }

    /// <summary>Logarithm of each variant's likelihood.</summary>
    public double[] LogLikelihood { get; }
    /// <summary>Probability of each fault.</summary>
    public double[] Probability { get; private set; } = [];
    /// <summary>The most probable size of each fault, a variant's number.</summary>
    public int[] Best { get; private set; } = [];
    /// <summary>Faults looked at exactly, most probable first.</summary>
    public int[] Kept { get; private set; } = [];
    /// <summary>Of each reading, how probable it is that it is mistyped, under the best fault.</summary>
    public double[] Odd { get; }
    /// <summary>The readings.</summary>
    public IReadOnlyList<Observation> Read => _read;

    private void Rank()
    {
        Parallel.For(0, _model.Variants.Length, v => LogLikelihood[v] = Score(_model.Variants[v], exact: false, []));
        Sum();
        var order = Order();
        var best = order.Length == 0 ? 0 : Math.Log(Probability[order[0]]);
        Kept = [.. order.Where((f, i) => i < LeastKept || i < MostKept && Math.Log(Probability[f]) > best - KeptLog)];
        var variants = Kept.SelectMany(f => _model.VariantsOf(f).Where(v => LogLikelihood[v] > LogLikelihood[Best[f]] - SizeKeptLog)).ToArray();
        if (_read.Length > 0) Parallel.ForEach(variants, v => LogLikelihood[v] = Score(_model.Variants[v], exact: true, []));
        Sum();
        Kept = [.. Kept.OrderByDescending(f => Probability[f])];
        if (Kept.Length > 0 && _read.Length > 0) Score(_model.Variants[Best[Kept[0]]], exact: true, Odd);
    }

    private int[] Order() => [.. Enumerable.Range(0, Probability.Length).Where(f => Probability[f] > 0).OrderByDescending(f => Probability[f])];

    private void Sum()
    {
        var logs = new double[_model.Faults.Length];
        Array.Fill(logs, double.NegativeInfinity);
        Best = new int[_model.Faults.Length];
        foreach (var v in _model.Variants)
        {
            var log = LogLikelihood[v.Number] + Math.Log(v.Size.Share);
            if (double.IsNegativeInfinity(logs[v.Fault]) || log > LogLikelihood[Best[v.Fault]] + Math.Log(_model.Variants[Best[v.Fault]].Size.Share)) Best[v.Fault] = v.Number;
            logs[v.Fault] = Add(logs[v.Fault], log);
        }
        var total = double.NegativeInfinity;
        for (var f = 0; f < logs.Length; f++) total = Add(total, logs[f] += _model.LogPrior[f]);
        Probability = [.. logs.Select(l => Math.Exp(l - total))];
    }

    private static double Add(double a, double b) => a > b ? a + Math.Log(1 + Math.Exp(b - a)) : double.IsNegativeInfinity(b) ? a : b + Math.Log(1 + Math.Exp(a - b));

    private double Score(Variant variant, bool exact, Span<double> odd)
    {
        var n = _read.Length;
        if (n == 0) return 0;
        var made = new Prediction[n];
        for (var i = 0; i < n; i++)
        {
            if ((exact ? _predictor.Exact(variant, _read[i].Place, _read[i].Meter) : _predictor.Quick(variant, _read[i].Place, _read[i].Meter)) is not { } p) return double.NegativeInfinity;
            made[i] = p;
        }
        double log = 0;
        int[] plain = [.. Enumerable.Range(0, n).Where(i => !_read[i].IsOver)];
        foreach (var i in Enumerable.Range(0, n).Where(i => _read[i].IsOver)) log += Likelihood.Over(made[i].Mean, Math.Sqrt(made[i].Variance), _read[i].Scaled);
        var strange = _model.Faults[variant.Fault].Kind == FaultKind.NotModelled;
        var covariance = new double[plain.Length, plain.Length];
        var residual = new double[plain.Length];
        var wide = new double[plain.Length];
        for (var i = 0; i < plain.Length; i++)
        {
            var (p, o) = (made[plain[i]], _read[plain[i]]);
            residual[i] = o.Scaled - p.Mean;
            wide[i] = Wide(o);
            for (var j = 0; j <= i; j++) covariance[i, j] = p.With(made[plain[j]]);
            covariance[i, i] += p.Apart * p.Apart;
            if (!strange) continue;
            var more = o.Place.Kind == ReadingKind.Volts ? StrangeShare * Math.Abs(p.Mean) + StrangeVolts : StrangeRatio;
            covariance[i, i] += more * more;
        }
        var odds = new double[odd.Length > 0 ? plain.Length : 0];
        log += Likelihood.Of(residual, covariance, wide, odds);
        for (var i = 0; i < odds.Length; i++) odd[plain[i]] = odds[i];
        return double.IsNaN(log) ? double.NegativeInfinity : log;
    }

    // Density of a number that has nothing to do with the set: even over the meter's volts up to twice what the set has, or over nine decades.
    private double Wide(Observation o) => o.Place.Kind == ReadingKind.Volts ? -Math.Log(4 * Math.Max(50, _most ??= _model.Variants[0].Volts!.Max(Math.Abs))) : -Math.Log(20);
    private double? _most;
}

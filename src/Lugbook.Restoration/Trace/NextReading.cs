using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>Which reading tells most for its effort: expected information over all outcomes, given what is read already.</summary>
/// <remarks>
/// Lindley, Annals of Mathematical Statistics 27 (1956): I = Σ p_f ∫ p(y|f) ln[p(y|f)/p(y)] dy, the integral by five points of Gauss and Hermite (Abramowitz and Stegun, table 25.10). Only what tells faults
/// apart counts, not what tells the sizes of one fault.
/// </remarks>
internal sealed class NextReading
{
    private static readonly double[] Points = [-2.0201828704560856, -0.9585724646138185, 0, 0.9585724646138185, 2.0201828704560856];
    private static readonly double[] Weights = [0.0199532420590459, 0.3936193231522412, 0.9453087204829419, 0.3936193231522412, 0.0199532420590459];
    private const double LeastProbability = 1e-3;
    private const int MostComponents = 48, MostCandidates = 40;

    private readonly TraceModel _model;
    private readonly Predictor _predictor;
    private readonly Ranking _ranking;
    private readonly List<Component> _components = [];

    private sealed record Component(Variant Variant, double Weight, double[] Alpha, double[,] Lower, Prediction[] Read);

    public NextReading(TraceModel model, Predictor predictor, Ranking ranking)
    {
        (_model, _predictor, _ranking) = (model, predictor, ranking);
        foreach (var f in ranking.Kept.Where(f => ranking.Probability[f] >= LeastProbability && model.Faults[f].Kind != FaultKind.NotModelled))
        {
            var sizes = model.VariantsOf(f).Where(v => ranking.LogLikelihood[v] > ranking.LogLikelihood[ranking.Best[f]] - 3).ToArray();
            var logs = sizes.Select(v => Math.Exp(ranking.LogLikelihood[v] - ranking.LogLikelihood[ranking.Best[f]]) * model.Variants[v].Size.Share).ToArray();
            var sum = logs.Sum();
            for (var i = 0; i < sizes.Length && _components.Count < MostComponents; i++)
                if (Conditioned(model.Variants[sizes[i]], ranking.Probability[f] * logs[i] / sum) is { } component) _components.Add(component);
        }
        var total = _components.Sum(c => c.Weight);
        for (var i = 0; i < _components.Count; i++) _components[i] = _components[i] with { Weight = _components[i].Weight / total };
    }

    /// <summary>Candidates with the information they bring, nats, best for their cost first.</summary>
    public List<(Candidate Candidate, double Nats)> Ranked(List<Candidate> candidates)
    {
        if (_components.Count < 2) return [];
        var taken = _ranking.Read.Select(o => (o.Place.Kind, o.Place.From.ToUpperInvariant(), o.Place.To.ToUpperInvariant())).ToHashSet();
        var open = candidates.Where(c => !taken.Contains((c.Place.Kind, c.Place.From.ToUpperInvariant(), c.Place.To.ToUpperInvariant()))).ToArray();
        var rough = new double[open.Length];
        Parallel.For(0, open.Length, i => rough[i] = Rough(open[i]) / open[i].Cost);
        var chosen = Enumerable.Range(0, open.Length).OrderByDescending(i => rough[i]).Take(MostCandidates).ToArray();
        var nats = new double[chosen.Length];
        Parallel.For(0, chosen.Length, i => nats[i] = Information(open[chosen[i]]));
        return [.. chosen.Select((c, i) => (open[c], nats[i])).OrderByDescending(x => x.Item2 / x.Item1.Cost)];
    }

    /// <summary>What is already read, under one variant: what a further reading is corrected by.</summary>
    private Component? Conditioned(Variant variant, double weight)
    {
        var read = _ranking.Read.Where((o, i) => !o.IsOver && _ranking.Odd[i] < 0.5).ToArray();
        var made = read.Select(o => _predictor.Exact(variant, o.Place, o.Meter)).ToArray();
        if (made.Any(m => m is null)) return null;
        var n = read.Length;
        var lower = new double[n, n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++) lower[i, j] = made[i]!.With(made[j]!) + (i == j ? made[i]!.Apart * made[i]!.Apart : 0);
        }
        for (var j = 0; j < n; j++)
            for (var i = j; i < n; i++)
            {
                var sum = lower[i, j];
                for (var k = 0; k < j; k++) sum -= lower[i, k] * lower[j, k];
                lower[i, j] = i == j ? Math.Sqrt(Math.Max(sum, 1e-18)) : sum / lower[j, j];
            }
        var alpha = new double[n];
        for (var i = 0; i < n; i++)
        {
            var r = read[i].Scaled - made[i]!.Mean;
            for (var k = 0; k < i; k++) r -= lower[i, k] * alpha[k];
            alpha[i] = r / lower[i, i];
        }
        return new(variant, weight, alpha, lower, made!);
    }

    /// <summary>Spread of the means between faults, in units of the meter's and the laws' error.</summary>
    private double Rough(Candidate c)
    {
        double sum = 0, squares = 0, apart = 0, weight = 0;
        foreach (var k in _components)
        {
            var mean = Mean(k.Variant, c);
            if (mean is not { } m) continue;
            var noise = Observation.NoiseOf(c.Place, c.Meter, Observation.Unscaled(c.Place.Kind, m)) + (c.Place.Kind == ReadingKind.Volts ? 0.03 * Math.Abs(m) + 0.05 : 0.05);
            weight += k.Weight;
            sum += k.Weight * m;
            squares += k.Weight * m * m;
            apart += k.Weight * noise * noise;
        }
        return weight > 0 ? 0.5 * Math.Log(1 + Math.Max(0, squares / weight - Math.Pow(sum / weight, 2)) / Math.Max(apart / weight, 1e-12)) : 0;
    }

    private double? Mean(Variant v, Candidate c)
    {
        if (c.Place.Kind == ReadingKind.Volts) return v.Volts is { } volts ? volts[_model.HotNode(v, c.Place.From)] - volts[_model.HotNode(v, c.Place.To)] : null;
        return Observation.ScaledOf(c.Place.Kind, Math.Min(_model.Cold.Value(v, c.Place, c.Meter), Math.Max(c.Meter.TopOf(c.Place.Kind), 1e-12) * 2));
    }

    private double Information(Candidate c)
    {
        var (means, deviations) = (new double[_components.Count], new double[_components.Count]);
        var top = c.Place.Kind == ReadingKind.Volts ? double.PositiveInfinity : Observation.ScaledOf(c.Place.Kind, c.Meter.TopOf(c.Place.Kind) * 2);
        var room = new double[_ranking.Read.Count];
        for (var i = 0; i < means.Length; i++)
        {
            var k = _components[i];
            if (_predictor.Fair(k.Variant, c) is not { } p) return 0;
            var n = k.Read.Length;
            var v = room.AsSpan(0, n);
            var (mean, variance) = (p.Mean, p.Variance);
            for (var a = 0; a < n; a++)
            {
                var x = p.With(k.Read[a]);
                for (var b = 0; b < a; b++) x -= k.Lower[a, b] * v[b];
                v[a] = x / k.Lower[a, a];
                mean += v[a] * k.Alpha[a];
                variance -= v[a] * v[a];
            }
            // All that is over the meter's top looks alike.
            means[i] = Math.Min(mean, top);
            deviations[i] = Math.Sqrt(Math.Max(variance, p.Apart * p.Apart));
        }
        double nats = 0;
        for (var i = 0; i < means.Length; i++)
        {
            double expected = 0;
            for (var q = 0; q < Points.Length; q++)
            {
                var y = means[i] + Math.Sqrt(2) * deviations[i] * Points[q];
                double all = 0, own = 0, share = 0;
                for (var j = 0; j < means.Length; j++)
                {
                    var z = (y - means[j]) / deviations[j];
                    var density = _components[j].Weight * Math.Exp(-0.5 * z * z) / deviations[j];
                    all += density;
                    if (_components[j].Variant.Fault != _components[i].Variant.Fault) continue;
                    own += density;
                    share += _components[j].Weight;
                }
                expected += Weights[q] / Math.Sqrt(Math.PI) * Math.Log(Math.Max(own / share, 1e-300) / Math.Max(all, 1e-300));
            }
            nats += _components[i].Weight * expected;
        }
        return Math.Max(0, nats);
    }
}

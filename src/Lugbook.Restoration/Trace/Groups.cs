using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>Which faults no reading at the bench divides.</summary>
internal static class Groups
{
    // Two faults whose readings are nowhere farther apart than this many standard deviations are one for the meter.
    private const double Apart = 2.0;
    private const double LeastProbability = 2e-3;

    /// <summary>Group number of each kept fault; the first fault of a group names it.</summary>
    public static Dictionary<int, int> Of(TraceModel model, Predictor predictor, Ranking ranking, List<Candidate> candidates)
    {
        int[] faults = [.. ranking.Kept.Where(f => ranking.Probability[f] >= LeastProbability && model.Faults[f].Kind is not (FaultKind.Healthy or FaultKind.NotModelled))];
        var group = new Dictionary<int, int>();
        var heads = new List<int>();
        foreach (var f in faults)
        {
            var head = heads.FirstOrDefault(h => !Divided(model, predictor, model.Variants[ranking.Best[h]], model.Variants[ranking.Best[f]], candidates), -1);
            if (head < 0) heads.Add(head = f);
            group[f] = head;
        }
        return group;
    }

    /// <summary>Is there a reading that tells the two apart?</summary>
    private static bool Divided(TraceModel model, Predictor predictor, Variant a, Variant b, List<Candidate> candidates)
    {
        foreach (var c in candidates)
        {
            if (Far(model, c, a, b) && predictor.Fair(a, c) is { } p && predictor.Fair(b, c) is { } q && Distance(p, q, c) > Apart) return true;
        }
        return false;
    }

    // A glance at the means before the rows are worked out.
    private static bool Far(TraceModel model, Candidate c, Variant a, Variant b)
    {
        if (c.Place.Kind == ReadingKind.Volts)
        {
            if (a.Volts is null || b.Volts is null) return false;
            var (v, w) = (a.Volts[model.HotNode(a, c.Place.From)] - a.Volts[model.HotNode(a, c.Place.To)], b.Volts[model.HotNode(b, c.Place.From)] - b.Volts[model.HotNode(b, c.Place.To)]);
            return Math.Abs(v - w) > 0.02 * Math.Max(Math.Abs(v), Math.Abs(w)) + 0.03;
        }
        double Value(Variant v) => Math.Min(model.Cold.Value(v, c.Place, c.Meter), 2 * c.Meter.TopOf(c.Place.Kind));
        return Math.Abs(Observation.ScaledOf(c.Place.Kind, Value(a)) - Observation.ScaledOf(c.Place.Kind, Value(b))) > 0.02;
    }

    // The same set has one fault or the other: what spreads both alike does not blur the difference.
    private static double Distance(Prediction p, Prediction q, Candidate c)
    {
        double common = 0;
        for (var k = 0; k < p.Row.Length; k++) common += (p.Row[k] - q.Row[k]) * (p.Row[k] - q.Row[k]);
        var top = c.Place.Kind == ReadingKind.Volts ? double.PositiveInfinity : Observation.ScaledOf(c.Place.Kind, 2 * c.Meter.TopOf(c.Place.Kind));
        return Math.Abs(Math.Min(p.Mean, top) - Math.Min(q.Mean, top)) / Math.Sqrt(common + 0.5 * (p.Apart * p.Apart + q.Apart * q.Apart));
    }
}

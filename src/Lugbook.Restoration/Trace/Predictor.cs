using System.Collections.Concurrent;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>Predicts readings under each fault: at once from the healthy set's sensitivities, or exactly, with the meter across and the sensitivities of the set that has the fault.</summary>
internal sealed class Predictor(TraceModel model)
{
    // What valve laws and averaged rectifiers leave open, as shares of the volts and of what the fault moves (common practice, no source: the league's report says how calibrated that comes out).
    private const double LawShare = 0.015, MovedShare = 0.05, QuickMovedShare = 0.2, LawVolts = 0.03;
    private const double ColdShare = 0.01, FaradsShare = 0.06;

    private readonly ConcurrentDictionary<(int, ProbePlace, string), Prediction?> _exact = new();
    private readonly ConcurrentDictionary<(int Node, double Ohms), double> _loads = new();
    private readonly Lazy<double[][]> _healthy = new(() => HealthyRows(model));

    /// <summary>Rows of the healthy set for every node.</summary>
    private static double[][] HealthyRows(TraceModel model)
    {
        var nodes = Enumerable.Range(0, model.Direct.NodeCount).ToArray();
        var rows = nodes.Select(_ => new double[model.Spreads.Count + 1]).ToArray();
        Fill(model, Sensitivity.Of(model.Direct, nodes), rows);
        return rows;
    }

    private static void Fill(TraceModel model, IEnumerable<NodeSensitivity> sensitivities, double[][] rows)
    {
        foreach (var s in sensitivities)
            if (model.Spreads.Hot(s.Element, s.Parameter) is { } at)
                for (var n = 0; n < rows.Length; n++) rows[n][at.Index] += s.VoltsPerLog[n] * at.Sigma;
    }

    /// <summary>At next to no cost: the healthy set's rows, grown as the volts have.</summary>
    public Prediction? Quick(Variant variant, ProbePlace place, Meter meter)
    {
        if (place.Kind != ReadingKind.Volts) return Exact(variant, place, meter);
        if (variant.Volts is not { } volts) return null;
        var (home, node) = (model.HotNode(model.Variants[0], place.From), model.HotNode(variant, place.From));
        var (healthy, there) = (model.Variants[0].Volts![home], volts[node]);
        var load = Load(home, healthy, meter);
        var grown = Math.Abs(healthy) > 0.1 ? Math.Clamp(Math.Abs(there / healthy), 0.05, 3) : 1;
        var rows = _healthy.Value[home];
        var row = new double[rows.Length];
        for (var k = 0; k < row.Length; k++) row[k] = rows[k] * grown * load;
        row[^1] = SizeRow(variant, v => v.Volts is { } other ? other[node] * load : there * load);
        return new(there * load, row, Apart(place, meter, there * load, (there - healthy) * load, QuickMovedShare));
    }

    /// <summary>Exactly; null where the set with the fault does not settle.</summary>
    public Prediction? Exact(Variant variant, ProbePlace place, Meter meter) => _exact.GetOrAdd((variant.Number, place, meter.Name), _ => place.Kind == ReadingKind.Volts ? Running(variant, place, meter) : Unplugged(variant, place, meter));

    private Prediction? Running(Variant variant, ProbePlace place, Meter meter)
    {
        if (variant.Volts is not { } volts) return null;
        var node = model.HotNode(variant, place.From);
        var network = model.NetworkOf(variant);
        var metered = double.IsFinite(meter.LoadOhms(volts[node])) && node != network.Reference ? network.Adding(new Resistor("the meter", node, network.Reference, meter.LoadOhms(volts[node]))) : network;
        try
        {
            var (loaded, rows) = Sensitivity.At(metered, [node]);
            var row = new double[model.Spreads.Count + 1];
            Fill(model, rows, [row]);
            var load = Math.Abs(volts[node]) > 1e-6 ? loaded[node] / volts[node] : 1;
            row[^1] = SizeRow(variant, v => v.Volts is { } other ? other[node] * load : loaded[node]);
            return new(loaded[node], row, Apart(place, meter, loaded[node], loaded[node] - model.Variants[0].Volts![model.HotNode(model.Variants[0], place.From)], MovedShare));
        }
        catch (UnsolvableException) { return null; }
    }

    private Prediction Unplugged(Variant variant, ProbePlace place, Meter meter)
    {
        var (a, b) = (model.ColdNode(variant, place.From), model.ColdNode(variant, place.To));
        double Mean(Variant v) => Observation.ScaledOf(place.Kind, model.Cold.Value(v, place, a, b, meter));
        var value = model.Cold.Value(variant, place, a, b, meter);
        var row = new double[model.Spreads.Count + 1];
        model.Cold.Row(variant, place, a, b, meter, row);
        row[^1] = SizeRow(variant, Mean);
        return new(Observation.ScaledOf(place.Kind, value), row, Apart(place, meter, value, 0, 0));
    }

    private double SizeRow(Variant variant, Func<Variant, double> mean) =>
        variant.Beside is var (low, high, distance) && distance != 0 ? (mean(model.Variants[high]) - mean(model.Variants[low])) / distance * variant.SizeSigma : 0;

    private static double Apart(ProbePlace place, Meter meter, double value, double moved, double movedShare)
    {
        var noise = Observation.NoiseOf(place, meter, value);
        var law = place.Kind switch
        {
            ReadingKind.Volts => Math.Sqrt(Square(LawShare * value) + Square(movedShare * moved) + Square(LawVolts)),
            ReadingKind.Ohms => ColdShare,
            _ => FaradsShare,
        };
        return Math.Sqrt(Square(noise) + Square(law));
    }

    private static double Square(double x) => x * x;

    /// <summary>What the meter leaves of a node's volts in the healthy set.</summary>
    private double Load(int node, double volts, Meter meter)
    {
        var ohms = meter.LoadOhms(volts);
        if (!double.IsFinite(ohms) || Math.Abs(volts) < 1e-6) return 1;
        return _loads.GetOrAdd((node, ohms), _ => TraceModel.VoltsOf(model.Direct.Adding(new Resistor("the meter", node, model.Direct.Reference, ohms))) is { } loaded ? loaded[node] / volts : 1);
    }
}

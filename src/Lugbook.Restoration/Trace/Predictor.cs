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
    private const double LawShare = 0.015, MovedShare = 0.05, QuickMovedShare = 0.2, LawVolts = 0.05;
    // Contact potential differs from piece to piece, and where a grid's own current makes its bias that is what is read (common practice, no source).
    private const double GridVolts = 0.15;
    private const double ColdShare = 0.01, FaradsShare = 0.06;

    private readonly ConcurrentDictionary<(int, ProbePlace, string), Prediction?> _exact = new();
    private readonly ConcurrentDictionary<(int Node, int Far, double Ohms), double> _loads = new();
    // How strongly an oscillator swings nobody knows beforehand; its grid shows it (common practice, no source).
    private const double OscillatorShare = 0.3;
    private readonly Lazy<HashSet<int>> _oscillators = new(() => [.. model.Direct.Elements.OfType<Converter>().Select(c => c.Oscillator)]);
    private readonly Lazy<HashSet<int>> _grids = new(() => [.. model.Direct.Elements.Select(e => e switch { Triode t => t.Grid, Pentode p => p.Grid, Converter c => c.Signal, _ => -1 }).Where(n => n >= 0 && n != model.Direct.Reference)]);
    private readonly Lazy<Prediction> _line = new(() =>
    {
        var row = new double[model.Spreads.Count + 1];
        if (model.Spreads.Line is var (index, sigma)) row[index] = sigma;
        return new(0, row, Observation.LineSigma);
    });
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
        if (place == Observation.Line) return _line.Value;
        if (place.Kind != ReadingKind.Volts) return Glance(variant, place, meter);
        if (variant.Volts is not { } volts) return null;
        var (home, far) = HotEnds(model.Variants[0], place);
        var (node, other) = HotEnds(variant, place);
        var (healthy, there) = (model.Variants[0].Volts![home] - model.Variants[0].Volts![far], volts[node] - volts[other]);
        var load = Load(home, far, healthy, meter);
        var grown = Math.Abs(healthy) > 0.1 ? Math.Clamp(Math.Abs(there / healthy), 0.05, 3) : 1;
        var (rows, minus) = (_healthy.Value[home], _healthy.Value[far]);
        var row = new double[rows.Length];
        for (var k = 0; k < row.Length; k++) row[k] = (rows[k] - minus[k]) * grown * load;
        row[^1] = SizeRow(variant, v => v.Volts is { } o ? (o[node] - o[other]) * load : there * load);
        return new(there * load, row, Apart(place, meter, there * load, (there - healthy) * load, QuickMovedShare, node));
    }

    private (int From, int To) HotEnds(Variant variant, ProbePlace place) => (model.HotNode(variant, place.From), model.HotNode(variant, place.To));

    /// <summary>Good enough to compare candidates by: volts at once, cold readings exactly, since they cost little.</summary>
    public Prediction? Fair(Variant variant, Candidate c) => c.Place.Kind == ReadingKind.Volts ? Quick(variant, c.Place, c.Meter) : Exact(variant, c.Place, c.Meter);

    /// <summary>Exactly; null where the set with the fault does not settle.</summary>
    public Prediction? Exact(Variant variant, ProbePlace place, Meter meter) => place == Observation.Line ? _line.Value : _exact.GetOrAdd((variant.Number, place, meter.Name), _ => place.Kind == ReadingKind.Volts ? Running(variant, place, meter) : Unplugged(variant, place, meter));

    private Prediction? Running(Variant variant, ProbePlace place, Meter meter)
    {
        if (variant.Volts is not { } volts) return null;
        var (node, other) = HotEnds(variant, place);
        if (node == other) return new(0, new double[model.Spreads.Count + 1], Apart(place, meter, 0, 0, 0, node));
        var network = model.NetworkOf(variant);
        var (there, ohms) = (volts[node] - volts[other], meter.LoadOhms(volts[node] - volts[other]));
        var metered = double.IsFinite(ohms) ? network.Adding(new Resistor("the meter", node, other, ohms)) : network;
        try
        {
            var (loaded, rows) = Sensitivity.At(metered, [node, other]);
            var both = new[] { new double[model.Spreads.Count + 1], new double[model.Spreads.Count + 1] };
            Fill(model, rows, both);
            var row = both[0];
            for (var k = 0; k < row.Length; k++) row[k] -= both[1][k];
            var shown = loaded[node] - loaded[other];
            var load = Math.Abs(there) > 1e-6 ? shown / there : 1;
            row[^1] = SizeRow(variant, v => v.Volts is { } o ? (o[node] - o[other]) * load : shown);
            var (home, far) = HotEnds(model.Variants[0], place);
            return new(shown, row, Apart(place, meter, shown, shown - (model.Variants[0].Volts![home] - model.Variants[0].Volts![far]), MovedShare, node));
        }
        catch (UnsolvableException) { return null; }
    }

    /// <summary>With the healthy set's row: what is far from healthy is looked at again exactly.</summary>
    private Prediction Glance(Variant variant, ProbePlace place, Meter meter)
    {
        var values = model.Cold.Values(place, meter);
        var healthy = Exact(model.Variants[0], place, meter)!;
        var row = (double[])healthy.Row.Clone();
        var mean = Observation.ScaledOf(place.Kind, values[variant.Number]);
        row[^1] = SizeRow(variant, v => Observation.ScaledOf(place.Kind, values[v.Number]));
        return new(mean, row, Math.Sqrt(Square(healthy.Apart) + Square(Apart(place, meter, values[variant.Number], 0, 0, -1)) + Square(Math.Min(QuickMovedShare * Math.Abs(mean - healthy.Mean), 0.3))));
    }

    private Prediction Unplugged(Variant variant, ProbePlace place, Meter meter)
    {
        var value = model.Cold.Value(variant, place, meter);
        var row = new double[model.Spreads.Count + 1];
        var bent = model.Cold.Row(variant, place, meter, row);
        row[^1] = SizeRow(variant, v => Observation.ScaledOf(place.Kind, model.Cold.Value(v, place, meter)));
        return new(Observation.ScaledOf(place.Kind, value), row, Math.Sqrt(Square(Apart(place, meter, value, 0, 0, -1)) + Square(bent)));
    }

    private double SizeRow(Variant variant, Func<Variant, double> mean) =>
        variant.Beside is var (low, high, distance) && distance != 0 ? (mean(model.Variants[high]) - mean(model.Variants[low])) / distance * variant.SizeSigma : 0;

    private double Apart(ProbePlace place, Meter meter, double value, double moved, double movedShare, int node)
    {
        var noise = Observation.NoiseOf(place, meter, value);
        var law = place.Kind switch
        {
            ReadingKind.Volts => Math.Sqrt(Square((_oscillators.Value.Contains(node) ? OscillatorShare : LawShare) * value) + Square(movedShare * moved) + Square(_grids.Value.Contains(node) ? GridVolts : LawVolts)),
            ReadingKind.Ohms => ColdShare,
            _ => FaradsShare,
        };
        return Math.Sqrt(Square(noise) + Square(law));
    }

    private static double Square(double x) => x * x;

    /// <summary>What the meter leaves of a node's volts in the healthy set.</summary>
    private double Load(int node, int far, double volts, Meter meter)
    {
        var ohms = meter.LoadOhms(volts);
        if (!double.IsFinite(ohms) || Math.Abs(volts) < 1e-6) return 1;
        return _loads.GetOrAdd((node, far, ohms), _ => TraceModel.VoltsOf(model.Direct.Adding(new Resistor("the meter", node, far, ohms))) is { } loaded ? (loaded[node] - loaded[far]) / volts : 1);
    }
}

using BenchmarkDotNet.Attributes;
using Lugbook.Circuit;

namespace Lugbook.Benchmarks;

/// <summary>Operating points of tolerance samples, per variant: the batch on one core and on all, and dense matrices.</summary>
[MemoryDiagnoser]
public class ToleranceBenchmarks
{
    private const int Many = 2048, Few = 8, Compared = 32;
    private const double AgreeVolts = 1e-6;

    private Batch _one = null!, _all = null!;
    private DenseNewton _dense = null!;
    private double[] _values = [], _volts = [];
    private BatchResult _room = null!;
    private int _width, _next;

    [Params(50, 150, 300, 600)]
    public int Parts { get; set; }

    /// <summary>Prepares, and holds the two against each other.</summary>
    [GlobalSetup]
    public void Setup()
    {
        MathNet.Numerics.Control.UseSingleThread();
        var network = Subjects.Of(Parts);
        var varied = Tolerances.Of(network);
        _width = varied.Length;
        _one = new(network, varied.Select(v => v.What)) { Cores = 1 };
        _all = new(network, varied.Select(v => v.What));
        _dense = new(_one.NetworkOf([.. varied.Select(v => v.Nominal)]), varied.Select(v => v.What));
        _values = Tolerances.Samples(varied, Many, 7);
        _room = new(Many, _one.NodeCount);
        _volts = new double[_one.NodeCount];
        _all.SolveInto(_values, _room);
        if (_room.SolvedAlone > 0) throw new InvalidOperationException($"{_room.SolvedAlone} samples were solved alone: the rate would not be the batch's.");
        double worst = 0;
        for (var k = 0; k < Compared; k++)
        {
            if (!_dense.Solve(_values.AsSpan(k * _width, _width), _volts)) throw new InvalidOperationException($"Dense matrices do not settle sample {k}.");
            for (var n = 0; n < _volts.Length; n++) worst = Math.Max(worst, Math.Abs(_volts[n] - _room.VoltsOf(k)[n]));
        }
        if (!(worst < AgreeVolts)) throw new InvalidOperationException(FormattableString.Invariant($"Batch and dense matrices differ by {worst} V."));
        Agreement.Note(Parts, worst);
    }

    [Benchmark(OperationsPerInvoke = Many)]
    public void OneCore() => _one.SolveInto(_values, _room);

    [Benchmark(OperationsPerInvoke = Many)]
    public void AllCores() => _all.SolveInto(_values, _room);

    /// <summary>Takes other samples at every call, so that neither side lives on one lucky case.</summary>
    [Benchmark(OperationsPerInvoke = Few)]
    public bool Dense()
    {
        var all = true;
        for (var k = 0; k < Few; k++)
        {
            all &= _dense.Solve(_values.AsSpan(_next * _width, _width), _volts);
            _next = (_next + 1) % Many;
        }
        return all;
    }
}

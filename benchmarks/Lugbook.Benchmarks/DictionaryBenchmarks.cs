using BenchmarkDotNet.Attributes;
using Lugbook.Circuit;

namespace Lugbook.Benchmarks;

/// <summary>The complete dictionary of single faults: the batch on one core and on all, and dense matrices.</summary>
public class DictionaryBenchmarks
{
    private Batch _one = null!, _all = null!;
    private Faults _faults = null!;
    private DenseNewton _dense = null!;
    private BatchResult _room = null!;
    private double[] _volts = [];

    [Params("chassis 50", "chassis 150", "chassis 300", "chassis 600", Subjects.Radio, Subjects.Television)]
    public string Set { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        MathNet.Numerics.Control.UseSingleThread();
        var network = Subjects.Named(Set);
        _faults = new(network);
        _one = new(network, _faults.Varied) { Cores = 1 };
        _all = new(network, _faults.Varied);
        _dense = new(_one.NetworkOf(_faults.Good), _faults.Varied);
        _room = new(_faults.Count, _one.NodeCount);
        _volts = new double[_one.NodeCount];
    }

    [Benchmark]
    public void OneCore() => _one.SolveInto(_faults.Values, _room);

    [Benchmark]
    public void AllCores() => _all.SolveInto(_faults.Values, _room);

    /// <summary>One attempt a fault: what does not settle has no answer here.</summary>
    [Benchmark]
    public int Dense()
    {
        var (settled, width) = (0, _faults.Varied.Length);
        for (var k = 0; k < _faults.Count; k++) if (_dense.Solve(_faults.Values.AsSpan(k * width, width), _volts)) settled++;
        return settled;
    }
}

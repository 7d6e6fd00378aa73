using BenchmarkDotNet.Attributes;
using Lugbook.Circuit;

namespace Lugbook.Benchmarks;

/// <summary>The complete dictionary of single faults: the batch on one core and on all.</summary>
public class DictionaryBenchmarks
{
    private Batch _one = null!, _all = null!;
    private Faults _faults = null!;
    private BatchResult _room = null!;

    [Params("chassis 50", "chassis 150", "chassis 300", "chassis 600", Subjects.Radio, Subjects.Television)]
    public string Set { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        var network = Subjects.Named(Set);
        _faults = new(network);
        _one = new(network, _faults.Varied) { Cores = 1 };
        _all = new(network, _faults.Varied);
        _room = new(_faults.Count, _one.NodeCount);
    }

    [Benchmark]
    public void OneCore() => _one.SolveInto(_faults.Values, _room);

    [Benchmark]
    public void AllCores() => _all.SolveInto(_faults.Values, _room);
}

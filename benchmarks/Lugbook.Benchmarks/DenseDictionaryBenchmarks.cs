using BenchmarkDotNet.Attributes;
using Lugbook.Circuit;

namespace Lugbook.Benchmarks;

/// <summary>The same dictionary by dense matrices; with the larger chassis it would take minutes.</summary>
public class DenseDictionaryBenchmarks
{
    /// <summary>Sets that are measured so.</summary>
    public static string[] Sets => ["chassis 50", "chassis 150", Subjects.Radio, Subjects.Television];

    private Faults _faults = null!;
    private DenseNewton _dense = null!;
    private double[] _volts = [];

    [ParamsSource(nameof(Sets))]
    public string Set { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        MathNet.Numerics.Control.UseSingleThread();
        var network = Subjects.Named(Set);
        _faults = new(network);
        var batch = new Batch(network, _faults.Varied);
        _dense = new(batch.NetworkOf(_faults.Good), _faults.Varied);
        _volts = new double[batch.NodeCount];
    }

    /// <summary>One attempt a fault: what does not settle has no answer here.</summary>
    [Benchmark]
    public int DenseDictionary() => Settled(_dense, _faults, _volts);

    /// <summary>How many faults settle.</summary>
    internal static int Settled(DenseNewton dense, Faults faults, double[] volts)
    {
        var (settled, width) = (0, faults.Varied.Length);
        for (var k = 0; k < faults.Count; k++) if (dense.Solve(faults.Values.AsSpan(k * width, width), volts)) settled++;
        return settled;
    }
}

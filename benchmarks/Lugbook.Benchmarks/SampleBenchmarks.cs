using BenchmarkDotNet.Attributes;
using Lugbook.Circuit;

namespace Lugbook.Benchmarks;

/// <summary>10,000 tolerance samples of the chassis of 150 parts, from values to voltages, on all cores.</summary>
public class SampleBenchmarks
{
    private Batch _batch = null!;
    private double[] _values = [];

    [GlobalSetup]
    public void Setup()
    {
        var varied = Tolerances.Of(Subjects.Of(150));
        _batch = new(Subjects.Of(150), varied.Select(v => v.What));
        _values = Tolerances.Samples(varied, 10_000, 11);
    }

    [Benchmark]
    public BatchResult TenThousand() => _batch.Solve(_values);
}

using System.Diagnostics;
using BenchmarkDotNet.Reports;
using Lugbook.Circuit;

namespace Lugbook.Benchmarks;

/// <summary>Figures taken out of BenchmarkDotNet's summaries, and the counts that it does not take.</summary>
internal sealed class Measured(IReadOnlyList<Summary> summaries)
{
    /// <summary>Time of one operation in the fastest round, s: other work on the machine only adds.</summary>
    public double Seconds(string method, object? parameter = null) => Of(method, parameter).ResultStatistics!.Min * 1e-9;

    /// <summary>Bytes allocated by one operation.</summary>
    public double Bytes(string method, object? parameter = null)
    {
        var report = Of(method, parameter);
        return report.GcStats.GetBytesAllocatedPerOperation(report.BenchmarkCase) ?? double.NaN;
    }

    private BenchmarkReport Of(string method, object? parameter)
    {
        var found = summaries.SelectMany(s => s.Reports).Where(r => r.BenchmarkCase.Descriptor.WorkloadMethod.Name == method
            && (parameter is null ? r.BenchmarkCase.Parameters.Count == 0 : r.BenchmarkCase.Parameters.Items.Any(i => Equals(i.Value, parameter))));
        return found.FirstOrDefault(r => r.ResultStatistics is not null) ?? throw new InvalidOperationException($"'{method}' of {parameter ?? "all"} gave no result; its reason stands above.");
    }

    /// <summary>Seconds a tolerance sample, batch and dense matrices on one core, in short slices by turns: other work on the machine meets both alike, and the least of many slices met little of it.</summary>
    public static (double Batch, double Dense) InTurn(int parts)
    {
        const int slices = 100, many = 256;
        var few = Math.Max(1, 600 / parts);
        var network = Subjects.Of(parts);
        var varied = Tolerances.Of(network);
        var batch = new Batch(network, varied.Select(v => v.What)) { Cores = 1 };
        var dense = new DenseNewton(batch.NetworkOf([.. varied.Select(v => v.Nominal)]), varied.Select(v => v.What));
        var (values, room, volts) = (Tolerances.Samples(varied, many, 17), new BatchResult(many, batch.NodeCount), new double[batch.NodeCount]);
        var (least, leastDense) = (double.PositiveInfinity, double.PositiveInfinity);
        for (var slice = 0; slice < slices; slice++)
        {
            var clock = Stopwatch.GetTimestamp();
            batch.SolveInto(values, room);
            least = Math.Min(least, Stopwatch.GetElapsedTime(clock).TotalSeconds / many);
            clock = Stopwatch.GetTimestamp();
            for (var k = 0; k < few; k++) dense.Solve(values.AsSpan(k * varied.Length, varied.Length), volts);
            leastDense = Math.Min(leastDense, Stopwatch.GetElapsedTime(clock).TotalSeconds / few);
        }
        return (least, leastDense);
    }

    /// <summary>What 8,000 variants more allocate, bytes a variant, and what a call of 1,000 allocates once.</summary>
    public static (double Variant, double Call) Allocation(int parts)
    {
        var network = Subjects.Of(parts);
        var varied = Tolerances.Of(network);
        var batch = new Batch(network, varied.Select(v => v.What)) { Cores = 1 };
        var (few, many) = (Bytes(1000), Bytes(9000));
        return (Math.Max(0, many - few) / 8000.0, few);

        long Bytes(int variants)
        {
            var (values, room) = (Tolerances.Samples(varied, variants, 3), new BatchResult(variants, batch.NodeCount));
            batch.SolveInto(values, room);
            // The count is of the whole process, so the least of a few runs is the batch's own.
            return Enumerable.Range(0, 5).Min(_ =>
            {
                var before = GC.GetTotalAllocatedBytes(precise: true);
                batch.SolveInto(values, room);
                return GC.GetTotalAllocatedBytes(precise: true) - before;
            });
        }
    }

    /// <summary>Counts of a dictionary: faults, how many were solved alone and how many of those are open resistors, which have no answer and why, and how many dense matrices settle, if they were asked.</summary>
    public static DictionaryCounts Dictionary(string set)
    {
        var network = Subjects.Named(set);
        var faults = new Faults(network);
        var batch = new Batch(network, faults.Varied) { Cores = 1 };
        var room = batch.Solve(faults.Values);
        int? settled = DenseDictionaryBenchmarks.Sets.Contains(set)
            ? DenseDictionaryBenchmarks.Settled(new(batch.NetworkOf(faults.Good), faults.Varied), faults, new double[batch.NodeCount])
            : null;

        string[] alone = [.. Enumerable.Range(0, faults.Count).Where(room.WasAlone).Select(k => faults.Names[k])];
        string[] without = [.. Enumerable.Range(0, faults.Count).Where(k => room.ReasonOf(k) is not null).Select(k => $"{faults.Names[k]}: {room.ReasonOf(k)}")];
        return new(network.Elements.Length, network.NodeCount, faults.Count, alone.Length, alone.Count(n => n.EndsWith("open", StringComparison.Ordinal)), without, settled);
    }
}

/// <summary>Counts of a dictionary of single faults.</summary>
internal readonly record struct DictionaryCounts(int Parts, int Nodes, int Faults, int Alone, int AloneOpen, string[] Without, int? DenseSettled);

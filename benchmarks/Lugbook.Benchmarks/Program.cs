using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Lugbook.Benchmarks;
using Perfolizer.Horology;

if (args is ["diag"])
{
    foreach (var name in new[] { "chassis 50", "chassis 150", Subjects.Radio, Subjects.Television })
    {
        var f = new Faults(Subjects.Named(name));
        var b = new Lugbook.Circuit.Batch(Subjects.Named(name), f.Varied);
        var r = b.Solve(f.Values);
        for (var k = 0; k < f.Count; k++)
            if (r.WasAlone(k))
            {
                var c = System.Diagnostics.Stopwatch.StartNew();
                for (var n = 0; n < 5; n++) try { Lugbook.Circuit.OperatingPoint.Of(b.NetworkOf(f.Values.AsSpan(k * f.Varied.Length, f.Varied.Length))); } catch (Lugbook.Circuit.UnsolvableException) { }
                Console.WriteLine($"{name}: {f.Names[k]} residual {r.ResidualOf(k)} {c.Elapsed.TotalMilliseconds / 5:0.0} ms {r.ReasonOf(k)}");
            }
    }
    return 0;
}
if (args.Length != 1)
{
    Console.Error.WriteLine("Give the file that the results are written to, for example: benchmarks/run");
    return 2;
}
// In this process: no second build, and the report can count what it measured.
var config = new ManualConfig { ArtifactsPath = Path.Combine(AppContext.BaseDirectory, "measured") }
    .AddJob(Job.ShortRun.WithIterationTime(TimeInterval.FromMilliseconds(250)).WithToolchain(InProcessEmitToolchain.Instance))
    .AddLogger(ConsoleLogger.Default)
    .AddColumnProvider(DefaultColumnProviders.Instance);
Summary[] summaries = [.. new[] { typeof(ToleranceBenchmarks), typeof(SampleBenchmarks), typeof(DictionaryBenchmarks), typeof(DenseDictionaryBenchmarks) }.Select(t => BenchmarkRunner.Run(t, config))];
try
{
    File.WriteAllText(args[0], Report.Of(new(summaries)));
}
catch (InvalidOperationException e)
{
    Console.Error.WriteLine($"benchmarks: nothing was written. {e.Message}");
    return 1;
}
return 0;

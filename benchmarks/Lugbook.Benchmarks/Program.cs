using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Lugbook.Benchmarks;

if (args.Length != 1)
{
    Console.Error.WriteLine("Give the file that the results are written to, for example: benchmarks/run");
    return 2;
}
// In this process: no second build, and the report can count what it measured.
var config = new ManualConfig { ArtifactsPath = Path.Combine(AppContext.BaseDirectory, "measured") }
    .AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance))
    .AddLogger(ConsoleLogger.Default)
    .AddColumnProvider(DefaultColumnProviders.Instance);
Summary[] summaries = [.. new[] { typeof(ToleranceBenchmarks), typeof(SampleBenchmarks), typeof(DictionaryBenchmarks) }.Select(t => BenchmarkRunner.Run(t, config))];
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

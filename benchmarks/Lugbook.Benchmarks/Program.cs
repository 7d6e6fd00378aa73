using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Lugbook.Benchmarks;
using Perfolizer.Horology;

if (args is ["order", var orders])
{
    File.WriteAllText(orders, OrderBenchmarks.Report());
    return 0;
}
if (args is ["fit", var fits])
{
    File.WriteAllText(fits, FitBenchmarks.Report());
    return 0;
}
if (args is ["drawing", var drawings])
{
    File.WriteAllText(drawings, DrawingBenchmarks.Report());
    return 0;
}
if (args is not ([_] or [_, "once"]))
{
    Console.Error.WriteLine("Give the file that the results are written to; 'once' after it measures each thing once, to see that all runs. 'order FILE' measures the orders instead, 'fit FILE' the order of the work.");
    return 2;
}
var job = args.Length == 2 ? Job.Dry : Job.ShortRun.WithWarmupCount(3).WithIterationCount(5).WithIterationTime(TimeInterval.FromMilliseconds(200));
// In this process: no second build, and the report can count what it measured.
var config = new ManualConfig { ArtifactsPath = Path.Combine(AppContext.BaseDirectory, "measured") }
    .AddJob(job.WithToolchain(InProcessEmitToolchain.Instance))
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

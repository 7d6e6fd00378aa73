using System.Diagnostics;
using Lugbook.Circuit;
namespace Lugbook.Benchmarks;
internal static class Quick
{
    public static void Run()
    {
        MathNet.Numerics.Control.UseSingleThread();
        foreach (var parts in new[] { 50, 150, 300, 600 })
        {
            var network = Subjects.Of(parts);
            var varied = Tolerances.Of(network);
            var batch = new Batch(network, varied.Select(v => v.What)) { Cores = 1 };
            var values = Tolerances.Samples(varied, 2048, 7);
            var room = new BatchResult(2048, batch.NodeCount);
            var best = double.PositiveInfinity;
            for (var k = 0; k < 12; k++) { var c = Stopwatch.StartNew(); batch.SolveInto(values, room); best = Math.Min(best, c.Elapsed.TotalSeconds); }
            var dense = new DenseNewton(batch.NetworkOf([.. varied.Select(v => v.Nominal)]), varied.Select(v => v.What));
            var volts = new double[batch.NodeCount];
            var n = parts < 200 ? 40 : 4;
            var bestDense = double.PositiveInfinity;
            for (var k = 0; k < 5; k++) { var c = Stopwatch.StartNew(); for (var j = 0; j < n; j++) dense.Solve(values.AsSpan(j * varied.Length, varied.Length), volts); bestDense = Math.Min(bestDense, c.Elapsed.TotalSeconds / n); }
            double worst = 0;
            for (var i = 0; i < volts.Length; i++) worst = Math.Max(worst, Math.Abs(volts[i] - room.VoltsOf(n - 1)[i]));
            Console.WriteLine(FormattableString.Invariant($"{parts}: {2048 / best:0}/s, gathered {room.Gathered.Length}, alone {room.SolvedAlone}; dense {1 / bestDense:0}/s; ratio {bestDense * 2048 / best:0}; diff {worst:e1}"));
        }
        foreach (var set in new[] { "chassis 50", "chassis 150", Subjects.Radio, Subjects.Television })
        {
            var network = Subjects.Named(set);
            var faults = new Faults(network);
            var batch = new Batch(network, faults.Varied) { Cores = 1 };
            var room = new BatchResult(faults.Count, batch.NodeCount);
            var best = double.PositiveInfinity;
            for (var k = 0; k < 8; k++) { var c = Stopwatch.StartNew(); batch.SolveInto(faults.Values, room); best = Math.Min(best, c.Elapsed.TotalSeconds); }
            var dense = new DenseNewton(batch.NetworkOf(faults.Good), faults.Varied);
            var volts = new double[batch.NodeCount];
            var bd = double.PositiveInfinity; var settled = 0;
            for (var k = 0; k < 3; k++) { var c = Stopwatch.StartNew(); settled = DenseDictionaryBenchmarks.Settled(dense, faults, volts); bd = Math.Min(bd, c.Elapsed.TotalSeconds); }
            double worst = 0; var which = -1; var where = 0;
            for (var f = 0; f < faults.Count; f++)
            {
                if (room.ReasonOf(f) is not null) { Console.WriteLine($"   {faults.Names[f]}: {room.ReasonOf(f)}"); continue; }
                var point = OperatingPoint.Of(batch.NetworkOf(faults.Values.AsSpan(f * faults.Varied.Length, faults.Varied.Length)));
                for (var i = 0; i < volts.Length; i++)
                {
                    var d = Math.Abs(point.Volts[i] - room.VoltsOf(f)[i]);
                    if (d > 1e-5) Console.WriteLine(FormattableString.Invariant($"   {faults.Names[f]} {network.NodeNames[i]}: {room.VoltsOf(f)[i]:g9} alone {point.Volts[i]:g9}"));
                    if (d > worst) (worst, which, where) = (d, f, i);
                }
            }
            Console.WriteLine(FormattableString.Invariant($"{set}: {faults.Count} faults {best * 1e3:0.00} ms, gathered {room.Gathered.Length}, alone {room.SolvedAlone} [{string.Join(", ", Enumerable.Range(0, faults.Count).Where(room.WasAlone).Take(12).Select(k => faults.Names[k]))}]; dense {bd * 1e3:0.0} ms ({settled} settled); ratio {bd / best:0.0}; worst {worst:e1} {(which < 0 ? "" : faults.Names[which])}"));
        }
    }
}

using System.Diagnostics;
using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;
namespace Lugbook.Benchmarks;
internal static class Micro
{
    private static double Min(Action a) { var best = double.PositiveInfinity; for (var k = 0; k < 400; k++) { var t = Stopwatch.GetTimestamp(); a(); best = Math.Min(best, Stopwatch.GetElapsedTime(t).TotalNanoseconds); } return best; }
    public static void Run<T>() where T : unmanaged, ILane<T>
    {
        var x = T.Of(-1.3); var w = T.Of(0.3); var s = T.Of(0);
        Console.WriteLine(FormattableString.Invariant($"{typeof(T).Name}: exp {Min(() => { for (var i = 0; i < 1000; i++) s += LaneMath.Exp(x + s * T.Of(1e-9)); }) / 1000:0.0} log {Min(() => { for (var i = 0; i < 1000; i++) s += LaneMath.Log(w + s * T.Of(1e-12)); }) / 1000:0.0} ns"));
        Console.WriteLine(FormattableString.Invariant($"  softplus {Min(() => { for (var i = 0; i < 1000; i++) s += LaneMath.SoftPlus(x + s * T.Of(1e-9), w).Slope; }) / 1000:0.0} power {Min(() => { for (var i = 0; i < 1000; i++) s += LaneMath.PowerAndLess(w + s * T.Of(1e-12), w + T.Of(1)).Power; }) / 1000:0.0} ns"));
        PentodeLaw Remote = new(19, 600, 2.2e-3, 1.4, 0.6, 0.1, 0.02, 0.3, 3, 0.35, 0.2, 0.06, 2, 3e-4, 0.15, 0.15);
        TriodeLaw HighMu = new(100, 1.5e-3, 1.5, 0.6, 0.1, 0.001, 3e-4, 0.15, 0.15);
        var p = PentodeDevice.Of(Remote).Select(T.Of).ToArray();
        var v = new[] { T.Of(250), T.Of(100), T.Of(-2), T.Of(0.5) };
        var i4 = new T[4]; var g = new T[16];
        var q = TriodeDevice.Of(HighMu).Select(T.Of).ToArray();
        Console.WriteLine(FormattableString.Invariant($"  pentode {Min(() => { for (var i = 0; i < 200; i++) PentodeDevice.Evaluate<T>(p, v, i4, g); }) / 200:0.0} triode {Min(() => { for (var i = 0; i < 200; i++) TriodeDevice.Evaluate<T>(q, v.AsSpan(1, 3), i4.AsSpan(0, 3), g.AsSpan(0, 9)); }) / 200:0.0} ns"));
    }
}

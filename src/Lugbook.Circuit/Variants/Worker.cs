using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Variants;

/// <summary>What one core needs to solve some variants side by side after others; allocates only when made.</summary>
internal sealed class Worker<T>(Assembly assembly, double[] nominal, Write[] writes) where T : unmanaged, ILane<T>
{
    private readonly Newton<T> _newton = Starting(assembly, nominal);
    private readonly T[] _volts = new T[nominal.Length];
    private readonly Numbers<T> _numbers = new(assembly);
    private readonly Ties _ties = new(assembly, writes);
    private readonly int[] _conductances = [.. writes.Where(w => w.Target == Target.Siemens).Select(w => w.Index)];
    private readonly bool[] _loose = new bool[T.Width];

    /// <summary>Voltages of the joined nodes.</summary>
    public ReadOnlySpan<T> Volts => _volts;

    /// <summary>Puts a variant into a lane.</summary>
    public void Put(ReadOnlySpan<double> values, int lane)
    {
        Writer.Into(writes, values, _numbers, lane);
        var loose = false;
        var siemens = Lane.Of(_numbers.Siemens);
        foreach (var k in _conductances) loose |= siemens[k * T.Width + lane] < Assembly.LeastTie;
        if (loose || _loose[lane]) _ties.Insulate(_numbers, lane);
        _loose[lane] = loose;
        _numbers.Frail = T.WithLane(_numbers.Frail, lane, loose ? 1 : 0);
    }

    /// <summary>Solves the lanes from the nominal point.</summary>
    public void Solve(int steps)
    {
        for (var n = 0; n < nominal.Length; n++) _volts[n] = T.Of(nominal[n]);
        _newton.Solve(_numbers, _volts, 0, steps, remembered: true);
    }

    /// <summary>Largest current of a lane that is not accounted for, A; NaN when the lane has no numbers, infinity when it has not settled.</summary>
    public double Residual(int lane)
    {
        if (!_newton.HasSettled(lane)) return double.PositiveInfinity;
        double largest = 0;
        var residual = Lane.Of(_newton.Residual);
        var insulation = Lane.Of(_numbers.Insulation);
        var volts = Lane.Of(Volts);
        for (var u = 0; u < assembly.NodeOfUnknown.Length; u++)
        {
            var at = assembly.NodeOfUnknown[u] * T.Width + lane;
            largest = Math.Max(largest, Math.Abs(residual[at] - insulation[u * T.Width + lane] * volts[at]));
        }
        return largest;
    }

    private static Newton<T> Starting(Assembly assembly, double[] nominal)
    {
        var newton = new Newton<T>(assembly);
        newton.Remember(nominal);
        return newton;
    }
}

using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Variants;

/// <summary>What one core needs to solve four variants after four others; allocates only when made.</summary>
internal sealed class Worker(Assembly assembly, double[] nominal, Write[] writes)
{
    private const int Steps = 40;

    private readonly Newton<Four> _newton = new(assembly);
    private readonly Four[] _volts = new Four[nominal.Length];
    private readonly Numbers<Four> _numbers = new(assembly);
    private readonly Ties _ties = new(assembly, writes);

    /// <summary>Voltages of the joined nodes.</summary>
    public ReadOnlySpan<Four> Volts => _volts;

    /// <summary>Puts a variant into a lane. False: its open parts leave a node untied, and the lane holds something else.</summary>
    public bool Put(ReadOnlySpan<double> values, int lane)
    {
        var open = false;
        foreach (var x in values) open |= double.IsInfinity(x);
        var good = !open || _ties.All(values);
        Writer.Into(writes, values, _numbers, lane, good ? double.PositiveInfinity : Writer.OpenOhms);
        return good;
    }

    /// <summary>Solves the four lanes from the nominal point.</summary>
    public void Solve()
    {
        for (var n = 0; n < nominal.Length; n++) _volts[n] = Four.Of(nominal[n]);
        _newton.Solve(_numbers, _volts, 0, Steps);
    }

    /// <summary>Largest current of a lane that is not accounted for, A; NaN when the lane has no numbers.</summary>
    public double Residual(int lane)
    {
        double largest = 0;
        foreach (var n in assembly.NodeOfUnknown) largest = Math.Max(largest, Math.Abs(Four.Lane(_newton.Residual[n], lane)));
        return largest;
    }
}

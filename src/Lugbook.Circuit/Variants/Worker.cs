using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Variants;

/// <summary>What one core needs to solve four variants after four others; allocates only when made.</summary>
internal sealed class Worker(Assembly assembly, double[] nominal)
{
    private const int Steps = 40;

    private readonly Newton<Four> _newton = new(assembly);
    private readonly Four[] _volts = new Four[nominal.Length];

    public Numbers<Four> Numbers { get; } = new(assembly);

    /// <summary>Voltages of the joined nodes.</summary>
    public ReadOnlySpan<Four> Volts => _volts;

    /// <summary>Solves the four lanes from the nominal point.</summary>
    public void Solve()
    {
        for (var n = 0; n < nominal.Length; n++) _volts[n] = Four.Of(nominal[n]);
        _newton.Solve(Numbers, _volts, 0, Steps);
    }

    /// <summary>Largest current of a lane that is not accounted for, A; NaN when the lane has no numbers.</summary>
    public double Residual(int lane)
    {
        double largest = 0;
        foreach (var n in assembly.NodeOfUnknown) largest = Math.Max(largest, Math.Abs(Four.Lane(_newton.Residual[n], lane)));
        return largest;
    }
}

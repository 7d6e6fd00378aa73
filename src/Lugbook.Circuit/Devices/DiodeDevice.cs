using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Devices;

/// <summary><see cref="DiodeLaw"/> between anode (0) and cathode (1). Parameters: K, x, V₀, w, leak conductance, r (what S(V − V₀)ˣ is at 0 V, in a dry rectifier).</summary>
internal readonly struct DiodeDevice : IDevice
{
    public static int Terminals => 2;
    public static int Parameters => 6;

    public static double[] Of(DiodeLaw law) => [law.Perveance, law.Exponent, law.OffsetVolts, law.WidthVolts, 1 / law.LeakOhms, law.NeedsHeat ? 0 : AtRest(law)];

    // By the same functions as below, so that the difference at 0 V is 0 to the last bit.
    private static double AtRest(DiodeLaw law)
    {
        var (s, _) = LaneMath.SoftPlus(new One(0) - new One(law.OffsetVolts), new One(law.WidthVolts));
        return LaneMath.PowerAndLess(s, new One(law.Exponent)).Power.Value;
    }

    public static void Evaluate<T>(ReadOnlySpan<T> p, ReadOnlySpan<T> v, Span<T> i, Span<T> g) where T : unmanaged, ILane<T>
    {
        var volts = v[0] - v[1];
        var (s, slope) = LaneMath.SoftPlus(volts - p[2], p[3]);
        var (power, less) = LaneMath.PowerAndLess(s, p[1]);
        var current = p[0] * (power - p[5]) + p[4] * volts;
        var conductance = p[0] * p[1] * less * slope + p[4];
        i[0] = current;
        i[1] = -current;
        g[0] = conductance;
        g[1] = -conductance;
        g[2] = -conductance;
        g[3] = conductance;
    }
}

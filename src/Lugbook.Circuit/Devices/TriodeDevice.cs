using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Devices;

/// <summary><see cref="TriodeLaw"/> at plate (0), grid (1), cathode (2).</summary>
internal readonly struct TriodeDevice : IDevice
{
    public static int Terminals => 3;
    public static int Parameters => 9;

    public static double[] Of(TriodeLaw law) =>
        [1 / law.Mu, law.Perveance, law.Exponent, law.ContactVolts, law.Width, law.WidthPerPlateVolt, law.GridPerveance, law.GridContactVolts, law.GridWidth];

    public static void Evaluate<T>(ReadOnlySpan<T> p, ReadOnlySpan<T> v, Span<T> i, Span<T> g) where T : unmanaged, ILane<T>
    {
        var vp = v[0] - v[2];
        var vg = v[1] - v[2];
        var (ip, byPlate, byGrid) = Plate(p, vp, vg);
        var (ig, grid) = GridCurrent.Of(vg, p[6], p[7], p[8]);
        Stamp(i, g, ip, byPlate, byGrid, ig, grid);
    }

    /// <summary>Plate current, A, and its derivatives by plate and grid voltage, S.</summary>
    public static (T Amperes, T ByPlate, T ByGrid) Plate<T>(ReadOnlySpan<T> p, T vp, T vg) where T : unmanaged, ILane<T>
    {
        var zero = T.Of(0);
        // A negative plate repels what the grid lets through; the drive then falls with the full plate voltage.
        var forward = T.Max(vp, zero);
        var u = vg + p[3] + vp * p[0] + T.Min(vp, zero);
        var duByPlate = p[0] + T.WhereLess(vp, zero, T.Of(1), zero);
        var w = T.MultiplyAdd(p[5], forward, p[4]);
        var dwByPlate = T.WhereLess(vp, zero, zero, p[5]);
        var (s, slope) = LaneMath.SoftPlus(u, w);
        // S = w·f(u/w): dS/dw = f − (u/w)·f' = (S − u·slope)/w.
        var byWidth = (s - u * slope) / w;
        var (power, less) = LaneMath.PowerAndLess(s, p[2]);
        var steep = p[1] * p[2] * less;
        return (p[1] * power, steep * (slope * duByPlate + byWidth * dwByPlate), steep * slope);
    }

    private static void Stamp<T>(Span<T> i, Span<T> g, T ip, T pp, T pg, T ig, T gg) where T : unmanaged, ILane<T>
    {
        var zero = T.Of(0);
        i[0] = ip;
        i[1] = ig;
        i[2] = -(ip + ig);
        g[0] = pp;
        g[1] = pg;
        g[2] = -(pp + pg);
        g[3] = zero;
        g[4] = gg;
        g[5] = -gg;
        g[6] = -pp;
        g[7] = -(pg + gg);
        g[8] = pp + pg + gg;
    }
}

/// <summary>Current of a grid that is near or above its cathode: retarding field below, three-halves above.</summary>
internal static class GridCurrent
{
    /// <summary>Current, A, and its derivative by grid voltage, S.</summary>
    public static (T Amperes, T Slope) Of<T>(T vg, T perveance, T contact, T width) where T : unmanaged, ILane<T>
    {
        var (s, slope) = LaneMath.SoftPlus(vg + contact, width);
        var root = T.Sqrt(s);
        return (perveance * s * root, T.Of(1.5) * perveance * root * slope);
    }
}

using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Devices;

/// <summary><see cref="PentodeLaw"/> at plate (0), screen (1), grid (2), cathode (3).</summary>
internal readonly struct PentodeDevice : IDevice
{
    public static int Terminals => 4;
    public static int Parameters => 13;

    public static double[] Of(PentodeLaw law) =>
    [
        1 / law.ScreenMu, 1 / law.PlateMu, law.Perveance, law.Exponent, law.ContactVolts, law.Width, law.WidthPerScreenVolt,
        law.ScreenShare, law.KneeVolts, law.KneeSharpness, law.GridPerveance, law.GridContactVolts, law.GridWidth,
    ];

    public static void Evaluate<T>(ReadOnlySpan<T> p, ReadOnlySpan<T> v, Span<T> i, Span<T> g) where T : unmanaged, ILane<T>
    {
        var zero = T.Of(0);
        var one = T.Of(1);
        var vp = v[0] - v[3];
        var vs = v[1] - v[3];
        var vg = v[2] - v[3];

        // Cathode current: the screen drives it, the plate hardly.
        var forward = T.Max(vs, zero);
        var u = vg + p[4] + vs * p[0] + vp * p[1];
        var w = T.MultiplyAdd(p[6], forward, p[5]);
        var dw = T.WhereLess(vs, zero, zero, p[6]);
        var (s, slope) = LaneMath.SoftPlus(u, w);
        var byWidth = (s - u * slope) / w;
        var (power, less) = LaneMath.PowerAndLess(s, p[3]);
        var ik = p[2] * power;
        var steep = p[2] * p[3] * less;
        var kp = steep * slope * p[1];
        var ks = steep * (slope * p[0] + byWidth * dw);
        var kg = steep * slope;

        // The plate's share rises from 0 at Vp = 0 to 1 − s∞: q = r/(1 + rⁿ)^(1/n), r = S(Vp)/Vk.
        var (a, da) = LaneMath.SoftPlus(vp, T.Of(0.5));
        var r = a / p[8];
        var (rn, rnLess) = LaneMath.PowerAndLess(r, p[9]);
        var below = one + rn;
        var root = T.Exp(T.Log(below) / p[9]);
        var q = r / root;
        var dq = one / (root * below) * da / p[8];
        _ = rnLess;
        var full = one - p[7];
        var ip = ik * full * q;
        var pp = full * (kp * q + ik * dq);
        var ps = full * ks * q;
        var pg = full * kg * q;

        var (ig, gg) = GridCurrent.Of(vg, p[10], p[11], p[12]);
        var isc = ik - ip;
        var sp = kp - pp;
        var ss = ks - ps;
        var sg = kg - pg;

        i[0] = ip;
        i[1] = isc;
        i[2] = ig;
        i[3] = -(ik + ig);
        Row(g, 0, pp, ps, pg);
        Row(g, 4, sp, ss, sg);
        Row(g, 8, zero, zero, gg);
        Row(g, 12, -kp, -ks, -(kg + gg));
    }

    // The fourth column makes each row add up to 0: only differences of voltage count.
    private static void Row<T>(Span<T> g, int at, T plate, T screen, T grid) where T : unmanaged, ILane<T>
    {
        g[at] = plate;
        g[at + 1] = screen;
        g[at + 2] = grid;
        g[at + 3] = -(plate + screen + grid);
    }
}

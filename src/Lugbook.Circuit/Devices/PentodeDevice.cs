using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Devices;

/// <summary><see cref="PentodeLaw"/> at plate (0), screen (1), grid (2), cathode (3).</summary>
internal readonly struct PentodeDevice : IDevice
{
    public static int Terminals => 4;
    public static int Parameters => 16;

    public static double[] Of(PentodeLaw law) =>
    [
        1 / law.ScreenMu, 1 / law.PlateMu, law.Perveance, law.Exponent, law.ContactVolts, law.Width, law.WidthPerScreenVolt,
        law.RemoteShare, law.RemoteWidening, law.ScreenRatio, law.ScreenFall, law.Knee * law.ScreenMu, law.KneeSharpness,
        law.GridPerveance, law.GridContactVolts, law.GridWidth,
    ];

    public static void Evaluate<T>(ReadOnlySpan<T> p, ReadOnlySpan<T> v, Span<T> i, Span<T> g) where T : unmanaged, ILane<T>
    {
        var zero = T.Of(0);
        var one = T.Of(1);
        var vp = v[0] - v[3];
        var vs = v[1] - v[3];
        var vg = v[2] - v[3];
        var (ap, dap) = Electrode.Forward(vp);
        var (sc, dsc) = Electrode.Forward(vs);

        // Cathode current: the screen drives it, the plate hardly.
        var u = T.MultiplyAdd(vp, p[1], T.MultiplyAdd(vs, p[0], vg + p[4]));
        var w = T.MultiplyAdd(p[6], sc, p[5]);
        var (power, byDrive, byWidth, s, sByU, sByWidth) = Electrode.Space(u, w, p[3]);
        if (T.Largest(p[7]) > 0)
        {
            var (power2, byDrive2, byWidth2, _, _, _) = Electrode.Space(u, w * p[8], p[3]);
            power = T.MultiplyAdd(p[7], power2 - power, power);
            byDrive = T.MultiplyAdd(p[7], byDrive2 - byDrive, byDrive);
            byWidth = T.MultiplyAdd(p[7], byWidth2 * p[8] - byWidth, byWidth);
        }
        var ik = p[2] * power;
        var kg = p[2] * byDrive;
        var kp = kg * p[1];
        var dw = p[6] * dsc;
        var ks = kg * p[0] + p[2] * byWidth * dw;

        // Division between plate and screen.
        var knee = T.MultiplyAdd(p[11], s, one);
        var y = ap / knee;
        var (r, rLess) = LaneMath.PowerAndLess(y, p[12]);
        var byY = p[12] * rLess / knee;
        var byKnee = -(byY * y * p[11]);
        var rp = byY * dap + byKnee * sByU * p[1];
        var rs = byKnee * (sByU * p[0] + sByWidth * dw);
        var rg = byKnee * sByU;
        var both = one / (ap + sc + one);
        var near = sc * both;
        var ratio = T.MultiplyAdd(p[10] * near, near * near, p[9]);
        var steep = T.Of(3) * p[10] * near * near * both * both;
        var ratioByPlate = -(steep * sc * dap);
        var ratioByScreen = steep * (ap + one) * dsc;
        var d = one / T.MultiplyAdd(r, one + ratio, one);
        var plate = r * d;
        var d2 = d * d;
        var plate2 = plate * plate;
        var fp = d2 * rp - plate2 * ratioByPlate;
        var fs = d2 * rs - plate2 * ratioByScreen;
        var fg = d2 * rg;

        // A screen below its cathode collects nothing.
        var (gate, gateBy, _) = Electrode.Rise(sc, T.Of(0.5));
        var rest = T.MultiplyAdd(r, ratio, one) * d;

        i[0] = ik * plate;
        g[0] = kp * plate + ik * fp;
        g[1] = ks * plate + ik * fs;
        g[2] = kg * plate + ik * fg;
        i[1] = ik * gate * rest;
        g[4] = gate * (kp * rest - ik * fp);
        g[5] = gate * (ks * rest - ik * fs) + ik * rest * gateBy * dsc;
        g[6] = gate * (kg * rest - ik * fg);
        var (ig, gg, _, _) = Electrode.Grid(vg, p[13], p[14], p[15]);
        i[2] = ig;
        g[8] = zero;
        g[9] = zero;
        g[10] = gg;
        Electrode.Close(i, g);
    }
}

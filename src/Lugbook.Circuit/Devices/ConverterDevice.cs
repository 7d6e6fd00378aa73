using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Devices;

/// <summary><see cref="ConverterLaw"/> at plate (0), screens (1), signal grid 3 (2), oscillator grid 1 (3), cathode (4).</summary>
internal readonly struct ConverterDevice : IDevice
{
    /// <summary>Points of a half cycle over which the means are taken; equal angles, so the sum is the Gauss-Chebyshev rule.</summary>
    public const int Points = 12;
    private static readonly double[] Cosines = [.. Enumerable.Range(0, Points).Select(k => Math.Cos((k + 0.5) * Math.PI / Points))];

    public static int Terminals => 5;
    public static int Parameters => 16;

    public static double[] Of(ConverterLaw law, double oscillatorPeakVolts) =>
    [
        1 / law.ScreenMu, law.Perveance, law.Exponent, law.ContactVolts, law.Width, law.WidthPerScreenVolt,
        law.PlateShare, 1 / law.SignalScreenMu, 1 / law.SignalPlateMu, law.SignalWidth, law.SignalHalf, law.KneeVolts,
        law.GridPerveance, law.GridContactVolts, law.GridWidth, oscillatorPeakVolts,
    ];

    public static void Evaluate<T>(ReadOnlySpan<T> p, ReadOnlySpan<T> v, Span<T> i, Span<T> g) where T : unmanaged, ILane<T>
    {
        var zero = T.Of(0);
        var one = T.Of(1);
        var vp = v[0] - v[4];
        var vs = v[1] - v[4];
        var v3 = v[2] - v[4];
        var v1 = v[3] - v[4];
        var (ap, dap) = Electrode.Forward(vp);
        var (sc, dsc) = Electrode.Forward(vs);
        var w = T.MultiplyAdd(p[5], sc, p[4]);

        // Mean over a cycle of what grid 1 lets through and takes.
        var swinging = T.Largest(T.Abs(p[15])) > 0;
        var count = swinging ? Points : 1;
        T power = zero, byDrive = zero, byWidth = zero, ig = zero, gg = zero;
        for (var k = 0; k < count; k++)
        {
            var at = swinging ? T.MultiplyAdd(p[15], T.Of(Cosines[k]), v1) : v1;
            var (f, fu, fw, _, _, _) = Electrode.Space(T.MultiplyAdd(vs, p[0], at + p[3]), w, p[2]);
            var (j, jg, _, _) = Electrode.Grid(at, p[12], p[13], p[14]);
            power += f;
            byDrive += fu;
            byWidth += fw;
            ig += j;
            gg += jg;
        }
        var mean = T.Of(1.0 / count);
        var ik = p[1] * power * mean;
        var k1 = p[1] * byDrive * mean;
        var ks = k1 * p[0] + p[1] * byWidth * mean * p[5] * dsc;

        // Grid 3's share for the plate.
        var u3 = T.MultiplyAdd(vp, p[8], T.MultiplyAdd(vs, p[7], v3));
        var (s3, ds3) = LaneMath.SoftPlus(u3, p[9]);
        var d3 = one / (s3 + p[10]);
        var pass = s3 * d3;
        var passBy = p[10] * d3 * d3 * ds3;
        var (q, qBy, _) = Electrode.Rise(ap, p[11]);
        var share = p[6] * pass * q;
        var byThree = p[6] * passBy * q;
        var byPlate = byThree * p[8] + p[6] * pass * qBy * dap;
        var byScreen = byThree * p[7];
        var (gate, gateBy, _) = Electrode.Rise(sc, T.Of(0.5));
        var rest = one - share;

        i[0] = ik * share;
        g[0] = ik * byPlate;
        g[1] = ks * share + ik * byScreen;
        g[2] = ik * byThree;
        g[3] = k1 * share;
        i[1] = ik * rest * gate;
        g[5] = -(ik * byPlate * gate);
        g[6] = (ks * rest - ik * byScreen) * gate + ik * rest * gateBy * dsc;
        g[7] = -(ik * byThree * gate);
        g[8] = k1 * rest * gate;
        var (i3, g3, _, _) = Electrode.Grid(v3, p[12] * T.Of(0.1), p[13], p[14]);
        i[2] = i3;
        g[10] = zero;
        g[11] = zero;
        g[12] = g3;
        g[13] = zero;
        i[3] = ig * mean;
        g[15] = zero;
        g[16] = zero;
        g[17] = zero;
        g[18] = gg * mean;
        Electrode.Close(i, g);
    }
}

using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Devices;

/// <summary><see cref="TriodeLaw"/> at plate (0), grid (1), cathode (2).</summary>
internal readonly struct TriodeDevice : IDevice
{
    public static int Terminals => 3;
    public static int Parameters => 10;

    public static double[] Of(TriodeLaw law) =>
    [
        1 / law.Mu, law.Perveance, law.Exponent, law.ContactVolts, law.Width, law.WidthPerPlateVolt,
        law.GridPerveance, law.GridContactVolts, law.GridWidth, law.KneeVolts,
    ];

    public static void Evaluate<T>(ReadOnlySpan<T> p, ReadOnlySpan<T> v, Span<T> i, Span<T> g) where T : unmanaged, ILane<T>
    {
        var half = T.Of(0.5);
        var vp = v[0] - v[2];
        var vg = v[1] - v[2];
        var (a, da) = Electrode.Forward(vp);

        var u = T.MultiplyAdd(vp, p[0], vg + p[3]);
        var w = T.MultiplyAdd(p[5], a, p[4]);
        var (power, byDrive, byWidth, _, _, _) = Electrode.Space(u, w, p[2]);
        var space = p[1] * power;
        var spaceByGrid = p[1] * byDrive;
        var spaceByPlate = p[1] * (byDrive * p[0] + byWidth * p[5] * da);

        // What the plate takes of it: all, until it comes down to the knee, which a positive grid moves up.
        var (ig, gg, sg, dsg) = Electrode.Grid(vg, p[6], p[7], p[8]);
        var (q, byForward, byKnee) = Electrode.Rise(a, T.MultiplyAdd(half, sg, p[9]));
        var qByPlate = byForward * da;
        var qByGrid = byKnee * half * dsg;
        var missed = T.Of(2) - q;

        i[0] = space * q;
        i[1] = ig * missed;
        g[0] = spaceByPlate * q + space * qByPlate;
        g[1] = spaceByGrid * q + space * qByGrid;
        g[3] = -(ig * qByPlate);
        g[4] = gg * missed - ig * qByGrid;
        Electrode.Close(i, g);
    }
}

namespace Lugbook.Circuit.Lanes;

/// <summary>Smooth functions that devices share, with their derivatives.</summary>
internal static class LaneMath
{
    /// <summary>w·ln(1 + e^(u/w)): u where u is large, vanishing exponentially where it is negative. Unit of u; w above 0.</summary>
    /// <remarks>Computed as max(u,0) + w·ln(1 + e^(−|u|/w)), which neither overflows nor loses the small tail.</remarks>
    public static (T Value, T Slope) SoftPlus<T>(T u, T w) where T : unmanaged, ILane<T>
    {
        var one = T.Of(1);
        var tail = T.Exp(-(T.Abs(u) / w));
        var log = LogOnePlus(tail);
        var value = T.MultiplyAdd(w, log, T.Max(u, T.Of(0)));
        var rising = one / (one + tail);
        var slope = T.WhereLess(u, T.Of(0), tail * rising, rising);
        return (value, slope);
    }

    /// <summary>ln(1+x) for x in 0…1, exact to rounding also where x is tiny.</summary>
    public static T LogOnePlus<T>(T x) where T : unmanaged, ILane<T>
    {
        // ln(1+x) = ln(y)·x/(y−1) with y = 1+x rounded: the rounding errors cancel (Kahan; HP-15C Advanced Functions Handbook).
        var one = T.Of(1);
        var y = one + x;
        var d = y - one;
        return T.WhereLess(T.Of(0), d, T.Log(y) * (x / T.Max(d, T.Of(double.Epsilon))), x);
    }

    /// <summary>aˣ and aˣ⁻¹ for a of 0 or more and x above 1; both 0 at a = 0.</summary>
    public static (T Power, T Less) PowerAndLess<T>(T a, T x) where T : unmanaged, ILane<T>
    {
        // Beneath the smallest normal number the logarithm would give −∞ and 0·∞ a NaN.
        var safe = T.Max(a, T.Of(1e-300));
        var less = T.Exp((x - T.Of(1)) * T.Log(safe));
        return (less * a, less);
    }
}

using System.Runtime.CompilerServices;

namespace Lugbook.Circuit.Lanes;

/// <summary>Smooth functions that devices share, with their derivatives. The same operations in every kind of lane, so that a variant comes out alike alone and beside others.</summary>
internal static class LaneMath
{
    /// <summary>1.5·2⁵²: added to a number, it leaves the nearest integer in the last bits.</summary>
    public const double Shifter = 6755399441055744;
    /// <summary>Bits of √½.</summary>
    public const long RootHalf = 0x3FE6A09E667F3BCD;

    private const double Log2E = 1.4426950408889634, HighLn2 = 0.693147180369123816490, LowLn2 = 1.90821492927058770002e-10, Ln2 = 0.6931471805599453;
    private const double Root2 = 1.4142135623730951;
    private const double Far = 40;   // e⁻⁴⁰ is a fiftieth of the last bit of 1
    private const double Least = -700;   // the machine's numbers end at e⁻⁷⁰⁸

    /// <summary>w·ln(1 + e^(u/w)): u where u is large, vanishing exponentially where it is negative. Unit of u; w above 0.</summary>
    /// <remarks>
    /// Computed as max(u,0) + w·ln(1 + t), t = e^(−|u|/w), which neither overflows nor loses the small tail. ln(1 + t) = 2·artanh(t/(2 + t)); where 1 + t is above √2, ln 2 more and that of (1 + t)/2.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Value, T Slope) SoftPlus<T>(T u, T w) where T : unmanaged, ILane<T>
    {
        SoftPlus(in u, in w, out var value, out var slope);
        return (value, slope);
    }

    // Wide numbers go by reference: passing them by value costs as much as the work.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void SoftPlus<T>(in T u, in T w, out T value, out T slope) where T : unmanaged, ILane<T>
    {
        var one = T.Of(1);
        var ratio = u / w;
        // Far above in every lane the tail is lost in rounding: the same to the last bit, and quicker.
        if (T.AllAbove(ratio, Far))
        {
            (value, slope) = (u, one);
            return;
        }
        var tail = Exp(-T.Abs(ratio));
        // One division serves the logarithm and the slope.
        var high = T.Of(Root2 - 1);
        var sum = one + tail;
        var log = T.WhereLess(tail, high, tail + T.Of(2), tail + T.Of(3));
        var both = one / (sum * log);
        var twice = Twice(T.WhereLess(tail, high, tail, tail - one) * (both * sum));
        value = T.MultiplyAdd(w, T.WhereLess(tail, high, twice, T.Of(Ln2) + twice), T.Max(u, T.Of(0)));
        var rising = both * log;
        slope = T.WhereLess(u, T.Of(0), tail * rising, rising);
    }

    /// <summary>eˣ for x up to 700; below −700 as at −700. Within two units of the last place.</summary>
    /// <remarks>x = k·ln 2 + r, |r| at most ½·ln 2; the series of eʳ to r¹³ (Cody and Waite, Software Manual for the Elementary Functions, 1980, ch. 6, with a plain series).</remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Exp<T>(T x) where T : unmanaged, ILane<T>
    {
        var bounded = T.Max(x, T.Of(Least));
        var shifted = T.MultiplyAdd(bounded, T.Of(Log2E), T.Of(Shifter));
        var k = shifted - T.Of(Shifter);
        var r = T.MultiplyAdd(k, T.Of(-LowLn2), T.MultiplyAdd(k, T.Of(-HighLn2), bounded));
        // In pairs, so that the multiplications do not wait for each other.
        var r2 = r * r;
        var r4 = r2 * r2;
        var a = T.MultiplyAdd(r2, T.MultiplyAdd(r, T.Of(1.0 / 6), T.Of(0.5)), T.MultiplyAdd(r, T.Of(1), T.Of(1)));
        var b = T.MultiplyAdd(r2, T.MultiplyAdd(r, T.Of(1.0 / 5040), T.Of(1.0 / 720)), T.MultiplyAdd(r, T.Of(1.0 / 120), T.Of(1.0 / 24)));
        var c = T.MultiplyAdd(r2, T.MultiplyAdd(r, T.Of(1.0 / 39916800), T.Of(1.0 / 3628800)), T.MultiplyAdd(r, T.Of(1.0 / 362880), T.Of(1.0 / 40320)));
        var d = T.MultiplyAdd(r, T.Of(1.0 / 6227020800), T.Of(1.0 / 479001600));
        var tail = T.MultiplyAdd(r4, T.MultiplyAdd(r4, d, c), b);
        return T.TimesPowerOfTwo(T.MultiplyAdd(r4, tail, a), shifted);
    }

    /// <summary>ln x for normal x above 0; NaN stays NaN. Within two units of the last place.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Log<T>(T x) where T : unmanaged, ILane<T>
    {
        var (m, e) = T.Split(x);
        var one = T.Of(1);
        var log = T.MultiplyAdd(e, T.Of(HighLn2), T.MultiplyAdd(e, T.Of(LowLn2), Twice((m - one) / (m + one))));
        return T.WhereLess(T.Of(0), x, log, x);
    }

    // 2·artanh z for |z| up to 0.1716 (Abramowitz and Stegun 4.6.33), to z²³.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Twice<T>(T z) where T : unmanaged, ILane<T>
    {
        var w = z * z;
        var w2 = w * w;
        var w4 = w2 * w2;
        var a = T.MultiplyAdd(w2, T.MultiplyAdd(w, T.Of(2.0 / 7), T.Of(2.0 / 5)), T.MultiplyAdd(w, T.Of(2.0 / 3), T.Of(2)));
        var b = T.MultiplyAdd(w2, T.MultiplyAdd(w, T.Of(2.0 / 15), T.Of(2.0 / 13)), T.MultiplyAdd(w, T.Of(2.0 / 11), T.Of(2.0 / 9)));
        var c = T.MultiplyAdd(w2, T.MultiplyAdd(w, T.Of(2.0 / 23), T.Of(2.0 / 21)), T.MultiplyAdd(w, T.Of(2.0 / 19), T.Of(2.0 / 17)));
        return z * T.MultiplyAdd(w4, T.MultiplyAdd(w4, c, b), a);
    }

    /// <summary>aˣ and aˣ⁻¹ for a of 0 or more and x above 1; both 0 at a = 0.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Power, T Less) PowerAndLess<T>(T a, T x) where T : unmanaged, ILane<T>
    {
        PowerLess(in a, in x, out var less);
        return (less * a, less);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void PowerLess<T>(in T a, in T x, out T less) where T : unmanaged, ILane<T>
    {
        // Beneath the smallest normal number the logarithm would give −∞ and 0·∞ a NaN.
        var safe = T.Max(a, T.Of(1e-300));
        less = Exp((x - T.Of(1)) * Log(safe));
    }
}

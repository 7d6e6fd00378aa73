namespace Lugbook.Circuit.Lanes;

/// <summary>A number that the engine computes with: one double, or several side by side that belong to several variants of a network.</summary>
/// <remarks>
/// Equations are written once over this interface; the compiler makes a scalar and a wide version of each. Comparisons give masks, so
/// that a branch becomes a choice between two computed values in every lane.
/// </remarks>
internal interface ILane<T> where T : unmanaged, ILane<T>
{
    /// <summary>How many variants one value holds.</summary>
    static abstract int Width { get; }
    static abstract T Of(double value);
    static abstract T operator +(T a, T b);
    static abstract T operator -(T a, T b);
    static abstract T operator -(T a);
    static abstract T operator *(T a, T b);
    static abstract T operator /(T a, T b);
    static abstract T Sqrt(T a);
    static abstract T Abs(T a);
    static abstract T Max(T a, T b);
    static abstract T Min(T a, T b);
    /// <summary><paramref name="below"/> where a is less than b, else <paramref name="else"/>; NaN counts as not less.</summary>
    static abstract T WhereLess(T a, T b, T below, T @else);
    /// <summary>Whether every lane is above a limit; NaN is not.</summary>
    static abstract bool AllAbove(T a, double limit);
    /// <summary>a·2ᵏ, k given as k + <see cref="LaneMath.Shifter"/>, whose last bits are the integer k. The result must be a normal number.</summary>
    static abstract T TimesPowerOfTwo(T a, T shifted);
    /// <summary>Mantissa from √½ to √2 and exponent of a normal number above 0.</summary>
    static abstract (T Mantissa, T Exponent) Split(T a);
    /// <summary>a·b + c.</summary>
    static abstract T MultiplyAdd(T a, T b, T c);
    /// <summary>The largest lane; NaN when any lane is NaN.</summary>
    static abstract double Largest(T a);
    /// <summary>One variant's number.</summary>
    static abstract double Lane(T a, int lane);
    /// <summary>The same value with one variant's number replaced.</summary>
    static abstract T WithLane(T a, int lane, double value);
}

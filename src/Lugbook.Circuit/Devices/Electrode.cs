using System.Runtime.CompilerServices;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Devices;

/// <summary>What the valves share: forward voltage of an electrode, a grid's current, the cathode's column.</summary>
internal static class Electrode
{
    /// <summary>max(v, 0) smoothed over about 0.1 V, the initial velocity of electrons, and its slope.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Volts, T Slope) Forward<T>(T v) where T : unmanaged, ILane<T> => LaneMath.SoftPlus(v, T.Of(0.1));

    /// <summary>a/√(a² + b²) with its derivatives by a and by b: rises from 0 to 1 where a passes b. b above 0.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Value, T ByA, T ByB) Rise<T>(T a, T b) where T : unmanaged, ILane<T>
    {
        var square = T.MultiplyAdd(a, a, b * b);
        var root = T.Sqrt(square);
        var cube = square * root;
        return (a / root, b * b / cube, -(a * b / cube));
    }

    /// <summary>K·S(u, w)ˣ/K with derivatives: power, by u at constant w, by w at constant u.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Power, T ByDrive, T ByWidth, T Drive, T DriveByU, T DriveByWidth) Space<T>(T u, T w, T x) where T : unmanaged, ILane<T>
    {
        var (s, slope) = LaneMath.SoftPlus(u, w);
        // S = w·f(u/w): dS/dw = f − (u/w)·f' = (S − u·slope)/w.
        var byWidth = (s - u * slope) / w;
        var (power, less) = LaneMath.PowerAndLess(s, x);
        var steep = x * less;
        return (power, steep * slope, steep * byWidth, s, slope, byWidth);
    }

    /// <summary>Current of a grid near or above its cathode: retarding field below, three-halves above; with its slope, and the smoothed drive.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (T Amperes, T Slope, T Drive, T DriveSlope) Grid<T>(T vg, T perveance, T contact, T width) where T : unmanaged, ILane<T>
    {
        var (s, slope) = LaneMath.SoftPlus(vg + contact, width);
        var root = T.Sqrt(s);
        return (perveance * s * root, T.Of(1.5) * perveance * root * slope, s, slope);
    }

    /// <summary>Completes a device: the cathode returns what the others take, and only differences of voltage count.</summary>
    /// <param name="i">Currents; the last, the cathode's, is written.</param>
    /// <param name="g">Derivatives; last column and last row are written.</param>
    public static void Close<T>(Span<T> i, Span<T> g) where T : unmanaged, ILane<T>
    {
        var n = i.Length;
        var last = n - 1;
        var sum = T.Of(0);
        for (var t = 0; t < last; t++) sum += i[t];
        i[last] = -sum;
        for (var c = 0; c < n; c++) g[last * n + c] = T.Of(0);
        for (var t = 0; t < last; t++)
        {
            var row = T.Of(0);
            for (var c = 0; c < last; c++)
            {
                row += g[t * n + c];
                g[last * n + c] -= g[t * n + c];
            }
            g[t * n + last] = -row;
            g[last * n + last] += row;
        }
    }
}

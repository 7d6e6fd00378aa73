using System.Runtime.Intrinsics;

namespace Lugbook.Circuit.Lanes;

/// <summary>Eight variants side by side, where the processor's registers hold them.</summary>
internal readonly struct Eight(Vector512<double> value) : ILane<Eight>
{
    public readonly Vector512<double> Value = value;

    public static int Width => 8;
    public static Eight Of(double value) => new(Vector512.Create(value));
    public static Eight operator +(Eight a, Eight b) => new(a.Value + b.Value);
    public static Eight operator -(Eight a, Eight b) => new(a.Value - b.Value);
    public static Eight operator -(Eight a) => new(-a.Value);
    public static Eight operator *(Eight a, Eight b) => new(a.Value * b.Value);
    public static Eight operator /(Eight a, Eight b) => new(a.Value / b.Value);
    public static Eight Sqrt(Eight a) => new(Vector512.Sqrt(a.Value));
    public static Eight Abs(Eight a) => new(Vector512.Abs(a.Value));
    public static Eight Max(Eight a, Eight b) => new(Vector512.Max(a.Value, b.Value));
    public static Eight Min(Eight a, Eight b) => new(Vector512.Min(a.Value, b.Value));
    public static Eight WhereLess(Eight a, Eight b, Eight below, Eight @else) =>
        new(Vector512.ConditionalSelect(Vector512.LessThan(a.Value, b.Value), below.Value, @else.Value));
    public static bool AllAbove(Eight a, double limit) => Vector512.GreaterThanAll(a.Value, Vector512.Create(limit));
    public static Eight TimesPowerOfTwo(Eight a, Eight shifted) => new((a.Value.AsInt64() + Vector512.ShiftLeft(shifted.Value.AsInt64(), 52)).AsDouble());
    public static (Eight Mantissa, Eight Exponent) Split(Eight a)
    {
        var exponent = Vector512.ShiftRightArithmetic(a.Value.AsInt64() - Vector512.Create(LaneMath.RootHalf), 52);
        return (new((a.Value.AsInt64() - Vector512.ShiftLeft(exponent, 52)).AsDouble()), new(Vector512.ConvertToDouble(exponent)));
    }
    public static Eight MultiplyAdd(Eight a, Eight b, Eight c) => new(Vector512.FusedMultiplyAdd(a.Value, b.Value, c.Value));
    public static double Largest(Eight a)
    {
        var (low, high) = (a.Value.GetLower(), a.Value.GetUpper());
        return Four.Largest(new(Vector256.Max(low, high)));
    }
    public static double Lane(Eight a, int lane) => a.Value[lane];
    public static Eight WithLane(Eight a, int lane, double value) => new(a.Value.WithElement(lane, value));
}

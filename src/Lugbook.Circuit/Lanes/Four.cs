using System.Runtime.Intrinsics;

namespace Lugbook.Circuit.Lanes;

/// <summary>Four variants side by side.</summary>
internal readonly struct Four(Vector256<double> value) : ILane<Four>
{
    public readonly Vector256<double> Value = value;

    public static int Width => 4;
    public static Four Of(double value) => new(Vector256.Create(value));
    public static Four operator +(Four a, Four b) => new(a.Value + b.Value);
    public static Four operator -(Four a, Four b) => new(a.Value - b.Value);
    public static Four operator -(Four a) => new(-a.Value);
    public static Four operator *(Four a, Four b) => new(a.Value * b.Value);
    public static Four operator /(Four a, Four b) => new(a.Value / b.Value);
    public static Four Sqrt(Four a) => new(Vector256.Sqrt(a.Value));
    public static Four Abs(Four a) => new(Vector256.Abs(a.Value));
    public static Four Max(Four a, Four b) => new(Vector256.Max(a.Value, b.Value));
    public static Four Min(Four a, Four b) => new(Vector256.Min(a.Value, b.Value));
    public static Four WhereLess(Four a, Four b, Four below, Four @else) =>
        new(Vector256.ConditionalSelect(Vector256.LessThan(a.Value, b.Value), below.Value, @else.Value));
    public static bool AllAbove(Four a, double limit) => Vector256.GreaterThanAll(a.Value, Vector256.Create(limit));
    public static Four TimesPowerOfTwo(Four a, Four shifted) => new((a.Value.AsInt64() + Vector256.ShiftLeft(shifted.Value.AsInt64(), 52)).AsDouble());
    public static (Four Mantissa, Four Exponent) Split(Four a)
    {
        var exponent = Vector256.ShiftRightArithmetic(a.Value.AsInt64() - Vector256.Create(LaneMath.RootHalf), 52);
        return (new((a.Value.AsInt64() - Vector256.ShiftLeft(exponent, 52)).AsDouble()), new(Vector256.ConvertToDouble(exponent)));
    }
    public static Four MultiplyAdd(Four a, Four b, Four c) => new(Vector256.FusedMultiplyAdd(a.Value, b.Value, c.Value));
    public static double Largest(Four a)
    {
        var v = a.Value;
        return Math.Max(Math.Max(v[0], v[1]), Math.Max(v[2], v[3]));
    }
    public static double Lane(Four a, int lane) => a.Value[lane];
    public static Four WithLane(Four a, int lane, double value) => new(a.Value.WithElement(lane, value));
}

namespace Lugbook.Circuit.Lanes;

/// <summary>One variant: a plain double.</summary>
internal readonly struct One(double value) : ILane<One>
{
    public readonly double Value = value;

    public static int Width => 1;
    public static One Of(double value) => new(value);
    public static One operator +(One a, One b) => new(a.Value + b.Value);
    public static One operator -(One a, One b) => new(a.Value - b.Value);
    public static One operator -(One a) => new(-a.Value);
    public static One operator *(One a, One b) => new(a.Value * b.Value);
    public static One operator /(One a, One b) => new(a.Value / b.Value);
    public static One Sqrt(One a) => new(Math.Sqrt(a.Value));
    public static One Abs(One a) => new(Math.Abs(a.Value));
    public static One Max(One a, One b) => new(Math.Max(a.Value, b.Value));
    public static One Min(One a, One b) => new(Math.Min(a.Value, b.Value));
    public static One WhereLess(One a, One b, One below, One @else) => a.Value < b.Value ? below : @else;
    public static bool AllAbove(One a, double limit) => a.Value > limit;
    public static One TimesPowerOfTwo(One a, One shifted) => new(BitConverter.Int64BitsToDouble(BitConverter.DoubleToInt64Bits(a.Value) + (BitConverter.DoubleToInt64Bits(shifted.Value) << 52)));
    public static (One Mantissa, One Exponent) Split(One a)
    {
        var bits = BitConverter.DoubleToInt64Bits(a.Value);
        var exponent = (bits - LaneMath.RootHalf) >> 52;
        return (new(BitConverter.Int64BitsToDouble(bits - (exponent << 52))), new(exponent));
    }
    public static One MultiplyAdd(One a, One b, One c) => new(Math.FusedMultiplyAdd(a.Value, b.Value, c.Value));
    public static double Largest(One a) => a.Value;
    public static double Lane(One a, int lane) => a.Value;
    public static One WithLane(One a, int lane, double value) => new(value);
}

namespace Lugbook.Restoration.Layout.Geometry;

/// <summary>An upright rectangle, mm; on the sheet y runs down.</summary>
public readonly record struct Box(double Left, double Top, double Right, double Bottom)
{
    /// <summary>Left to right, mm.</summary>
    public double Width => Right - Left;
    /// <summary>Top to bottom, mm.</summary>
    public double Height => Bottom - Top;
    /// <summary>Its middle.</summary>
    public Pt Centre => new((Left + Right) / 2, (Top + Bottom) / 2);

    /// <summary>The smallest box round some points; a point at the origin when there are none.</summary>
    public static Box Around(IEnumerable<Pt> points)
    {
        double l = double.MaxValue, t = double.MaxValue, r = double.MinValue, b = double.MinValue;
        foreach (var p in points)
        {
            l = Math.Min(l, p.X); r = Math.Max(r, p.X);
            t = Math.Min(t, p.Y); b = Math.Max(b, p.Y);
        }
        return l > r ? default : new(l, t, r, b);
    }
    /// <summary>A box about its middle.</summary>
    public static Box Of(Pt centre, double width, double height) =>
        new(centre.X - width / 2, centre.Y - height / 2, centre.X + width / 2, centre.Y + height / 2);
    /// <summary>Wider on every side by as much, mm.</summary>
    public Box Grown(double by) => new(Left - by, Top - by, Right + by, Bottom + by);
    /// <summary>The smallest box round both.</summary>
    public Box With(Box other) => new(Math.Min(Left, other.Left), Math.Min(Top, other.Top), Math.Max(Right, other.Right), Math.Max(Bottom, other.Bottom));
    /// <summary>Do both cover an area?</summary>
    public bool Meets(Box o) => Left < o.Right && o.Left < Right && Top < o.Bottom && o.Top < Bottom;
    /// <summary>Does a point lie in it or on its edge?</summary>
    public bool Holds(Pt p) => p.X >= Left && p.X <= Right && p.Y >= Top && p.Y <= Bottom;
    /// <summary>Area that both cover, mm².</summary>
    public double Shared(Box o) =>
        Math.Max(0, Math.Min(Right, o.Right) - Math.Max(Left, o.Left)) * Math.Max(0, Math.Min(Bottom, o.Bottom) - Math.Max(Top, o.Top));
    /// <summary>Distance from a point, 0 inside.</summary>
    public double DistanceTo(Pt p)
    {
        double dx = Math.Max(0, Math.Max(Left - p.X, p.X - Right)), dy = Math.Max(0, Math.Max(Top - p.Y, p.Y - Bottom));
        return Math.Sqrt(dx * dx + dy * dy);
    }
    /// <summary>Its four corners, in turn.</summary>
    public Pt[] Corners => [new(Left, Top), new(Right, Top), new(Right, Bottom), new(Left, Bottom)];
    /// <summary>Its sides, whatever the culture.</summary>
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Left:0.##} to {Right:0.##}, {Top:0.##} to {Bottom:0.##}");
}

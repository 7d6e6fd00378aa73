namespace Lugbook.Restoration.Layout.Geometry;

/// <summary>A point or a displacement in a plane, mm.</summary>
public readonly record struct Pt(double X, double Y)
{
    /// <summary>Both displacements, one after the other.</summary>
    public static Pt operator +(Pt a, Pt b) => new(a.X + b.X, a.Y + b.Y);
    /// <summary>The displacement from the second to the first.</summary>
    public static Pt operator -(Pt a, Pt b) => new(a.X - b.X, a.Y - b.Y);
    /// <summary>As many times as long.</summary>
    public static Pt operator *(Pt a, double k) => new(a.X * k, a.Y * k);
    /// <summary>Distance from the origin, mm.</summary>
    public double Length => Math.Sqrt(X * X + Y * Y);
    /// <summary>The same direction with length 1; to the right when the length is next to nothing.</summary>
    public Pt Unit => Length is var l && l > 1e-9 ? new(X / l, Y / l) : new(1, 0);
    /// <summary>A quarter turn from x towards y.</summary>
    public Pt Turned => new(-Y, X);
    /// <summary>Scalar product.</summary>
    public double Dot(Pt b) => X * b.X + Y * b.Y;
    /// <summary>Distance between two points, mm.</summary>
    public double To(Pt b) => (this - b).Length;
    /// <summary>Part of the way to another point: 0 here, 1 there.</summary>
    public Pt Towards(Pt b, double share) => new(X + (b.X - X) * share, Y + (b.Y - Y) * share);
    /// <summary>Mean of some points; the origin when there are none.</summary>
    public static Pt Mean(IReadOnlyCollection<Pt> points)
    {
        if (points.Count == 0) return default;
        double x = 0, y = 0;
        foreach (var p in points) { x += p.X; y += p.Y; }
        return new(x / points.Count, y / points.Count);
    }
    /// <summary>Distance from this point to the line segment a to b, mm.</summary>
    public double ToSegment(Pt a, Pt b)
    {
        double dx = b.X - a.X, dy = b.Y - a.Y, l2 = dx * dx + dy * dy;
        var t = l2 < 1e-12 ? 0 : Math.Clamp(((X - a.X) * dx + (Y - a.Y) * dy) / l2, 0, 1);
        double ex = X - a.X - t * dx, ey = Y - a.Y - t * dy;
        return Math.Sqrt(ex * ex + ey * ey);
    }

    /// <summary>"12.5, -3", whatever the culture. The generated text would go round in circles through <see cref="Unit"/>.</summary>
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{X:0.##}, {Y:0.##}");
}

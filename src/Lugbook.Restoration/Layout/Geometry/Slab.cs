namespace Lugbook.Restoration.Layout.Geometry;

/// <summary>A rectangle at any angle: what a body covers.</summary>
/// <param name="Centre">Its middle.</param>
/// <param name="Axis">Direction of its length; length 1.</param>
/// <param name="Length">Along the axis, mm.</param>
/// <param name="Width">Across it, mm.</param>
public readonly record struct Slab(Pt Centre, Pt Axis, double Length, double Width)
{
    /// <summary>Half of the diagonal: nothing of it lies farther from the centre.</summary>
    public double Reach => Math.Sqrt(Length * Length + Width * Width) / 2;
    /// <summary>A point by its place along and across the axis, from the centre.</summary>
    public Pt At(double along, double across) => Centre + Axis * along + Axis.Turned * across;
    /// <summary>Its four corners, in turn.</summary>
    public Pt[] Corners => [At(-Length / 2, -Width / 2), At(Length / 2, -Width / 2), At(Length / 2, Width / 2), At(-Length / 2, Width / 2)];
    /// <summary>Wider on every side by as much, mm.</summary>
    public Slab Grown(double by) => this with { Length = Length + 2 * by, Width = Width + 2 * by };

    /// <summary>Distance from a point to the rectangle; negative inside, by the depth.</summary>
    public double DistanceTo(Pt p)
    {
        double rx = p.X - Centre.X, ry = p.Y - Centre.Y;
        double dx = Math.Abs(rx * Axis.X + ry * Axis.Y) - Length / 2, dy = Math.Abs(ry * Axis.X - rx * Axis.Y) - Width / 2;
        return dx > 0 && dy > 0 ? Math.Sqrt(dx * dx + dy * dy) : Math.Max(dx, dy);
    }

    /// <summary>How deep two rectangles sit in each other, mm: the least shift that parts them; 0 when apart.</summary>
    /// <remarks>Separating axes of two rectangles.</remarks>
    public double DepthIn(in Slab o)
    {
        double dx = o.Centre.X - Centre.X, dy = o.Centre.Y - Centre.Y, reach = Reach + o.Reach;
        if (dx * dx + dy * dy >= reach * reach) return 0;
        double cos = Math.Abs(Axis.X * o.Axis.X + Axis.Y * o.Axis.Y), sin = Math.Abs(Axis.X * o.Axis.Y - Axis.Y * o.Axis.X);
        var depth = (Length + o.Length * cos + o.Width * sin) / 2 - Math.Abs(dx * Axis.X + dy * Axis.Y);
        depth = Math.Min(depth, (Width + o.Length * sin + o.Width * cos) / 2 - Math.Abs(dy * Axis.X - dx * Axis.Y));
        depth = Math.Min(depth, (o.Length + Length * cos + Width * sin) / 2 - Math.Abs(dx * o.Axis.X + dy * o.Axis.Y));
        depth = Math.Min(depth, (o.Width + Length * sin + Width * cos) / 2 - Math.Abs(dy * o.Axis.X - dx * o.Axis.Y));
        return Math.Max(0, depth);
    }

    /// <summary>Area that both cover, mm².</summary>
    /// <remarks>One rectangle is clipped by the four sides of the other.</remarks>
    public double SharedArea(in Slab o)
    {
        if (DepthIn(o) <= 0) return 0;
        List<Pt> kept = [.. Corners];
        foreach (var (normal, limit) in new[] { (o.Axis, o.Length / 2), (o.Axis * -1, o.Length / 2), (o.Axis.Turned, o.Width / 2), (o.Axis.Turned * -1, o.Width / 2) })
        {
            var next = new List<Pt>(kept.Count + 1);
            for (var i = 0; i < kept.Count; i++)
            {
                Pt a = kept[i], b = kept[(i + 1) % kept.Count];
                double da = (a - o.Centre).Dot(normal) - limit, db = (b - o.Centre).Dot(normal) - limit;
                if (da <= 0) next.Add(a);
                if (da < 0 && db > 0 || da > 0 && db < 0) next.Add(a.Towards(b, da / (da - db)));
            }
            kept = next;
        }
        double twice = 0;
        for (var i = 0; i < kept.Count; i++)
        {
            Pt a = kept[i], b = kept[(i + 1) % kept.Count];
            twice += a.X * b.Y - b.X * a.Y;
        }
        return Math.Abs(twice) / 2;
    }

    /// <summary>Its measures, whatever the culture.</summary>
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Length:0.##} by {Width:0.##} at {Centre}");
}

using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Drawing;

/// <summary>From the chassis (x right, y to the rear) to the sheet (x right, y down).</summary>
/// <remarks>An isometry: distances stay. Unmirrored the chassis is seen from beneath.</remarks>
internal readonly record struct View(bool Mirror, Turn Rotate)
{
    public Pt To(Pt p)
    {
        double x = Mirror ? -p.X : p.X, y = -p.Y;
        return Rotate switch { Turn.Quarter => new(-y, x), Turn.Half => new(-x, -y), Turn.ThreeQuarters => new(y, -x), _ => new(x, y) };
    }

    public Slab To(Slab s) => s with { Centre = To(s.Centre), Axis = To(s.Axis) };

    public Shape To(Shape shape) => shape switch
    {
        OutlineShape o => o with { Outline = o.Outline.Map(To) },
        DiscShape d => d with { Centre = To(d.Centre) },
        TextShape { Class: "sign-text" } t => t with { At = To(t.At) },
        TextShape t => t with { At = To(t.At), Direction = Upright(To(t.Direction)) },
        SignShape s => s with { At = To(s.At) },
        _ => shape,
    };

    public ImmutableArray<Shape> To(IEnumerable<Shape> shapes)
    {
        var view = this;
        return [.. shapes.Select(s => view.To(s))];
    }

    /// <summary>The same direction or its opposite, so that text reads from the left or from the bottom.</summary>
    public static Pt Upright(Pt d) => d.X < -1e-6 || Math.Abs(d.X) <= 1e-6 && d.Y > 0 ? d * -1 : d;
}

using Lugbook.Drawing;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Chassis.Templates;
using Lugbook.Web;

namespace Lugbook.Pages.Chassis;

/// <summary>What the hand needs to lay things: everything in chassis mm, and the way to the sheet.</summary>
/// <param name="Matrix">Sheet x = m0·x + m1·y, sheet y = m2·x + m3·y; an isometry.</param>
/// <param name="Edges">Left, front, right, rear of the chassis; null when nothing is measured.</param>
/// <param name="Grid">Grid, mm; 0 for none.</param>
/// <param name="Mounts">All mounts.</param>
/// <param name="Bodies">Bodies that may be laid by hand.</param>
/// <param name="Fresh">The mount that waits to be put down.</param>
/// <param name="Chosen">What is chosen.</param>
internal sealed record LayScene(double[] Matrix, double[]? Edges, double Grid, LayMount[] Mounts, LayBody[] Bodies, LayFresh? Fresh, LayChosen? Chosen)
{
    public static LayScene Of(ChassisLayout layout, bool mirror, Turn turn, double grid, MountTemplate? fresh, double freshTurn, (string Kind, string Name)? chosen)
    {
        var view = new View(mirror, turn);
        Pt right = view.To(new Pt(1, 0)), rear = view.To(new Pt(0, 1));
        return new([right.X, rear.X, right.Y, rear.Y], layout.Edges is { } e ? [e.Left, e.Top, e.Right, e.Bottom] : null, grid,
            [.. layout.Mounts.Select(m => (Figure: m, At: Placing.Of(m))).Select(m => new LayMount(m.Figure.Mount.Name, m.At.At.X, m.At.At.Y, m.At.Turn,
                [.. m.Figure.Mount.Lugs.Select(l => new[] { l.At.X, l.At.Y })], [.. m.Figure.Mount.Lugs.Select(l => l.Name)], [m.Figure.Extent.Width / 2, m.Figure.Extent.Height / 2]))],
            [.. layout.Bodies.Where(Placing.IsFree).Select(b => (Body: b, At: Placing.Of(b))).Select(b => new LayBody(b.Body.Part.Name, b.At.At.X, b.At.At.Y, b.At.Turn, [b.Body.Slab.Length / 2, b.Body.Slab.Width / 2]))],
            fresh is null ? null : Of(fresh, freshTurn), chosen is { } c ? new(c.Kind, c.Name) : null);
    }

    private static LayFresh Of(MountTemplate template, double turn)
    {
        var lugs = template.Place("x", 0, 0, turn).Lugs;
        var box = Box.Around(lugs.Select(l => new Pt(l.X!.Value, l.Y!.Value))).Grown(3);
        return new([.. lugs.Select(l => new[] { l.X!.Value, l.Y!.Value })], [box.Width / 2, box.Height / 2]);
    }
}

/// <summary>A mount: middle, turn, lugs, half of its width and depth as drawn.</summary>
internal sealed record LayMount(string Name, double X, double Y, double Turn, double[][] Lugs, string[] LugNames, double[] Half);

/// <summary>A body: middle, turn, half of its length and width.</summary>
internal sealed record LayBody(string Name, double X, double Y, double Turn, double[] Half);

/// <summary>A new mount: its lugs from its middle.</summary>
internal sealed record LayFresh(double[][] Lugs, double[] Half);

/// <summary>What is chosen: "mount" or "part", and its name.</summary>
internal sealed record LayChosen(string Kind, string Name);

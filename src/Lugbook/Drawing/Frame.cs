using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Drawing.Labels;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Drawing;

/// <summary>The sheet's ground: the chassis outline with its front edge, zones for what has no place, a scale bar.</summary>
/// <param name="Items">What is drawn, sheet mm.</param>
/// <param name="Bounds">The sheet.</param>
internal sealed record Frame(ImmutableArray<SceneItem> Items, Box Bounds)
{
    private const double Margin = 9;

    /// <summary>Where its texts stand: no label goes there.</summary>
    public IEnumerable<Box> Captions => Items.SelectMany(i => i.Shapes).OfType<TextShape>()
        .Select(t => TextWidth.Of(t.Text, t.Size) is var w && Math.Abs(t.Direction.Y) > 0.5 ? Box.Of(t.At, t.Size, w) : Box.Of(t.At, w, t.Size));

    public static Frame Of(ChassisLayout layout, View view, DrawingOptions options)
    {
        var shapes = ImmutableArray.CreateBuilder<Shape>();
        var points = new List<Pt>();
        points.AddRange(layout.Mounts.SelectMany(m => m.Extent.Corners));
        points.AddRange(layout.Bodies.SelectMany(b => b.Slab.Corners.Concat(b.Leads.SelectMany(l => l.Points))));
        points.AddRange(layout.Shared.SelectMany(s => s.Slab.Corners));
        points.AddRange(layout.Wires.Where(w => w.Course is not null).SelectMany(w => w.Course!.Points()));
        if (points.Count == 0) return Empty(layout.Edges);

        var edges = layout.Edges ?? (layout.Places.ProposedZone is { } zone ? new Box(Math.Min(0, zone.Left), 0, zone.Right + 8, zone.Bottom + 8) : null);
        if (edges is { } box)
        {
            shapes.Add(new OutlineShape(Outline.Smooth([.. box.Corners.Select(p => view.To(p))], 3, true), layout.Edges is null ? "chassis proposed" : "chassis"));
            Pt a = view.To(new Pt(box.Left, box.Top)), b = view.To(new Pt(box.Right, box.Top));
            shapes.Add(new OutlineShape(Outline.Line(a, b), "front-edge", null, true));
            points.AddRange(box.Corners);
        }
        if (layout.Edges is not null && layout.Places.ProposedZone is { } unplaced) Zone(unplaced.Grown(4), "not measured yet", "zone");
        if (layout.Tray is { } tray) Zone(tray, layout.Edges is null && layout.Mounts.Length == 0 ? "parts, on no lug yet" : "on no lug yet", "zone");
        void Zone(Box zone, string title, string look)
        {
            var on = Box.Around(zone.Corners.Select(p => view.To(p)));
            shapes.Add(new OutlineShape(Outline.Smooth(on.Corners, 3, true), look));
            shapes.Add(new TextShape(new(on.Left + TextWidth.Of(title, 3) / 2 + 1, on.Top - 2.4), title, 3, new(1, 0), "caption"));
            points.AddRange(zone.Grown(5).Corners);
        }

        var sheet = Box.Around(points.Select(p => view.To(p))).Grown(Margin);
        if (edges is { } e)
        {
            // The front edge's name stands outside the chassis, upright.
            Pt middle = view.To(new Pt((e.Left + e.Right) / 2, e.Top)), outwards = view.To(new Pt(0, -1));
            var title = options.Mirror ? "front edge · as seen from above" : "front edge · seen from beneath";
            const double reach = 12;   // clear of the shafts of controls
            var direction = Math.Abs(outwards.X) > 0.5 ? new Pt(0, -1) : new Pt(1, 0);
            shapes.Add(new TextShape(middle + outwards * reach, title, 3.4, direction, "caption"));
            sheet = sheet.With(Box.Of(middle + outwards * (reach + 2), 8, 8));
        }
        sheet = sheet with { Bottom = sheet.Bottom + 9 };
        // Scale bar, bottom left.
        var length = sheet.Width > 160 ? 50.0 : sheet.Width > 60 ? 20 : 10;
        Pt from = new(sheet.Left + 6, sheet.Bottom - 6), to = from + new Pt(length, 0);
        shapes.Add(new OutlineShape(Outline.Line(from + new Pt(0, -1.6), from, to, to + new Pt(0, -1.6)), "scale", null, true));
        shapes.Add(new TextShape(to + new Pt(8, -0.8), length.ToString("0", CultureInfo.InvariantCulture) + " mm", 2.8, new(1, 0), "caption"));
        return new([new SceneItem(ItemKind.Other, 0, "", "", "", shapes.ToImmutable())], sheet);
    }

    private static Frame Empty(Box? edges)
    {
        _ = edges;
        var sheet = new Box(-100, -60, 100, 60);
        return new([new SceneItem(ItemKind.Other, 0, "", "", "",
        [
            new OutlineShape(Outline.Smooth(sheet.Grown(-14).Corners, 4, true), "chassis proposed"),
            new TextShape(new(0, -5), "An empty chassis", 7, new(1, 0), "caption strong"),
            new TextShape(new(0, 5), "Enter a part or a lug, and it is drawn here.", 4.2, new(1, 0), "caption"),
        ])], sheet);
    }
}

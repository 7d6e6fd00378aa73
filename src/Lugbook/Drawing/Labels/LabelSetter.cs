using System.Collections.Immutable;
using Lugbook.Drawing.Bodies;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Layout.Mounts;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Drawing.Labels;

/// <summary>Names everything: notes at lugs, lug numbers, mounts, parts; in this order, because the first have the least choice.</summary>
internal sealed class LabelSetter
{
    private readonly ChassisLayout _layout;
    private readonly View _view;
    private readonly Highlight _high;
    private readonly LabelPlacer _placer;
    private readonly List<PlacedLabel> _placed = [];
    private readonly List<SceneItem> _items = [];

    public LabelSetter(ChassisLayout layout, View view, DrawingOptions options, IEnumerable<Box> captions, Highlight high)
    {
        (_layout, _view, _high) = (layout, view, high);
        var slabs = layout.Bodies.Where(b => b.Home is Home.Loose or Home.Tray).Select(b => view.To(b.Slab)).Concat(layout.Shared.Select(s => view.To(s.Slab)));
        _placer = new(layout.Places.Lugs.Select(l => (view.To(l.At), l.Radius)), slabs, Lines());
        if (!options.Layers.Contains(LayerNames.Labels)) return;
        foreach (var caption in captions) _placer.Block(caption);
        foreach (var (lug, note) in options.LugNotes.OrderBy(n => n.Key, StringComparer.Ordinal)) Note(lug, note);
        var hidden = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var valve in layout.Bodies.Where(b => b.Home == Home.Mount && b.Part.Kind == PartKind.Valve && !string.IsNullOrEmpty(b.Part.Marked)))
        {
            var face = valve.Slab with { Width = 3 };
            if (layout.Bodies.Any(b => b.Home == Home.Loose && b.Slab.DepthIn(face) > 0.4)) hidden[valve.Part.Name] = valve.Part.Marked!;
            else _placer.Block(Box.Of(view.To(valve.Slab.Centre), valve.Slab.Length, 3));
        }
        foreach (var mount in layout.Mounts) Numbers(mount);
        foreach (var mount in layout.Mounts) Name(mount, hidden.GetValueOrDefault(mount.Mount.Name));
        foreach (var shared in layout.Shared)
            Set(new(shared.Name, [shared.Name], 3, "label group-name", LabelSpots.RoundBody(view.To(shared.Slab), (TextWidth.Of(shared.Name, 3), 3))), "group");
        // Crowded parts first: they have the fewest places.
        foreach (var body in layout.Bodies.OrderBy(b => b.Home == Home.Mount ? 1 : 0).ThenBy(b => b.Slab.Length * b.Slab.Width)) Part(body);
    }

    public IReadOnlyList<PlacedLabel> Placed => _placed;
    public int Dropped { get; private set; }
    public IEnumerable<SceneItem> Items => _items;

    /// <summary>Points along what a label would rather not stand on.</summary>
    private IEnumerable<(Pt, double)> Lines()
    {
        foreach (var body in _layout.Bodies)
            foreach (var lead in body.Leads)
            {
                var points = lead.Points;
                for (var i = 1; i < points.Count; i++)
                    foreach (var p in Along(points[i - 1], points[i])) yield return (_view.To(p), 0.45);
            }
        foreach (var wire in _layout.Wires)
        {
            if (wire.Mark is { } mark) yield return (_view.To(mark.At + WirePainter.BondDirection(mark, _layout) * (mark.Radius + 1.6)), 1.5);
            if (wire.Course is not { } course) continue;
            var points = course.Points(4);
            for (var i = 1; i < points.Count; i++)
                foreach (var p in Along(points[i - 1], points[i])) yield return (_view.To(p), 0.2);
        }
    }

    private static IEnumerable<Pt> Along(Pt a, Pt b)
    {
        var n = (int)Math.Clamp(a.To(b) / 1.2, 1, 400);
        for (var k = 0; k < n; k++) yield return a.Towards(b, (k + 0.5) / n);
    }

    private void Note(string lug, string note)
    {
        if (_layout.Places.Find(lug) is not { } placed) return;
        var mount = _layout.Mounts.First(m => m.Mount.Lugs.Contains(placed));
        var r = new LabelRequest(lug, [note], 2.6, "label note", []);
        Set(r with { Spots = LabelSpots.RoundLug(_view.To(placed.At), placed.Radius, Outwards(mount, placed), r.Extent, mount.AlongAxis is not null) }, "lug");
    }

    private void Numbers(MountFigure mount)
    {
        if (mount.Mount.Kind is MountKind.Chassis or MountKind.EarthLug || mount.Mount.Lugs.Length == 1 && mount.Mount.Lugs[0].No is null or 1) return;
        foreach (var lug in mount.Mount.Lugs)
        {
            var text = lug.ShortName;
            if (text.Length > 6) text = text[..6];
            var size = lug.Radius >= 1.1 ? 2.1 : 1.7;
            var r = new LabelRequest(lug.Name, [text], size, "label lug-no", []);
            Set(r with { Spots = LabelSpots.RoundLug(_view.To(lug.At), lug.Radius, Outwards(mount, lug), r.Extent, mount.AlongAxis is not null) }, "lug", 14);
        }
    }

    private Pt Outwards(MountFigure mount, PlacedLug lug)
    {
        Pt d;
        if (mount.AlongAxis is { } axis) d = axis.Turned * ((lug.At - mount.Centre).Dot(axis.Turned) >= -0.5 ? -1 : 1);
        else
        {
            d = lug.At - mount.Centre;
            d = d.Length < 0.5 ? new(0, -1) : d.Unit;
        }
        return _view.To(d);
    }

    /// <param name="mount">The mount.</param>
    /// <param name="valve">The valve's type, when parts cover it in the middle of the socket.</param>
    private void Name(MountFigure mount, string? valve)
    {
        var big = mount.Mount.Kind.IsSocket();
        var size = big ? 4.2 : mount.Mount.Lugs.Length <= 1 ? 2.6 : 3.6;
        var r = new LabelRequest(mount.Mount.Name, valve is null ? [Cut(mount.Mount.Name, 12)] : [Cut(mount.Mount.Name, 12), Cut(valve, 12)], size, big ? "label mount-name socket" : "label mount-name", []);
        var on = Box.Around(mount.Extent.Corners.Select(p => _view.To(p)));
        var (width, height) = r.Extent;
        var fits = !big && mount.Face.Width > width && mount.Face.Height > height;
        Set(r with { Spots = LabelSpots.RoundBox(on, r.Extent, fits) }, "mount");
    }

    private void Part(PlacedBody body)
    {
        var part = body.Part;
        if (body.Home == Home.Mount && (part.Kind == PartKind.Valve || NamedByMount(body))) return;
        if (body.Home == Home.Shared && body.Form.Look == Look.Block) return;   // its name is printed on it
        var value = BodyPainter.Prints(body) || body.Home is Home.Mount or Home.Shared ? null : Words.Short(part);
        var slab = _view.To(body.Slab);
        var small = body.Home is Home.Mount or Home.Shared;
        string name = Cut(part.Name, 12);
        foreach (var (lines, size, limit) in Variants(name, value, small))
        {
            var r = new LabelRequest(part.Name, lines, size, small ? "label part-name small" : "label part-name", []);
            if (Set(r with { Spots = LabelSpots.RoundBody(slab, r.Extent) }, "part", limit, countDrop: false)) return;
        }
        Dropped++;
    }

    /// <summary>One line, two lines, the name alone, and that at any cost: from the best to read to the least that helps.</summary>
    private static IEnumerable<(string[] Lines, double Size, double Limit)> Variants(string name, string? value, bool small)
    {
        if (small) { yield return ([name], 2, 30); yield break; }
        if (value is not null)
        {
            yield return ([name + " " + value], 2.9, 2.2);
            yield return ([name, value], 2.9, 5);
            yield return ([name + " " + value], 2.5, 5);
        }
        yield return ([name], 2.9, 6);
        yield return ([name], 2.4, double.MaxValue);
    }

    /// <summary>A part that is its mount's only one and bears its name needs no second label.</summary>
    private static bool NamedByMount(PlacedBody body) =>
        body.Leads.Length > 0 && body.Leads[0].Lug is { } lug && string.Equals(lug.Mount, body.Part.Name, StringComparison.OrdinalIgnoreCase);

    private bool Set(LabelRequest request, string subject, double limit = double.MaxValue, bool countDrop = true)
    {
        if (_placer.Place(request, limit) is not { } label)
        {
            if (countDrop) Dropped++;
            return false;
        }
        _placed.Add(label);
        var shapes = ImmutableArray.CreateBuilder<Shape>();
        var (_, height) = request.Extent;
        for (var i = 0; i < request.Lines.Length; i++)
            shapes.Add(new TextShape(label.At, request.Lines[i], request.Size * (i == 0 ? 1 : LabelRequest.SecondLine), new(1, 0), request.Class + (i == 0 ? "" : " value"))
            {
                Above = request.Lines.Length == 1 ? 0 : i == 0 ? height * 0.25 : -height * 0.25,
            });
        var stands = subject switch { "lug" => _high.Lugs, "part" => _high.Parts, "mount" => _high.Mounts, _ => null };
        _items.Add(new(ItemKind.Other, 0, request.Subject, subject, stands?.Contains(request.Subject) == true ? "hl" : "", shapes.ToImmutable()));
        return true;
    }

    private static string Cut(string text, int most) => text.Length <= most ? text : text[..(most - 1)] + "…";
}

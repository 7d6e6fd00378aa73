using System.Collections.Immutable;
using Lugbook.Drawing.Bodies;
using Lugbook.Drawing.Labels;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;

namespace Lugbook.Drawing;

/// <summary>A layout seen from one side: layers of items, labels set for this view.</summary>
internal sealed class Sheet
{
    private readonly Book _book;
    private readonly ChassisLayout _layout;
    private readonly View _view;
    private readonly DrawingOptions _options;
    private readonly Highlight _high;
    private readonly LabelSetter _labels;

    public Sheet(Book book, ChassisLayout layout, View view, DrawingOptions options, Highlight high)
    {
        (_book, _layout, _view, _options, _high) = (book, layout, view, options, high);
        var edge = Frame.Of(layout, view, options);
        _labels = new LabelSetter(layout, view, options, edge.Captions, high);
        Layers =
        [
            Layer(LayerNames.Chassis, () => edge.Items),
            Layer(LayerNames.Mounts, Mounts),
            Layer(LayerNames.Wires, Wires),
            Layer(LayerNames.Parts, Parts),
            Layer(LayerNames.Lugs, Lugs),
            Layer(LayerNames.Labels, () => [.. _labels.Items]),
            Layer(LayerNames.Highlight, Rings),
        ];
        Bounds = edge.Bounds.With(Box.Around(_labels.Placed.SelectMany(l => l.Box.Corners).DefaultIfEmpty(edge.Bounds.Centre)).Grown(2));
    }

    public ImmutableArray<SceneLayer> Layers { get; }
    public Box Bounds { get; }

    private SceneLayer Layer(string name, Func<ImmutableArray<SceneItem>> items) => new(name, _options.Layers.Contains(name) ? items() : []);

    private static string With(string words, bool high) => high ? (words.Length == 0 ? "hl" : words + " hl") : words;

    private ImmutableArray<SceneItem> Mounts() =>
        [.. _layout.Mounts.Select(m => new SceneItem(ItemKind.Mount, m.Mount.Id, m.Mount.Name, Words.Of(m.Mount),
            With(m.Mount.Measured ? "" : "proposed", _high.Mounts.Contains(m.Mount.Name)), _view.To(m.Shapes)))];

    private ImmutableArray<SceneItem> Wires()
    {
        var items = ImmutableArray.CreateBuilder<SceneItem>();
        // Long wires run below short ones.
        foreach (var w in _layout.Wires.Select((w, i) => (w, i)).OrderByDescending(p => p.w.Course is { } c ? Box.Around([c.Strokes[0].To, c.Strokes[^1].To]) is var b ? b.Width + b.Height : 0 : 0).ThenBy(p => p.i).Select(p => p.w))
            items.Add(new(ItemKind.Wire, w.Wire.Id, w.Wire.Name, Words.Of(w.Wire), With(w.Wire.Kind.ToString().ToLowerInvariant(), _high.Wires.Contains(w.Wire.Name)),
                _view.To(WirePainter.Shapes(w, _layout))));
        return items.ToImmutable();
    }

    private ImmutableArray<SceneItem> Parts()
    {
        var items = ImmutableArray.CreateBuilder<SceneItem>();
        foreach (var shared in _layout.Shared)
            items.Add(new(ItemKind.Group, 0, shared.Name, $"{shared.Name}, one body of {shared.Members.Length} parts", "",
                _view.To([new OutlineShape(Outline.Rounded(shared.Slab, 1.2), shared.IsIron ? "iron" : "body block")])));
        // Large bodies first, so that none is buried under a larger one.
        foreach (var body in _layout.Bodies.Select((b, i) => (b, i)).OrderByDescending(p => p.b.Slab.Length * p.b.Slab.Width).ThenBy(p => p.i).Select(p => p.b))
        {
            var work = _options.ShowWork ? Words.State(_book.Work.Named(body.Part.Name)) : WorkState.None;
            var shapes = BodyPainter.Shapes(body);
            if (work != WorkState.None) shapes = shapes.AddRange(WorkMarks.Of(body, work));
            var look = body.Home.ToString().ToLowerInvariant() + (work == WorkState.None ? "" : " work-" + work.ToString().ToLowerInvariant());
            items.Add(new(ItemKind.Part, body.Part.Id, body.Part.Name, Words.Of(body.Part, work), With(look, _high.Parts.Contains(body.Part.Name)), _view.To(shapes)));
        }
        return items.ToImmutable();
    }

    private ImmutableArray<SceneItem> Lugs()
    {
        var leads = _book.Parts.SelectMany(p => p.Leads).GroupBy(l => l.Lug, StringComparer.OrdinalIgnoreCase)
            .ToDictionary(g => g.Key, g => g.Count(), StringComparer.OrdinalIgnoreCase);
        foreach (var w in _book.Wires)
            foreach (var lug in new[] { w.From, w.To })
                if (w.Kind != WireKind.Bond && lug is not null) leads[lug] = leads.GetValueOrDefault(lug) + 1;
        return [.. _layout.Places.Lugs.Select(l => new SceneItem(ItemKind.Lug, l.Id, l.Name, Words.Of(l, leads.GetValueOrDefault(l.Name)),
            With(l.Measured ? l.IsFoot ? "foot" : "" : "proposed", _high.Lugs.Contains(l.Name)), _view.To(
            [
                new DiscShape(l.At, Math.Min(3.2, l.Radius * 1.8), "hit"),
                new DiscShape(l.At, l.Radius, "lug"),
                new DiscShape(l.At, l.Radius * 0.42, "hole"),
            ])))];
    }

    private ImmutableArray<SceneItem> Rings()
    {
        var shapes = ImmutableArray.CreateBuilder<Shape>();
        foreach (var lug in _layout.Places.Lugs.Where(l => _high.Lugs.Contains(l.Name))) shapes.Add(new DiscShape(lug.At, lug.Radius + 1.1, "ring"));
        foreach (var body in _layout.Bodies.Where(b => _high.Parts.Contains(b.Part.Name) && b.Home != Home.Mount))
            shapes.Add(new OutlineShape(Outline.Rounded(body.Slab.Grown(0.9), 1.2), "ring"));
        foreach (var mount in _layout.Mounts.Where(m => _high.Mounts.Contains(m.Mount.Name)))
            shapes.Add(new OutlineShape(Outline.Rounded(new(mount.Extent.Centre, new(1, 0), mount.Extent.Width + 3, mount.Extent.Height + 3), 3), "ring"));
        if (_options.Probes is var (red, black) && _layout.Places.Find(red) is { } r && _layout.Places.Find(black) is { } b) shapes.AddRange(ProbeMarks.Of(r.At, b.At, Math.Max(r.Radius, b.Radius)));
        return shapes.Count == 0 ? [] : [new SceneItem(ItemKind.Other, 0, "", "", "", _view.To(shapes))];
    }

    public DrawingMeasures Measure()
    {
        var loose = _layout.Bodies.Where(b => b.Home is Home.Loose).Select(b => b.Slab).Concat(_layout.Shared.Select(s => s.Slab)).ToArray();
        double overlap = 0;
        for (var i = 0; i < loose.Length; i++)
            for (var j = i + 1; j < loose.Length; j++)
                if (loose[i].Centre.To(loose[j].Centre) < loose[i].Reach + loose[j].Reach) overlap += loose[i].SharedArea(loose[j]);
        var covered = _layout.Places.Lugs.Sum(l => loose.Count(s => s.DistanceTo(l.At) < 0));
        var onLugs = _labels.Placed.Count(p => _layout.Places.Lugs.Any(l => p.Box.DistanceTo(_view.To(l.At)) < l.Radius));
        return new(loose.Length, overlap, loose.Sum(s => s.Length * s.Width), covered, onLugs, _labels.Dropped, _labels.Placed.Count);
    }
}

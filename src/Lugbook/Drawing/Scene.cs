using System.Collections.Frozen;
using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Drawing;

/// <summary>What an item of the scene stands for.</summary>
public enum ItemKind
{
    /// <summary>Nothing of the book: a scale bar, a legend.</summary>
    Other,
    /// <summary>A lug.</summary>
    Lug,
    /// <summary>A part.</summary>
    Part,
    /// <summary>A wire or a bond.</summary>
    Wire,
    /// <summary>A mount.</summary>
    Mount,
    /// <summary>A body that several parts share and that is no mount.</summary>
    Group,
}

/// <summary>One thing of the scene.</summary>
/// <param name="Kind">What it stands for.</param>
/// <param name="Id">Identity of its row; 0 when it is not in the book (a lug that only a part names).</param>
/// <param name="Name">Its name in the book.</param>
/// <param name="Words">It in words, for a pointer and for a screen reader.</param>
/// <param name="Class">Words for the style sheet.</param>
/// <param name="Shapes">What is drawn, from below to above.</param>
public sealed record SceneItem(ItemKind Kind, int Id, string Name, string Words, string Class, ImmutableArray<Shape> Shapes);

/// <summary>One layer, from below to above.</summary>
/// <param name="Name">"chassis", "mounts", "wires", "parts", "lugs", "labels" or "highlight".</param>
/// <param name="Items">Its things, from below to above.</param>
public sealed record SceneLayer(string Name, ImmutableArray<SceneItem> Items);

/// <summary>A chassis drawn: shapes on a sheet, in millimetres of the chassis.</summary>
public sealed record Scene
{
    /// <summary>The sheet.</summary>
    public required Box Bounds { get; init; }
    /// <summary>Title of the drawing.</summary>
    public required string Title { get; init; }
    /// <summary>What is seen, in a sentence.</summary>
    public required string Description { get; init; }
    /// <summary>Layers from below to above.</summary>
    public required ImmutableArray<SceneLayer> Layers { get; init; }
    /// <summary>Where each lug is, by name without case: to zoom to.</summary>
    public required FrozenDictionary<string, Box> LugBoxes { get; init; }
    /// <summary>Where each part is, leads included.</summary>
    public required FrozenDictionary<string, Box> PartBoxes { get; init; }
    /// <summary>Where each mount is, lugs included.</summary>
    public required FrozenDictionary<string, Box> MountBoxes { get; init; }
    /// <summary>Where each wire runs.</summary>
    public required FrozenDictionary<string, Box> WireBoxes { get; init; }
    /// <summary>True when something is highlighted: all else is drawn faintly.</summary>
    public bool Dims { get; init; }
    /// <summary>How crowded it is.</summary>
    public required DrawingMeasures Measures { get; init; }

    /// <summary>The scene cut down to a part of its sheet: what lies wholly outside is left out.</summary>
    public Scene Cropped(Box box) => this with
    {
        Bounds = box,
        Layers = [.. Layers.Select(l => l with { Items = [.. l.Items.Where(i => Box.Around([.. i.Shapes.SelectMany(Points)]).Meets(box))] })],
    };

    private static IEnumerable<Pt> Points(Shape shape) => shape switch
    {
        OutlineShape o => o.Outline.Strokes.Where(s => s.Step != Step.Close).SelectMany(s => s.Step == Step.Curve ? new[] { s.To, s.C1, s.C2 } : [s.To]),
        DiscShape d => Box.Of(d.Centre, 2 * d.Radius, 2 * d.Radius).Corners,
        TextShape t => Box.Of(t.At, t.Text.Length * t.Size * 0.6, 2 * t.Size).Corners,
        SignShape s => s.Points.Select(p => s.At + p),
        _ => [],
    };

    /// <summary>The part of the sheet that shows these lugs, parts and mounts, with a margin in mm; the whole sheet when none is known.</summary>
    public Box Region(IEnumerable<string> names, double margin = 12)
    {
        Box? found = null;
        foreach (var name in names)
            foreach (var boxes in new[] { LugBoxes, PartBoxes, MountBoxes })
                if (boxes.TryGetValue(name, out var box)) found = found?.With(box) ?? box;
        return found?.Grown(margin) ?? Bounds;
    }
}

/// <summary>How crowded a drawing is: measured on what was drawn.</summary>
/// <param name="Bodies">Bodies of loose parts.</param>
/// <param name="OverlapArea">Area where two bodies lie on each other, mm².</param>
/// <param name="BodyArea">Area of all bodies, mm².</param>
/// <param name="BodiesOnLugs">Bodies that cover the middle of a lug.</param>
/// <param name="LabelsOnLugs">Labels that touch a lug.</param>
/// <param name="LabelsDropped">Labels for which there was no place.</param>
/// <param name="Labels">Labels placed.</param>
public sealed record DrawingMeasures(int Bodies, double OverlapArea, double BodyArea, int BodiesOnLugs, int LabelsOnLugs, int LabelsDropped, int Labels);

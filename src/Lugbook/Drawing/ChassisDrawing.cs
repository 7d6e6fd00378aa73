using System.Collections.Frozen;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Map;
using Lugbook.Trade;

namespace Lugbook.Drawing;

/// <summary>Draws a chassis from its book: plan view, to scale, in millimetres.</summary>
public static class ChassisDrawing
{
    /// <summary>Pure: the same book, map and options, the same scene. Never throws on a book, however little of it is known.</summary>
    /// <param name="book">The book.</param>
    /// <param name="map">What is joined to what; null to draw without it, and then a node is as much as one lug.</param>
    /// <param name="options">What is to be seen, and from where.</param>
    public static Scene Draw(Book book, MapResult? map, DrawingOptions options)
    {
        var layout = LayoutStage.Run(book);
        var view = new View(options.Mirror, options.Rotate);
        var high = Highlight.Of(book, map, layout.Places, options);
        var sheet = new Sheet(book, layout, view, options, high);

        var measured = layout.Places.AnyMeasured;
        var nothing = layout.Places.Mounts.Length == 0 && layout.Bodies.Length == 0;
        return new()
        {
            Bounds = sheet.Bounds,
            Title = book.Facts.Title,
            Description = nothing ? "Nothing is entered yet: lugs and parts appear here as they are entered."
                : $"{book.Facts.Title}, chassis {(options.Mirror ? "as seen from above" : "seen from beneath")}{(measured ? "" : ", places proposed, not measured")}.",
            Layers = sheet.Layers,
            LugBoxes = Boxes(layout.Places.Lugs, l => l.Name, l => Box.Of(view.To(l.At), 2 * l.Radius, 2 * l.Radius)),
            PartBoxes = Boxes(layout.Bodies, b => b.Part.Name, b => Box.Around([.. b.Slab.Corners.Select(p => view.To(p)), .. b.Leads.SelectMany(l => l.Points).Select(p => view.To(p))])),
            MountBoxes = Boxes(layout.Mounts, m => m.Mount.Name, m => Box.Around([.. m.Extent.Corners.Select(p => view.To(p)), .. m.Mount.Lugs.Select(l => view.To(l.At))])),
            WireBoxes = Boxes(layout.Wires.Where(w => w.Course is not null || w.Mark is not null), w => w.Wire.Name,
                w => w.Course is { } c ? Box.Around(c.Points().Select(p => view.To(p))) : Box.Of(view.To(w.Mark!.At), 6, 6)),
            Dims = high.Any,
            Measures = sheet.Measure(),
        };
    }

    /// <summary>The first of each name stands, as it does in the book's tables.</summary>
    private static FrozenDictionary<string, Box> Boxes<T>(IEnumerable<T> items, Func<T, string> name, Func<T, Box> box)
    {
        var boxes = new Dictionary<string, Box>(StringComparer.OrdinalIgnoreCase);
        foreach (var item in items) boxes.TryAdd(name(item), box(item));
        return boxes.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);
    }
}

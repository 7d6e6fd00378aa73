using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Drawing.Labels;

/// <summary>A label to be set; sheet millimetres.</summary>
/// <param name="Subject">What it belongs to: a lug, a part or a mount by name.</param>
/// <param name="Lines">One line, or two: the first is the name.</param>
/// <param name="Size">Height of the first line's type, mm; the second is a little smaller.</param>
/// <param name="Class">Words for the style sheet.</param>
/// <param name="Spots">Places for its middle, best first, each with what it costs.</param>
internal sealed record LabelRequest(string Subject, string[] Lines, double Size, string Class, IEnumerable<(Pt At, double Cost)> Spots)
{
    /// <summary>Size of the second line, as a share of the first.</summary>
    public const double SecondLine = 0.78;

    /// <summary>Its box when its middle is at the origin.</summary>
    public (double Width, double Height) Extent => (Lines.Select((l, i) => TextWidth.Of(l, Size * (i == 0 ? 1 : SecondLine))).Max() + 0.3, Lines.Length == 1 ? Size * 0.95 : Size * 1.85);
}

/// <summary>A label with its place.</summary>
internal sealed record PlacedLabel(LabelRequest Request, Pt At)
{
    public Box Box => Box.Of(At, Request.Extent.Width, Request.Extent.Height);
}

/// <summary>Sets labels one after another where they cost least. A label never covers a lug or another label; it would rather not stand on a body or a lead.</summary>
internal sealed class LabelPlacer
{
    private const double Cell = 12;
    private readonly Dictionary<(long, long), List<Box>> _labels = [];
    private readonly Dictionary<(long, long), List<int>> _slabCells = [];
    private readonly List<Slab> _slabs;
    private readonly PointGrid<(Pt At, double Radius)> _lugs;
    private readonly PointGrid<(Pt At, double Weight)> _lines;

    /// <param name="lugs">Lugs with the radius that no label enters.</param>
    /// <param name="slabs">Bodies.</param>
    /// <param name="lines">Points along leads and wires, each with what it costs to stand on it.</param>
    public LabelPlacer(IEnumerable<(Pt At, double Radius)> lugs, IEnumerable<Slab> slabs, IEnumerable<(Pt At, double Weight)> lines)
    {
        _lugs = new(lugs, l => l.At);
        _lines = new(lines, l => l.At);
        _slabs = [.. slabs];
        for (var i = 0; i < _slabs.Count; i++)
            foreach (var key in Cells(Box.Around(_slabs[i].Corners)))
            {
                if (!_slabCells.TryGetValue(key, out var list)) _slabCells[key] = list = [];
                list.Add(i);
            }
    }

    /// <summary>Places a label, or gives null when every spot covers a lug or another label, or costs more than <paramref name="limit"/>.</summary>
    public PlacedLabel? Place(LabelRequest request, double limit = double.MaxValue)
    {
        var (width, height) = request.Extent;
        Pt? best = null;
        var least = limit;
        foreach (var (at, cost) in request.Spots)
        {
            if (cost >= least) continue;
            var box = Box.Of(at, width, height);
            if (Blocked(box)) continue;
            var total = cost + Crowding(box, least - cost);
            if (total < least - 1e-9) (least, best) = (total, at);
        }
        if (best is null) return null;
        var placed = new PlacedLabel(request, best.Value);
        Block(placed.Box);
        return placed;
    }

    /// <summary>Keeps labels off a box.</summary>
    public void Block(Box box)
    {
        foreach (var key in Cells(box))
        {
            if (!_labels.TryGetValue(key, out var list)) _labels[key] = list = [];
            list.Add(box);
        }
    }

    private bool Blocked(Box box)
    {
        foreach (var ((at, radius), _) in _lugs.In(box.Grown(3)))
            if (box.DistanceTo(at) < radius + 0.15) return true;
        foreach (var key in Cells(box))
            if (_labels.TryGetValue(key, out var list))
                foreach (var other in list)
                    if (other.Meets(box)) return true;
        return false;
    }

    private double Crowding(Box box, double limit)
    {
        var slab = new Slab(box.Centre, new(1, 0), box.Width, box.Height);
        double cost = 0;
        HashSet<int>? seen = null;
        foreach (var key in Cells(box))
            if (_slabCells.TryGetValue(key, out var list))
                foreach (var i in list)
                    if ((seen ??= []).Add(i) && slab.DepthIn(_slabs[i]) is > 0 and var depth)
                    {
                        cost += 1.5 + 2.5 * depth;
                        if (cost > limit) return cost;
                    }
        foreach (var ((_, weight), _) in _lines.In(box)) cost += weight;
        return cost;
    }

    private static IEnumerable<(long, long)> Cells(Box box)
    {
        for (var i = (long)Math.Floor(box.Left / Cell); i <= (long)Math.Floor(box.Right / Cell); i++)
            for (var j = (long)Math.Floor(box.Top / Cell); j <= (long)Math.Floor(box.Bottom / Cell); j++)
                yield return (i, j);
    }
}

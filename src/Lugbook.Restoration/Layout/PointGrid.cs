using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Restoration.Layout;

/// <summary>Things found by place: squares of 10 mm.</summary>
public sealed class PointGrid<T>
{
    private const double Cell = 10;
    private readonly Dictionary<(long, long), List<(T Item, Pt At)>> _cells = [];
    private readonly List<(T Item, Pt At)> _all = [];

    /// <summary>Items, each at its place.</summary>
    public PointGrid(IEnumerable<T> items, Func<T, Pt> at)
    {
        foreach (var item in items) Add(item, at(item));
    }

    private void Add(T item, Pt at)
    {
        var key = (Of(at.X), Of(at.Y));
        if (!_cells.TryGetValue(key, out var list)) _cells[key] = list = [];
        list.Add((item, at));
        _all.Add((item, at));
    }

    /// <summary>What lies within a distance of a point.</summary>
    public IEnumerable<T> Near(Pt p, double within)
    {
        foreach (var item in In(new(p.X - within, p.Y - within, p.X + within, p.Y + within)))
            if (item.At.To(p) <= within) yield return item.Item;
    }

    /// <summary>What lies in a box.</summary>
    public IEnumerable<(T Item, Pt At)> In(Box box)
    {
        // A box larger than the whole is looked through item by item, not square by square.
        if ((box.Width / Cell + 1) * (box.Height / Cell + 1) > _all.Count)
        {
            foreach (var item in _all)
                if (box.Holds(item.At)) yield return item;
            yield break;
        }
        for (var i = Of(box.Left); i <= Of(box.Right); i++)
            for (var j = Of(box.Top); j <= Of(box.Bottom); j++)
                if (_cells.TryGetValue((i, j), out var list))
                    foreach (var item in list)
                        if (box.Holds(item.At)) yield return item;
    }

    private static long Of(double v) => (long)Math.Floor(v / Cell);
}

using Lugbook.Restoration.Layout.Geometry;

namespace Lugbook.Restoration.Layout;

/// <summary>Proposes where mounts might stand when nobody has measured them: on shelves, in an order that keeps what is joined together.</summary>
/// <remarks>
/// Starts with the order of the book and exchanges two mounts whenever that shortens all connections together; deterministic,
/// with a bounded number of trials, so that a big book costs no more than a few milliseconds.
/// </remarks>
internal static class FirstLayout
{
    private const int Trials = 12_000;   // shelf layouts tried, divided by the number of mounts below

    /// <param name="sizes">Width and depth of each mount, room for parts included, mm.</param>
    /// <param name="links">Pairs of mounts that a part or a wire joins, one entry for each.</param>
    /// <param name="start">Front left corner.</param>
    /// <param name="depth">Depth to fill, mm; 0 for about as wide as deep.</param>
    /// <returns>The middle of each mount, and what all take up.</returns>
    public static (Pt[] Middles, Box Zone) Of(IReadOnlyList<(double Width, double Height)> sizes, IReadOnlyList<(int A, int B)> links, Pt start, double depth)
    {
        var n = sizes.Count;
        var order = Enumerable.Range(0, n).ToArray();
        var area = sizes.Sum(s => s.Width * s.Height);
        var width = Math.Max(sizes.Max(s => s.Width), depth > 0 ? area * 1.2 / depth : Math.Sqrt(area * 1.6));
        var middles = new Pt[n];
        var zone = Shelve(sizes, order, start, width, middles);
        if (n < 3 || links.Count == 0) return (middles, zone);

        var weights = links.Where(l => l.A != l.B).GroupBy(l => (Math.Min(l.A, l.B), Math.Max(l.A, l.B))).Select(g => (A: g.Key.Item1, B: g.Key.Item2, Weight: (double)g.Count())).ToArray();
        var trial = new Pt[n];
        double Length(Pt[] at)
        {
            double sum = 0;
            foreach (var (a, b, w) in weights) sum += w * at[a].To(at[b]);
            return sum;
        }
        var best = Length(middles);
        var left = Math.Max(n * 4, Trials * 40 / Math.Max(40, n));
        for (var better = true; better && left > 0;)
        {
            better = false;
            for (var gap = 1; gap < n && left > 0; gap++)
                for (var i = 0; i + gap < n && left > 0; i++, left--)
                {
                    (order[i], order[i + gap]) = (order[i + gap], order[i]);
                    var taken = Shelve(sizes, order, start, width, trial);
                    var length = Length(trial);
                    if (length < best - 1e-6)
                    {
                        (best, zone, better) = (length, taken, true);
                        trial.CopyTo(middles, 0);
                    }
                    else (order[i], order[i + gap]) = (order[i + gap], order[i]);
                }
        }
        return (middles, zone);
    }

    private static Box Shelve(IReadOnlyList<(double Width, double Height)> sizes, int[] order, Pt start, double width, Pt[] middles)
    {
        double x = 0, y = 0, shelf = 0, right = 0;
        foreach (var i in order)
        {
            var (w, h) = sizes[i];
            if (x > 0 && x + w > width) { x = 0; y += shelf; shelf = 0; }
            middles[i] = start + new Pt(x + w / 2, y + h / 2);
            x += w;
            shelf = Math.Max(shelf, h);
            right = Math.Max(right, x);
        }
        return new(start.X, start.Y, start.X + right, start.Y + y + shelf);
    }
}

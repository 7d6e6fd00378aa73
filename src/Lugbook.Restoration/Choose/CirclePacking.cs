namespace Lugbook.Restoration.Choose;

/// <summary>Do round bodies stand side by side in a round bore?</summary>
/// <remarks>
/// Each circle is set against the wall, or against the wall and one before it, or against two before it, in every order of the circles: what is found does fit; a denser arrangement may exist, but for up to seven
/// equal circles the least bores are those of the textbook tables of circles in a circle (2, 2.155, 2.414, 2.701, 3 and 3 diameters). Up to eight circles.
/// </remarks>
internal static class CirclePacking
{
    private const int Most = 8;
    private const double Slack = 1e-6;

    /// <summary>Diameter of the least bore found, in the unit of the diameters, to a thousandth; infinite for more than eight circles.</summary>
    public static double LeastBore(IReadOnlyList<double> diameters)
    {
        if (diameters.Count == 0) return 0;
        if (diameters.Count > Most) return double.PositiveInfinity;
        var (low, high) = (diameters.Max(), diameters.Sum());
        if (diameters.Count == 1 || Fits(diameters, low)) return low;
        while (high - low > 1e-3 * high / 10)
        {
            var middle = (low + high) / 2;
            if (Fits(diameters, middle)) high = middle; else low = middle;
        }
        return high;
    }

    /// <summary>Is a place found for all of them?</summary>
    public static bool Fits(IReadOnlyList<double> diameters, double bore)
    {
        if (diameters.Count > Most || diameters.Any(d => d > bore * (1 + Slack))) return false;
        var area = diameters.Sum(d => d * d);
        return area <= bore * bore * (1 + Slack) && Place([], [.. diameters.OrderDescending().Select(d => d / 2)], bore / 2);
    }

    private static bool Place(List<(double X, double Y, double R)> placed, double[] left, double bore)
    {
        if (left.Length == 0) return true;
        for (var i = 0; i < left.Length; i++)
        {
            // Equal circles need not change places.
            if (i > 0 && left[i] == left[i - 1]) continue;
            double[] rest = [.. left[..i], .. left[(i + 1)..]];
            foreach (var at in Spots(placed, left[i], bore))
            {
                placed.Add(at);
                if (Place(placed, rest, bore)) return true;
                placed.RemoveAt(placed.Count - 1);
            }
            // The first goes to the wall whichever it is; the largest there is as good as any.
            if (placed.Count == 0) break;
        }
        return false;
    }

    private static IEnumerable<(double X, double Y, double R)> Spots(List<(double X, double Y, double R)> placed, double r, double bore)
    {
        if (placed.Count == 0) return [(bore - r, 0, r)];
        var spots = new List<(double X, double Y, double R)>();
        for (var i = 0; i < placed.Count; i++)
        {
            // Touching the wall and this one, then touching this one and another.
            Meet(0, 0, bore - r, placed[i].X, placed[i].Y, placed[i].R + r);
            for (var j = 0; j < i; j++) Meet(placed[j].X, placed[j].Y, placed[j].R + r, placed[i].X, placed[i].Y, placed[i].R + r);
        }
        // Two that fill a bore meet on its diameter only.
        if (placed is [var first]) spots.Add((-(bore - r), 0, r) is var far && Apart(far, first) ? far : first);
        return spots.Where(s => Math.Sqrt(s.X * s.X + s.Y * s.Y) + s.R <= bore * (1 + Slack) && placed.All(p => Apart(s, p)));

        void Meet(double ax, double ay, double ar, double bx, double by, double br)
        {
            var (dx, dy) = (bx - ax, by - ay);
            var d = Math.Sqrt(dx * dx + dy * dy);
            if (d < 1e-12 || d > ar + br || d < Math.Abs(ar - br)) return;
            var along = (ar * ar - br * br + d * d) / (2 * d);
            var across = Math.Sqrt(Math.Max(0, ar * ar - along * along));
            spots.Add((ax + (along * dx - across * dy) / d, ay + (along * dy + across * dx) / d, r));
            spots.Add((ax + (along * dx + across * dy) / d, ay + (along * dy - across * dx) / d, r));
        }

        static bool Apart((double X, double Y, double R) a, (double X, double Y, double R) b) => Math.Sqrt((a.X - b.X) * (a.X - b.X) + (a.Y - b.Y) * (a.Y - b.Y)) >= (a.R + b.R) * (1 - Slack);
    }
}

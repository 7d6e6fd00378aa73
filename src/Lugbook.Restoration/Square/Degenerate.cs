namespace Lugbook.Restoration.Square;

/// <summary>Picks that no map can be made from, and why.</summary>
internal static class Degenerate
{
    /// <summary>A triangle lower than this share of its longest side counts as a line.</summary>
    private const double Flat = 0.03;
    private const double SamePixels = 3, SameMillimetres = 0.2;

    /// <summary>The reason as a sentence; null when there is none.</summary>
    public static string? Reason(IReadOnlyList<Pick> picks)
    {
        if (picks.FirstOrDefault(p => !double.IsFinite(p.X + p.Y + p.PixelX + p.PixelY)) is { } odd) return $"The place of {odd.Lug} is not a number.";
        foreach (var twice in picks.GroupBy(p => p.Lug, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1)) return $"{twice.Key} is picked twice: take one of the two away, or name the other lug.";
        if (picks.Count < 3) return picks.Count == 0 ? "Tap at least three lugs whose place is known, and name them." : $"{(picks.Count == 1 ? "One lug is" : "Two lugs are")} picked; at least three are needed, four mend perspective.";
        for (var i = 0; i < picks.Count; i++)
            for (var j = 0; j < i; j++)
            {
                if (Away(Photo(picks[i]), Photo(picks[j])) < SamePixels) return $"{picks[j].Lug} and {picks[i].Lug} are picked on the same spot of the photograph.";
                if (Away(Plane(picks[i]), Plane(picks[j])) < SameMillimetres) return $"{picks[j].Lug} and {picks[i].Lug} lie on the same place of the chassis: their places in mm cannot both be right.";
            }
        if (picks.Count == 3 && Flattest(picks[0], picks[1], picks[2]) < Flat) return $"{picks[0].Lug}, {picks[1].Lug} and {picks[2].Lug} lie in a line: take one that lies well beside it.";
        if (picks.Count > 3 && !HasFrame(picks))
            return picks.Count == 4 && FlatTriple(picks) is var (a, b, c) ? $"{a.Lug}, {b.Lug} and {c.Lug} lie in a line: of four lugs no three may. Take another instead of one of them, or add a fifth well beside it."
                : "Nearly all of these lugs lie in a line: take two that lie well beside it.";
        return Crossed(picks);
    }

    /// <summary>Seen from beneath, the photograph's y runs down and the chassis's up, so each triangle turns the other way round in it.</summary>
    private static string? Crossed(IReadOnlyList<Pick> picks)
    {
        var (agree, against) = Sides(picks);
        if (against == 0) return null;
        if (agree == 0)
            return "Seen like this the chassis would be mirrored: two lugs are exchanged, or the photograph is a mirror image, or it shows the chassis from above. Take it from beneath, and look at the names.";
        var swaps = new List<(Pick A, Pick B)>();
        for (var i = 0; i < picks.Count; i++)
            for (var j = 0; j < i; j++)
            {
                var swapped = picks.ToArray();
                (swapped[i], swapped[j]) = (picks[i] with { PixelX = picks[j].PixelX, PixelY = picks[j].PixelY }, picks[j] with { PixelX = picks[i].PixelX, PixelY = picks[i].PixelY });
                if (Sides(swapped).Against == 0) swaps.Add((picks[j], picks[i]));
            }
        return swaps.Count == 1 ? $"The picks are crossed: {swaps[0].A.Lug} and {swaps[0].B.Lug} seem to be exchanged."
            : "The picks are crossed: going round the lugs in the photograph is not going round them on the chassis. Two names are exchanged, or a tap is far off.";
    }

    private static (int Agree, int Against) Sides(IReadOnlyList<Pick> picks)
    {
        var (agree, against) = (0, 0);
        for (var i = 0; i < picks.Count; i++)
            for (var j = 0; j < i; j++)
                for (var k = 0; k < j; k++)
                {
                    // A flat triangle's side is chance.
                    if (Flattest(picks[i], picks[j], picks[k]) < Flat) continue;
                    if (Turn(Plane(picks[i]), Plane(picks[j]), Plane(picks[k])) * Turn(Photo(picks[i]), Photo(picks[j]), Photo(picks[k])) < 0) agree++; else against++;
                }
        return (agree, against);
    }

    private static bool HasFrame(IReadOnlyList<Pick> picks)
    {
        for (var a = 0; a < picks.Count; a++)
            for (var b = 0; b < a; b++)
                for (var c = 0; c < b; c++)
                {
                    if (Flattest(picks[a], picks[b], picks[c]) < Flat) continue;
                    for (var d = 0; d < c; d++)
                        if (Flattest(picks[a], picks[b], picks[d]) >= Flat && Flattest(picks[a], picks[c], picks[d]) >= Flat && Flattest(picks[b], picks[c], picks[d]) >= Flat) return true;
                }
        return false;
    }

    private static (Pick A, Pick B, Pick C)? FlatTriple(IReadOnlyList<Pick> picks)
    {
        for (var i = 0; i < picks.Count; i++)
            for (var j = 0; j < i; j++)
                for (var k = 0; k < j; k++)
                    if (Flattest(picks[i], picks[j], picks[k]) < Flat) return (picks[k], picks[j], picks[i]);
        return null;
    }

    /// <summary>Height over longest side of the triangle, the smaller of photograph and chassis.</summary>
    private static double Flattest(Pick a, Pick b, Pick c) => Math.Min(Height(Photo(a), Photo(b), Photo(c)), Height(Plane(a), Plane(b), Plane(c)));

    private static double Height((double X, double Y) a, (double X, double Y) b, (double X, double Y) c)
    {
        var longest = Math.Max(Away(a, b), Math.Max(Away(b, c), Away(c, a)));
        return longest == 0 ? 0 : Math.Abs(Turn(a, b, c)) / (longest * longest);
    }

    private static double Turn((double X, double Y) a, (double X, double Y) b, (double X, double Y) c) => (b.X - a.X) * (c.Y - a.Y) - (b.Y - a.Y) * (c.X - a.X);
    private static double Away((double X, double Y) a, (double X, double Y) b) => Math.Sqrt((a.X - b.X) * (a.X - b.X) + (a.Y - b.Y) * (a.Y - b.Y));
    private static (double X, double Y) Photo(Pick p) => (p.PixelX, p.PixelY);
    private static (double X, double Y) Plane(Pick p) => (p.X, p.Y);
}

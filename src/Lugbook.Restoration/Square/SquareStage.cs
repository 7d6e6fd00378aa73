using System.Collections.Immutable;
using System.Globalization;

namespace Lugbook.Restoration.Square;

/// <summary>Squares a photograph up: from lugs shown in it to the plane of the chassis. Formulas and limits: docs/photographs.md.</summary>
/// <remarks>
/// Three picks give the affine map through them; four or more the perspective map with the least sum of squared distances in the photograph, where the finger errs.
/// Source: Hartley and Zisserman, Multiple View Geometry in Computer Vision, 2nd ed., 4.1 (linear solution), 4.4 (normalisation), 4.2 and A6 (refinement by distances).
/// </remarks>
public static class SquareStage
{
    /// <summary>mm by which picks may miss before one of them is doubted: lugs stand up to a few mm off their entered places. Common practice, no source.</summary>
    private const double Doubtful = 3;

    /// <summary>Pure: the same picks, the same answer. Refuses, with the reason, what cannot be squared up.</summary>
    /// <param name="picks">Lugs with their pixels and their places in mm.</param>
    public static SquareResult Run(IReadOnlyList<Pick> picks)
    {
        ArgumentNullException.ThrowIfNull(picks);
        if (Degenerate.Reason(picks) is { } reason) return new(null, null, [], reason, []);
        if (Fitting.Fit(picks) is not { } toPixels || !InFront(toPixels, picks)) return new(null, null, [], "These picks fit no photograph: look whether each tap is on the lug that is named.", []);
        var toChassis = toPixels.Inverse();
        return new(toChassis, toPixels, [.. picks.Select(p => Error(toPixels, toChassis, p))], null, Remarks(picks, toPixels, toChassis));
    }

    private static PickError Error(Homography toPixels, Homography toChassis, Pick p)
    {
        var (x, y) = toChassis.Map(p.PixelX, p.PixelY);
        var (px, py) = toPixels.Map(p.X, p.Y);
        return new(p.Lug, Math.Sqrt((x - p.X) * (x - p.X) + (y - p.Y) * (y - p.Y)), Math.Sqrt((px - p.PixelX) * (px - p.PixelX) + (py - p.PixelY) * (py - p.PixelY)));
    }

    // What a camera sees lies before it.
    private static bool InFront(Homography toPixels, IReadOnlyList<Pick> picks)
    {
        var depths = picks.Select(p => toPixels.G * p.X + toPixels.H * p.Y + toPixels.I).ToArray();
        return depths.All(d => double.IsFinite(d) && d * depths[0] > 0);
    }

    private static ImmutableArray<string> Remarks(IReadOnlyList<Pick> picks, Homography toPixels, Homography toChassis)
    {
        if (picks.Count == 3) return ["Three lugs mend turn, size and shear, not perspective, and nothing is left over to show a wrong tap. Add a fourth and a fifth."];
        if (picks.Count == 4) return ["Four lugs always fit: nothing is left over to show a wrong tap. A fifth does."];
        var worst = picks.Max(p => Error(toPixels, toChassis, p).Millimetres);
        if (worst <= Doubtful) return [];
        if (picks.Count == 5) return [$"One of the five is off: a sixth lug tells which. The worst misses by {Millimetres(worst)}."];
        // The pick without which the others agree best.
        var without = picks.Select(p => (Pick: p, Off: Rest(picks, p))).Where(w => w.Off is not null).OrderBy(w => w.Off).ToArray();
        return without.Length > 1 && without[0].Off < Math.Max(0.5, worst / 3) && without[0].Off < without[1].Off / 2
            ? [$"{without[0].Pick.Lug} looks mistaken: without it the others agree within {Millimetres(without[0].Off!.Value)}."]
            : [$"The picks disagree by up to {Millimetres(worst)}, and no single one explains it: look at the largest first, or some of these places in mm are not right."];
    }

    /// <summary>The worst error of the others, mm, when one pick is left out; null when they alone cannot be squared up.</summary>
    private static double? Rest(IReadOnlyList<Pick> picks, Pick without)
    {
        var rest = picks.Where(p => p != without).ToArray();
        if (Degenerate.Reason(rest) is not null || Fitting.Fit(rest) is not { } toPixels) return null;
        var toChassis = toPixels.Inverse();
        return rest.Max(p => Error(toPixels, toChassis, p).Millimetres);
    }

    private static string Millimetres(double mm) => string.Create(CultureInfo.InvariantCulture, $"{mm:0.0} mm");
}

using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Fit;

/// <summary>Which positions must never be open at once: parts that look alike, and parts that would fit into each other's lugs.</summary>
internal static class Confusable
{
    /// <summary>Pairs of jobs.</summary>
    public static ImmutableArray<(int A, int B)> Pairs(MapResult map, IReadOnlyList<Choice> work, ImmutableArray<int[]> jobs)
    {
        var pairs = ImmutableArray.CreateBuilder<(int, int)>();
        for (var a = 0; a < jobs.Length; a++)
            for (var b = a + 1; b < jobs.Length; b++)
                if (jobs[a].Any(i => jobs[b].Any(j => LooksLike(map, work[i], work[j]) || FitsInto(map, work[i], work[j])))) pairs.Add((a, b));
        return pairs.ToImmutable();
    }

    /// <summary>The same kind and value in the old parts, or the same part new.</summary>
    public static bool LooksLike(MapResult map, Choice a, Choice b) =>
        a.OldValue is { } v && v == b.OldValue && a.Unit == b.Unit && map.Book.Parts.ById(a.PartId)?.Kind == map.Book.Parts.ById(b.PartId)?.Kind
        || a.New is { } part && part == b.New;

    // Each lead of one is on the same lug as a lead of the other, or on its neighbour, and not both on the same two.
    private static bool FitsInto(MapResult map, Choice a, Choice b)
    {
        if (a.Lugs.Length != 2 || b.Lugs.Length != 2) return false;
        bool Same(string x, string y) => string.Equals(x, y, StringComparison.OrdinalIgnoreCase);
        bool Near(string x, string y) => Same(x, y) || map.Book.Lugs.Named(x) is { No: { } n } p && map.Book.Lugs.Named(y) is { No: { } m } q && Same(p.Mount, q.Mount) && Math.Abs(n - m) == 1;
        var alike = Same(a.Lugs[0], b.Lugs[0]) && Same(a.Lugs[1], b.Lugs[1]) || Same(a.Lugs[0], b.Lugs[1]) && Same(a.Lugs[1], b.Lugs[0]);
        return !alike && (Near(a.Lugs[0], b.Lugs[0]) && Near(a.Lugs[1], b.Lugs[1]) || Near(a.Lugs[0], b.Lugs[1]) && Near(a.Lugs[1], b.Lugs[0]));
    }
}

using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Slips;

/// <summary>Which lugs are so near that a lead may end on the wrong one.</summary>
internal sealed class Reach
{
    /// <summary>A lug of another mount counts when it is nearer than this, mm: a strip's lugs stand some 10 mm apart, so that what is no farther off is mistaken as easily (common practice, no source).</summary>
    public const double OtherMountMm = 12;
    /// <summary>Lugs with adjoining numbers on one mount count up to this, mm: farther apart they are not beside each other, whatever their numbers.</summary>
    public const double SameMountMm = 30;

    private readonly Dictionary<string, ImmutableArray<string>> _near;

    public Reach(Book book)
    {
        var near = book.Lugs.Select(l => l.Name).Distinct(StringComparer.OrdinalIgnoreCase).ToDictionary(l => l, _ => new SortedSet<string>(NaturalOrder.Names), StringComparer.OrdinalIgnoreCase);
        void Pair(Lug a, Lug b)
        {
            if (string.Equals(a.Name, b.Name, StringComparison.OrdinalIgnoreCase)) return;
            near[a.Name].Add(b.Name);
            near[b.Name].Add(a.Name);
        }
        foreach (var mount in book.Lugs.GroupBy(l => l.Mount, StringComparer.OrdinalIgnoreCase))
        {
            Lug[] row = [.. mount.Where(l => l.No is not null).OrderBy(l => l.No)];
            for (var i = 1; i < row.Length; i++) if (row[i].No - row[i - 1].No <= 1 && !(Distance(row[i], row[i - 1]) > SameMountMm)) Pair(row[i - 1], row[i]);
            if (row.Length > 2 && IsRing(book.Mounts.Named(mount.Key)?.Kind) && !(Distance(row[0], row[^1]) > SameMountMm)) Pair(row[0], row[^1]);
        }
        Lug[] placed = [.. book.Lugs.Where(l => l is { X: not null, Y: not null }).OrderBy(l => l.X)];
        for (var i = 0; i < placed.Length; i++)
            for (var j = i + 1; j < placed.Length && placed[j].X - placed[i].X <= OtherMountMm; j++)
                if (!string.Equals(placed[i].Mount, placed[j].Mount, StringComparison.OrdinalIgnoreCase) && Distance(placed[i], placed[j]) <= OtherMountMm) Pair(placed[i], placed[j]);
        _near = near.ToDictionary(n => n.Key, n => n.Value.ToImmutableArray(), StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>Lugs beside a lug, in natural order.</summary>
    public ImmutableArray<string> Of(string lug) => _near.GetValueOrDefault(lug, []);

    private static double? Distance(Lug a, Lug b) => a is { X: { } x1, Y: { } y1 } && b is { X: { } x2, Y: { } y2 } ? Math.Sqrt((x1 - x2) * (x1 - x2) + (y1 - y2) * (y1 - y2)) : null;

    private static bool IsRing(MountKind? kind) => kind is MountKind.OctalSocket or MountKind.LoctalSocket or MountKind.NovalSocket or MountKind.SevenPinSocket or MountKind.DuodecalSocket or MountKind.Can;
}

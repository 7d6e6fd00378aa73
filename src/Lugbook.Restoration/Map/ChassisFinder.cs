using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Map;

/// <summary>Which node is the chassis metal, and which the protective earth?</summary>
internal static class ChassisFinder
{
    public static (int? Node, string Evidence) Chassis(Chart chart)
    {
        foreach (var lug in chart.Book.Lugs)
            if (chart.MountOf(lug.Name)?.Kind == MountKind.Chassis)
            {
                var node = chart.NodeByLug[lug.Name];
                var others = chart.LugsOf[node].Length - 1;
                return (node, others == 0
                    ? $"{lug.Name} is entered as the chassis; nothing is bonded to it yet."
                    : $"{lug.Name} is entered as the chassis; {others} other {(others == 1 ? "lug is" : "lugs are")} joined to it by bonds or wires.");
            }
        var bonds = chart.Book.Wires.Where(w => w.Kind == WireKind.Bond).Select(w => chart.NodeOf(w.From)).OfType<int>().ToArray();
        if (bonds.Length > 0)
        {
            var node = bonds.GroupBy(n => n).OrderByDescending(g => g.Count()).ThenBy(g => chart.BestLug(g.Key), NaturalOrder.Names).First();
            return (node.Key, $"No mount is entered as the chassis, but {node.Count()} bonded {(node.Count() == 1 ? "lug meets" : "lugs meet")} here.");
        }
        var earths = chart.Book.Lugs.Where(l => chart.MountOf(l.Name)?.Kind == MountKind.EarthLug).Select(l => chart.NodeByLug[l.Name]).ToArray();
        return earths.Length > 0
            ? (earths[0], "No mount is entered as the chassis; an earth lug stands for it.")
            : (null, "The book has no chassis: enter a mount of the kind 'chassis' and a bond from each foot that touches metal.");
    }

    /// <summary>The third conductor of the line cord.</summary>
    public static (int? Node, string Evidence) Earth(Chart chart)
    {
        foreach (var lug in chart.Book.Lugs)
            if (chart.MountOf(lug.Name)?.Kind == MountKind.LineCord && IsEarth(lug))
                return (chart.NodeByLug[lug.Name], $"{lug.Name} is the earth conductor of the line cord.");
        return (null, "The line cord has no earth conductor in this book.");
    }

    /// <summary>A lug of a line cord that is not a blade: by its words, or as the third of three.</summary>
    public static bool IsEarth(Lug lug)
    {
        var words = (lug.Function ?? "").ToLowerInvariant();
        if (words.Contains("earth") || words.Contains("ground") || words.Contains("green") || words.Contains("protective")) return true;
        return lug.No == 3 && !words.Contains("blade") && !words.Contains("live") && !words.Contains("neutral") && !words.Contains("line");
    }
}

namespace Lugbook.Restoration.Order.Solving;

/// <summary>Among plans that buy exactly the same: two demands exchange their ways where both lie nearer to what is wanted afterwards.</summary>
internal static class NearerParts
{
    public static int[] Exchange(OrderProblem problem, int[] wayOf)
    {
        var keys = problem.Demands.Select(d => d.Ways.Select((w, at) => (Key: Key(w), at)).GroupBy(k => k.Key).ToDictionary(g => g.Key, g => g.MinBy(k => d.Ways[k.at].Distance).at)).ToArray();
        for (var (round, changed) = (0, true); changed && round < 20; round++)
        {
            changed = false;
            for (var a = 0; a < wayOf.Length; a++)
                for (var b = a + 1; b < wayOf.Length; b++)
                {
                    if (wayOf[a] < 0 || wayOf[b] < 0) continue;
                    var (wayA, wayB) = (problem.Demands[a].Ways[wayOf[a]], problem.Demands[b].Ways[wayOf[b]]);
                    if (wayA.Distance + wayB.Distance == 0) continue;
                    if (!keys[a].TryGetValue(Key(wayB), out var forA) || !keys[b].TryGetValue(Key(wayA), out var forB)) continue;
                    if (problem.Demands[a].Ways[forA].Distance + problem.Demands[b].Ways[forB].Distance >= wayA.Distance + wayB.Distance) continue;
                    (wayOf[a], wayOf[b], changed) = (forA, forB, true);
                }
        }
        return wayOf;
    }

    private static string Key(Way way) => string.Join('+', way.Items.OrderBy(i => i.Item).Select(i => $"{i.Item}x{i.Count}"));
}

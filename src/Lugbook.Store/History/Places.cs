namespace Lugbook.Store.History;

/// <summary>The numbers by which stored rows are ordered, with gaps, so that a row put between two others renumbers neither.</summary>
internal static class Places
{
    /// <summary>Distance between neighbours when there is room: twenty rows in turn fit before the same neighbour.</summary>
    public const long Gap = 1L << 20;

    /// <summary>Places for rows in their order: those given stay, the others get one between; all are renumbered when the room is used up.</summary>
    /// <param name="given">In the order of the rows; null for a row that needs a place. Those given must rise.</param>
    /// <returns>As many places, rising.</returns>
    public static long[] Fill(IReadOnlyList<long?> given)
    {
        var places = new long[given.Count];
        long? left = null;
        for (var i = 0; i < given.Count;)
        {
            if (given[i] is { } kept)
            {
                if (kept <= left) return Renumbered(given.Count);
                left = places[i++] = kept;
                continue;
            }
            var end = i;
            while (end < given.Count && given[end] is null) end++;
            var count = end - i;
            var right = end < given.Count ? given[end] : null;
            var (start, step) = (left, right) switch
            {
                ({ } l, { } r) => (l, (r - l) / (count + 1)),
                (null, { } r) => (r - (count + 1) * Gap, Gap),
                ({ } l, null) => (l, Gap),
                _ => (0, Gap),
            };
            if (step < 1) return Renumbered(given.Count);
            for (; i < end; i++) left = places[i] = start += step;
        }
        return places;
    }

    private static long[] Renumbered(int count)
    {
        var places = new long[count];
        for (var i = 0; i < count; i++) places[i] = (i + 1) * Gap;
        return places;
    }
}

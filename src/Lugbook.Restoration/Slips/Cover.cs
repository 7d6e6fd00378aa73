using System.Collections.Immutable;

namespace Lugbook.Restoration.Slips;

/// <summary>The fewest readings that together expose all that any reading exposes: an exact set cover.</summary>
/// <param name="Readings">The readings chosen, by number; the one that exposes most first.</param>
/// <param name="Coverable">Slips that some reading exposes.</param>
/// <param name="IsProven">True when no smaller number does: every way was tried. False when the search was cut off.</param>
/// <param name="Tried">Sets tried.</param>
internal sealed record Cover(ImmutableArray<int> Readings, ImmutableArray<int> Coverable, bool IsProven, long Tried)
{
    private const long MostTried = 2_000_000;
    private const int MostCompared = 3_000;

    /// <summary>Finds it.</summary>
    /// <param name="readings">How many readings there are.</param>
    /// <param name="slips">How many slips.</param>
    /// <param name="exposes">Does a reading expose a slip?</param>
    /// <param name="better">Among equally few: how good is a set? The highest is taken, then the first.</param>
    /// <remarks>
    /// Depth first by one, two, three … readings: the slip that fewest readings expose is exposed by one of these, so only they are tried for it. For the number, a reading that exposes no more than another is left out
    /// (it can always be exchanged for the other); for the best of the fewest all are tried, up to a limit that leaves the number proven.
    /// </remarks>
    public static Cover Of(int readings, int slips, Func<int, int, bool> exposes, Func<ImmutableArray<int>, double> better)
    {
        var words = (slips + 63) / 64;
        var sets = new ulong[readings][];
        for (var r = 0; r < readings; r++)
        {
            sets[r] = new ulong[words];
            for (var s = 0; s < slips; s++) if (exposes(r, s)) sets[r][s / 64] |= 1UL << (s % 64);
        }
        ImmutableArray<int> coverable = [.. Enumerable.Range(0, slips).Where(s => sets.Any(set => Has(set, s)))];
        if (coverable.IsEmpty) return new([], [], true, 0);
        var open = new ulong[words];
        foreach (var s in coverable) open[s / 64] |= 1UL << (s % 64);
        var distinct = Undominated(sets);
        var search = new Search(sets, coverable);
        for (var size = 1; ; size++)
        {
            if (search.First(distinct, open, size) is not { } found)
            {
                // Greedy always ends: what is not proven is at least a cover.
                if (search.Tried <= MostTried) continue;
                return new(Ordered(Greedy(sets, open), sets), coverable, false, search.Tried);
            }
            var best = found;
            var value = better(found);
            foreach (var other in search.All([.. Enumerable.Range(0, readings).Where(r => sets[r].Any(w => w != 0))], open, size).Take(MostCompared))
                if (better(other) is var v && v > value) (best, value) = (other, v);
            return new(Ordered(best, sets), coverable, true, search.Tried);
        }
    }

    private static bool Has(ulong[] set, int s) => (set[s / 64] >> (s % 64) & 1) != 0;
    private static int Count(ulong[] set) => set.Sum(System.Numerics.BitOperations.PopCount);
    private static ImmutableArray<int> Ordered(ImmutableArray<int> readings, ulong[][] sets) => [.. readings.OrderByDescending(r => Count(sets[r])).ThenBy(r => r)];

    private static int[] Undominated(ulong[][] sets)
    {
        var kept = new List<int>();
        foreach (var r in Enumerable.Range(0, sets.Length).OrderByDescending(r => Count(sets[r])).ThenBy(r => r))
            if (Count(sets[r]) > 0 && !kept.Any(k => Within(sets[r], sets[k]))) kept.Add(r);
        return [.. kept.Order()];
    }

    private static bool Within(ulong[] inner, ulong[] outer)
    {
        for (var w = 0; w < inner.Length; w++) if ((inner[w] & ~outer[w]) != 0) return false;
        return true;
    }

    private static ImmutableArray<int> Greedy(ulong[][] sets, ulong[] open)
    {
        var left = (ulong[])open.Clone();
        var taken = ImmutableArray.CreateBuilder<int>();
        while (left.Any(w => w != 0))
        {
            var next = Enumerable.Range(0, sets.Length).MaxBy(r => sets[r].Select((w, i) => System.Numerics.BitOperations.PopCount(w & left[i])).Sum());
            taken.Add(next);
            for (var w = 0; w < left.Length; w++) left[w] &= ~sets[next][w];
        }
        return taken.ToImmutable();
    }

    private sealed class Search(ulong[][] sets, ImmutableArray<int> slips)
    {
        public long Tried { get; private set; }

        public ImmutableArray<int>? First(int[] among, ulong[] open, int size)
        {
            foreach (var found in All(among, open, size)) return found;
            return null;
        }

        /// <summary>Every set of so many readings that exposes all that is open; a set may come in several orders only where it is larger than it need be.</summary>
        public IEnumerable<ImmutableArray<int>> All(int[] among, ulong[] open, int size)
        {
            if (Tried > MostTried) yield break;
            if (size == 0) yield break;
            var rarest = -1;
            var fewest = int.MaxValue;
            foreach (var s in slips)
            {
                if (!Has(open, s)) continue;
                var count = among.Count(r => Has(sets[r], s));
                if (count < fewest) (rarest, fewest) = (s, count);
            }
            foreach (var r in among)
            {
                if (!Has(sets[r], rarest)) continue;
                Tried++;
                var left = new ulong[open.Length];
                var rest = false;
                for (var w = 0; w < open.Length; w++) rest |= (left[w] = open[w] & ~sets[r][w]) != 0;
                if (!rest) yield return [r];
                else foreach (var more in All(among, left, size - 1)) yield return [r, .. more];
            }
        }
    }
}

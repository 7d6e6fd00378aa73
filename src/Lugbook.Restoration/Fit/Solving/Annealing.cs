namespace Lugbook.Restoration.Fit.Solving;

/// <summary>Betters an order of one position at a time by moves that may make it worse at first: a stretch goes elsewhere in its class, or is turned round.</summary>
/// <remarks>Simulated annealing (Kirkpatrick, Gelatt and Vecchi, Science 220, 1983, p. 671). The seed is fixed: as many moves, the same answer.</remarks>
internal static class Annealing
{
    private const int Seed = 1951;
    private const double Cold = 0.2;

    /// <param name="problem">The jobs.</param>
    /// <param name="step">What it adds that one comes right after another.</param>
    /// <param name="order">The order; the best that was found is left in it.</param>
    /// <param name="moves">How many moves are tried.</param>
    /// <param name="enough">Ends when the cost of neighbours is this or less.</param>
    /// <param name="hot">Heat at the beginning, in units of cost.</param>
    /// <param name="spent">Asked now and then: the share of the time that is spent; 1 ends it.</param>
    public static void Better(WorkProblem problem, long[,] step, int[] order, int moves, long enough, double hot, Func<double>? spent = null)
    {
        var n = order.Length;
        if (n < 3) return;
        var random = new Random(Seed);
        var (first, last) = (new int[n], new int[n]);     // ends of the class at each place
        for (var i = 0; i < n; i++) first[i] = i > 0 && problem.Jobs[order[i]].Class == problem.Jobs[order[i - 1]].Class ? first[i - 1] : i;
        for (var i = n - 1; i >= 0; i--) last[i] = i + 1 < n && first[i + 1] == first[i] ? last[i + 1] : i;
        var buried = new List<int>[n];
        var covers = new List<int>[n];
        for (var i = 0; i < n; i++) (buried[i], covers[i]) = ([], []);
        foreach (var (cover, under) in problem.Before) { buried[cover].Add(under); covers[under].Add(cover); }
        // Most moves bring together two jobs that share a lug or a mount: others seldom help.
        var partners = Enumerable.Range(0, n).Select(i => Enumerable.Range(0, n).Where(j => j != i && step[i, j] < 0 && problem.Jobs[i].Class == problem.Jobs[j].Class).ToArray()).ToArray();
        var place = new int[n];
        for (var i = 0; i < n; i++) place[order[i]] = i;
        long Edge(int a, int b) => a < 0 || b >= n ? 0 : step[order[a], order[b]];
        var now = 0L;
        for (var i = 1; i < n; i++) now += Edge(i - 1, i);
        var (best, kept) = (now, (int[])order.Clone());
        var heat = hot;
        for (var move = 0; move < moves && best > enough; move++)
        {
            if (move % 1024 == 0)
            {
                var share = Math.Max((double)move / moves, spent?.Invoke() ?? 0);
                if (share >= 1) break;
                heat = hot * Math.Pow(Cold / hot, share);
            }
            var from = random.Next(n);
            var room = last[from] - first[from];
            if (room == 0) continue;
            long gain;
            if (random.Next(3) == 0)
            {
                // Turned round where it is.
                var end = Math.Min(last[from], from + 1 + random.Next(Math.Min(room, 30)));
                if (from > 0 && Partner(order[from - 1]) is >= 0 and var beside && beside <= last[from]) end = beside;
                if (end <= from) continue;
                gain = Edge(from - 1, from) + Edge(end, end + 1) - (from == 0 ? 0 : step[order[from - 1], order[end]]) - (end + 1 >= n ? 0 : step[order[from], order[end + 1]]);
                if (!Taken(gain, heat)) continue;
                Array.Reverse(order, from, end - from + 1);
                if (!Settle(from, end)) { Array.Reverse(order, from, end - from + 1); Settle(from, end); continue; }
            }
            else
            {
                // The stretch and what lies between it and its new place change sides.
                var end = Math.Min(last[from], from + random.Next(4));
                var to = first[from] + random.Next(room + 1);
                if (Partner(order[from]) is >= 0 and var there) to = there > end ? there : there + 1;
                if (to >= from && to <= end + 1) continue;
                var (low, mid, high) = to < from ? (to, from, end) : (from, end + 1, to);
                gain = Edge(low - 1, low) + Edge(mid - 1, mid) + Edge(high, high + 1)
                    - (low == 0 ? 0 : step[order[low - 1], order[mid]]) - step[order[high], order[low]] - (high + 1 >= n ? 0 : step[order[mid - 1], order[high + 1]]);
                if (!Taken(gain, heat)) continue;
                Swap(low, mid, high);
                if (!Settle(low, high)) { Swap(low, low + high - mid + 1, high); Settle(low, high); continue; }
            }
            now -= gain;
            if (now >= best) continue;
            best = now;
            order.CopyTo(kept, 0);
        }
        kept.CopyTo(order, 0);

        // Where a random partner stands, three times in four; else -1.
        int Partner(int job) => partners[job].Length == 0 || random.Next(4) == 0 ? -1 : place[partners[job][random.Next(partners[job].Length)]];

        bool Taken(long gain, double heat) => gain >= 0 || random.NextDouble() < Math.Exp(gain / heat);

        void Swap(int low, int mid, int high)
        {
            Array.Reverse(order, low, mid - low);
            Array.Reverse(order, mid, high - mid + 1);
            Array.Reverse(order, low, high - low + 1);
        }

        // Notes the places anew; false when something buried now comes before what covers it.
        bool Settle(int low, int high)
        {
            for (var i = low; i <= high; i++) place[order[i]] = i;
            for (var i = low; i <= high; i++)
            {
                foreach (var under in buried[order[i]]) if (place[under] < i) return false;
                foreach (var over in covers[order[i]]) if (place[over] > i) return false;
            }
            return true;
        }
    }
}

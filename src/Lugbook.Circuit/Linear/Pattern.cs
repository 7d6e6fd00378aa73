namespace Lugbook.Circuit.Linear;

/// <summary>Where a square sparse matrix may be non-zero, with an elimination order that keeps the fill small. Made once per network.</summary>
/// <remarks>
/// The pattern is taken as symmetric (a device couples its terminals both ways). Order: minimum degree, ties to the lower number
/// (Tinney and Walker, Proc. IEEE 55, 1967, scheme 2). Pivots stay on the diagonal: nodal matrices of resistive networks are diagonally
/// dominant, and the solver checks the residual of every answer, so a poor pivot costs steps and never a wrong answer.
/// </remarks>
internal sealed class Pattern
{
    // A fixed row that couples more others (a supply rail) is left among the late ones: eliminated early it would couple all of them with each other.
    private const int MostNear = 3;

    private readonly Dictionary<(int Row, int Column), int> _slots;

    private Pattern(
        int size, int early, int[] order, Dictionary<(int, int), int> slots, int[] diagonal, int[][] lower, int[][] upperSlots, int[][] lowerSlots, int[] updates, int[] updateStart,
        (int Row, int Column)[] late, int[] lateSlots)
    {
        Size = size;
        Early = early;
        Late = late;
        LateSlots = lateSlots;
        Order = order;
        _slots = slots;
        Diagonal = diagonal;
        Neighbours = lower;
        UpperSlots = upperSlots;
        LowerSlots = lowerSlots;
        Updates = updates;
        UpdateStart = updateStart;
    }

    /// <summary>Rows and columns.</summary>
    public int Size { get; }
    /// <summary>How many rows come first: of those that nothing but fixed numbers touches, all that couple few others.</summary>
    public int Early { get; }
    /// <summary>What may be non-zero among the late rows once the early ones are eliminated: the first of <see cref="LateSlots"/>.</summary>
    public (int Row, int Column)[] Late { get; }
    /// <summary>All slots among the late rows, their own fill included.</summary>
    public int[] LateSlots { get; }
    /// <summary>Order[k] is the row eliminated as number k.</summary>
    public int[] Order { get; }
    /// <summary>How many values a matrix of this pattern has, fill included.</summary>
    public int Count => _slots.Count;
    /// <summary>Slot of the diagonal of the row eliminated as number k.</summary>
    public int[] Diagonal { get; }
    /// <summary>Rows still present that pivot k touches.</summary>
    public int[][] Neighbours { get; }
    /// <summary>Slots of U's row k, in the order of <see cref="Neighbours"/>.</summary>
    public int[][] UpperSlots { get; }
    /// <summary>Slots of L's column k, in the order of <see cref="Neighbours"/>.</summary>
    public int[][] LowerSlots { get; }
    /// <summary>For pivot k and each pair (i, j) of its neighbours: the slot that L(i,k)·U(k,j) is taken from.</summary>
    public int[] Updates { get; }
    /// <summary>Where pivot k's run begins in <see cref="Updates"/>.</summary>
    public int[] UpdateStart { get; }

    /// <summary>Slot of an entry that was asked for when the pattern was made.</summary>
    /// <exception cref="KeyNotFoundException">It was not.</exception>
    public int Slot(int row, int column) => _slots[(row, column)];

    /// <summary>Slot of row u's diagonal.</summary>
    public static int DiagonalSlot(int row) => row;

    /// <summary>Orders and fills a pattern.</summary>
    /// <param name="size">Rows and columns; 0 or more.</param>
    /// <param name="entries">Pairs of rows that couple; the diagonal is always present.</param>
    /// <param name="isLate">Rows whose numbers change from step to step; they and what couples many of them come after all others. Null: none.</param>
    public static Pattern Of(int size, IEnumerable<(int Row, int Column)> entries, bool[]? isLate = null)
    {
        var near = new SortedSet<int>[size];
        for (var i = 0; i < size; i++) near[i] = [];
        var slots = new Dictionary<(int, int), int>();
        for (var i = 0; i < size; i++) slots.Add((i, i), slots.Count);
        foreach (var (row, column) in entries)
        {
            if (row == column) continue;
            near[row].Add(column);
            near[column].Add(row);
            slots.TryAdd((row, column), slots.Count);
            slots.TryAdd((column, row), slots.Count);
        }

        var order = new int[size];
        var neighbours = new int[size][];
        var late = isLate is null ? new bool[size] : (bool[])isLate.Clone();
        var waiting = new SortedSet<(bool Late, int Degree, int Row)>();
        for (var i = 0; i < size; i++) waiting.Add((late[i], near[i].Count, i));
        var (early, before) = (size, slots.Count);
        for (var k = 0; k < size; k++)
        {
            if (early == size && isLate is not null && (waiting.Min.Late || waiting.Min.Degree > MostNear))
            {
                (early, before) = (k, slots.Count);
                waiting = [.. waiting.Select(w => (true, w.Degree, w.Row))];
                Array.Fill(late, true);
                for (var done = 0; done < k; done++) late[order[done]] = false;
            }
            var (_, degree, pivot) = waiting.Min;
            waiting.Remove((late[pivot], degree, pivot));
            order[k] = pivot;
            var rest = near[pivot].ToArray();
            neighbours[k] = rest;
            foreach (var i in rest)
            {
                waiting.Remove((late[i], near[i].Count, i));
                near[i].Remove(pivot);
                foreach (var j in rest)
                {
                    if (i == j) continue;
                    near[i].Add(j);
                    slots.TryAdd((i, j), slots.Count);
                }
                waiting.Add((late[i], near[i].Count, i));
            }
        }

        var updates = new List<int>();
        var start = new int[size + 1];
        for (var k = 0; k < size; k++)
        {
            start[k] = updates.Count;
            foreach (var i in neighbours[k])
                foreach (var j in neighbours[k]) updates.Add(slots[(i, j)]);
        }
        start[size] = updates.Count;
        var among = early == size ? [] : slots.Where(s => late[s.Key.Item1] && late[s.Key.Item2]).OrderBy(s => s.Value).ToArray();
        return new(size, early, order, slots,
            [.. order.Select(p => slots[(p, p)])],
            neighbours,
            [.. order.Select((p, k) => neighbours[k].Select(j => slots[(p, j)]).ToArray())],
            [.. order.Select((p, k) => neighbours[k].Select(i => slots[(i, p)]).ToArray())],
            [.. updates], start,
            [.. among.Where(s => s.Value < before).Select(s => s.Key)], [.. among.Select(s => s.Value)]);
    }
}

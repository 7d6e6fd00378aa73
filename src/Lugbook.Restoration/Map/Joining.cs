using Lugbook.Trade;
using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Map;

/// <summary>Lugs joined by wires, and wires and bonds: disjoint sets with path halving.</summary>
internal sealed class Joining
{
    private readonly Dictionary<string, int> _numbers = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<string> _lugs = [];
    private readonly List<int> _wired = [];
    private readonly List<int> _bonded = [];

    private Joining() { }

    /// <summary>All lugs: first the table's, in its order, then those that only a wire or a lead names.</summary>
    public IReadOnlyList<string> Lugs => _lugs;

    /// <summary>How many of <see cref="Lugs"/> are in the book's table.</summary>
    public int Known { get; private set; }

    public static Joining Of(Book book)
    {
        Joining joining = new();
        foreach (var lug in book.Lugs) joining.Number(lug.Name);
        joining.Known = joining._lugs.Count;
        foreach (var wire in book.Wires)
            if (Named(wire.From) && Named(wire.To))
                joining.Join(wire.From, wire.To, wire.Kind == WireKind.Bond);
        foreach (var part in book.Parts)
            foreach (var lead in part.Leads)
                if (Named(lead.Lug)) joining.Number(lead.Lug);
        // All lugs of the chassis itself are one piece of metal.
        string? metal = null;
        foreach (var lug in book.Lugs.Where(l => book.Mounts.Named(l.Mount)?.Kind == MountKind.Chassis))
        {
            if (metal is not null) joining.Join(metal, lug.Name, bond: true);
            metal ??= lug.Name;
        }
        return joining;
    }

    /// <summary>The set of a lug when wires and bonds join.</summary>
    public int Set(int lug) => Root(_bonded, lug);

    /// <summary>The set of a lug when only wires join.</summary>
    public int WiredSet(int lug) => Root(_wired, lug);

    private static bool Named(string? lug) => !string.IsNullOrWhiteSpace(lug);

    private int Number(string lug)
    {
        lug = lug.Trim();
        if (_numbers.TryGetValue(lug, out var number)) return number;
        number = _lugs.Count;
        _numbers.Add(lug, number);
        _lugs.Add(lug);
        _wired.Add(number);
        _bonded.Add(number);
        return number;
    }

    private void Join(string from, string to, bool bond)
    {
        var (a, b) = (Number(from), Number(to));
        Merge(_bonded, a, b);
        if (!bond) Merge(_wired, a, b);
    }

    private static void Merge(List<int> sets, int a, int b)
    {
        var (x, y) = (Root(sets, a), Root(sets, b));
        sets[Math.Max(x, y)] = Math.Min(x, y);
    }

    private static int Root(List<int> sets, int lug)
    {
        while (sets[lug] != lug) lug = sets[lug] = sets[sets[lug]];
        return lug;
    }
}

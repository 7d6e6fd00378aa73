using System.Collections.Frozen;
using System.Collections.Immutable;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map;

/// <summary>The bare nodes with what is on them; what the finders and the rules look at.</summary>
internal sealed class Chart
{
    private Chart() { }

    public required Book Book { get; init; }
    public required ValveHandbook Handbook { get; init; }
    public required ImmutableArray<PluggedValve> Valves { get; init; }
    public required ImmutableArray<ImmutableArray<string>> LugsOf { get; init; }
    public required FrozenDictionary<string, int> NodeByLug { get; init; }
    public required FrozenDictionary<string, int> WiredSetByLug { get; init; }
    public required ImmutableArray<string> UnknownLugs { get; init; }
    public required ImmutableArray<ImmutableArray<PartLead>> LeadsOf { get; init; }
    public required ImmutableArray<ImmutableArray<ValvePin>> PinsOf { get; init; }

    public int Count => LugsOf.Length;

    public static Chart Of(Book book, ValveHandbook handbook)
    {
        var joining = Joining.Of(book);
        var indexBySet = new Dictionary<int, int>();
        var lugs = new List<ImmutableArray<string>.Builder>();
        var nodeByLug = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        var wired = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < joining.Lugs.Count; i++)
        {
            if (!indexBySet.TryGetValue(joining.Set(i), out var index))
            {
                indexBySet.Add(joining.Set(i), index = lugs.Count);
                lugs.Add(ImmutableArray.CreateBuilder<string>());
            }
            lugs[index].Add(joining.Lugs[i]);
            nodeByLug.Add(joining.Lugs[i], index);
            wired.Add(joining.Lugs[i], joining.WiredSet(i));
        }

        var leads = Lists<PartLead>(lugs.Count);
        foreach (var part in book.Parts)
            foreach (var lead in part.Leads)
                if (nodeByLug.TryGetValue(lead.Lug.Trim(), out var index)) leads[index].Add(new(part, lead.Letter, lead.Lug.Trim()));
        var valves = ValvePins.Of(book, handbook);
        var pins = Lists<ValvePin>(lugs.Count);
        foreach (var pin in valves.SelectMany(v => v.Pins))
            if (nodeByLug.TryGetValue(pin.Lug, out var index)) pins[index].Add(pin);

        return new()
        {
            Book = book,
            Handbook = handbook,
            Valves = valves,
            LugsOf = [.. lugs.Select(l => l.ToImmutable())],
            NodeByLug = nodeByLug.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase),
            WiredSetByLug = wired.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase),
            UnknownLugs = [.. joining.Lugs.Skip(joining.Known)],
            LeadsOf = [.. leads.Select(l => l.ToImmutable())],
            PinsOf = [.. pins.Select(p => p.ToImmutable())],
        };
    }

    /// <summary>Node of a lug; null when nothing names it.</summary>
    public int? NodeOf(string? lug) => lug is not null && NodeByLug.TryGetValue(lug.Trim(), out var node) ? node : null;

    /// <summary>The mount of a lug's row.</summary>
    public Mount? MountOf(string lug) => Book.Mounts.Named(Book.Lugs.Named(lug)?.Mount);

    /// <summary>Nodes of a part's first two leads; null unless both are on a node.</summary>
    public (int A, int B)? Ends(Part part) => NodeOf(part.LeadA) is { } a && NodeOf(part.LeadB) is { } b ? (a, b) : null;

    /// <summary>The node's best-known lug: a valve pin in use first, then cans and coils, tag strips last; then the natural order of names.</summary>
    public string BestLug(int node) => LugsOf[node].OrderBy(Rank).ThenBy(l => l, NaturalOrder.Names).First();

    private int Rank(string lug)
    {
        if (MountOf(lug) is not { } mount) return 8;
        if (mount.Kind.IsSocket() || Valves.Any(v => v.Socket?.Id == mount.Id))
        {
            var pin = PinsOf[NodeByLug[lug]].FirstOrDefault(p => string.Equals(p.Lug, lug, StringComparison.OrdinalIgnoreCase));
            return pin is null || pin.Electrodes.All(e => e.Kind is ElectrodeKind.NoConnection or ElectrodeKind.Internal or ElectrodeKind.Shell) ? 6 : 0;
        }
        return mount.Kind switch
        {
            MountKind.Chassis => 5,
            MountKind.TagStrip or MountKind.ScrewStrip or MountKind.EarthLug => 7,
            MountKind.Other => 4,
            MountKind.Can => 1,
            _ => 2,
        };
    }

    private static ImmutableArray<T>.Builder[] Lists<T>(int count) =>
        [.. Enumerable.Range(0, count).Select(_ => ImmutableArray.CreateBuilder<T>())];
}

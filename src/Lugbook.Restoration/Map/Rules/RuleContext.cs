using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>What every rule may look at; all of it computed before the first rule runs.</summary>
internal sealed class RuleContext
{
    public RuleContext(Chart chart, MapResult map)
    {
        Chart = chart;
        Map = map;
        Paths = new(chart);
        Common = map.Common.Node?.Index;
        Chassis = map.Chassis.Node?.Index;
        Ground = [.. new[] { Common, Chassis }.OfType<int>()];
        Rails = [.. SupplyRails.Find(chart, Common)];
        Supplies = [.. SupplyRails.Outputs(chart).Concat(Rails).Concat(chart.Book.Declared.Where(d => d.Volts >= 20).Select(d => chart.NodeOf(d.Name)).OfType<int>())];
        Supplies.ExceptWith(Ground);
        Supplied = Paths.Reach(Supplies, Ground, forwards: true);
        Supplied.ExceptWith(Ground);
    }

    public Chart Chart { get; }
    public MapResult Map { get; }
    public Book Book => Chart.Book;
    public DcPaths Paths { get; }
    public int? Common { get; }
    public int? Chassis { get; }
    /// <summary>Common and chassis: where ways end.</summary>
    public HashSet<int> Ground { get; }
    /// <summary>B+1, B+2, ….</summary>
    public HashSet<int> Rails { get; }
    /// <summary>Rectifier outputs, rails and declared positive voltages.</summary>
    public HashSet<int> Supplies { get; }
    /// <summary>Everything that a supply reaches through parts and valves without passing common or chassis.</summary>
    public HashSet<int> Supplied { get; }
    /// <summary>What common is called in sentences: "B- (V4-1)" or "common (the chassis)".</summary>
    public string CommonWords => Common is not { } common ? "common" : Common == Chassis ? "the chassis"
        : $"B- ({Chart.LeadsOf[common].FirstOrDefault(l => l.Part.Kind == PartKind.Electrolytic)?.Lug ?? Chart.BestLug(common)})";

    public string Name(int node) => Map.Nodes[node].Name;
    public int Node(ValvePin pin) => Chart.NodeByLug[pin.Lug];

    /// <summary>Does a wire, a lead or a strap reach this lug's node from anywhere else?</summary>
    public bool IsUsed(string lug)
    {
        var node = Chart.NodeByLug[lug];
        return Chart.LeadsOf[node].Length > 0 || Chart.LugsOf[node].Length > 1;
    }

    /// <summary>Does a lead or a wire end on this very lug?</summary>
    public bool IsSoldered(string lug) =>
        Chart.LeadsOf[Chart.NodeByLug[lug]].Any(l => Same(l.Lug, lug)) || Book.Wires.Any(w => Same(w.From, lug) || Same(w.To, lug));

    /// <summary>Has anything been soldered to this valve's socket yet?</summary>
    public bool IsWired(PluggedValve valve) => valve.Pins.Any(p => IsUsed(p.Lug));

    /// <summary>Does the node leave the book: a jack, a screw, a plug, a part of unknown kind, a lug that is not entered?</summary>
    public bool LeavesTheBook(int node) =>
        Chart.LugsOf[node].Any(l => Chart.MountOf(l) is not { } mount
            || mount.Kind is MountKind.Jack or MountKind.ScrewStrip or MountKind.SealedUnit or MountKind.LineCord
            || mount.Kind == MountKind.Other && !Chart.Valves.Any(v => v.Socket?.Id == mount.Id)
            || mount.Kind.IsSocket() && !Chart.Valves.Any(v => v.Socket?.Id == mount.Id))
        || Chart.LeadsOf[node].Any(l => l.Part.Kind is PartKind.Other or PartKind.SubUnit);

    public static bool Same(string? a, string? b) => a is not null && b is not null && string.Equals(a.Trim(), b.Trim(), StringComparison.OrdinalIgnoreCase);
}

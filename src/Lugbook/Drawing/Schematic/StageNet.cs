using System.Collections.Immutable;
using Lugbook.Output;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Drawing.Schematic;

/// <summary>Which way a part leads from its node, by the trade's drawing conventions.</summary>
internal enum Way
{
    /// <summary>To common.</summary>
    Down,
    /// <summary>To a supply.</summary>
    Up,
    /// <summary>To the next node.</summary>
    Onward,
}

/// <summary>A part on a node.</summary>
/// <param name="Part">The part.</param>
/// <param name="Lead">Its lead on the node.</param>
/// <param name="Way">Which way it leads.</param>
/// <param name="Ends">What stands at its far end in words: a supply, an electrode, a lug; null at common and where <paramref name="Beyond"/> goes on.</param>
/// <param name="Beyond">The node behind it, when it is drawn too.</param>
internal sealed record Branch(Part Part, char Lead, Way Way, string? Ends, StageNet? Beyond);

/// <summary>A node of a stage with what hangs on it; every part once in a diagram.</summary>
/// <param name="Node">The map's node.</param>
/// <param name="Branches">Its parts.</param>
/// <param name="Elsewhere">Other valves' electrodes on it, in words.</param>
internal sealed record StageNet(int Node, ImmutableArray<Branch> Branches, ImmutableArray<string> Elsewhere)
{
    public IEnumerable<Branch> Going(Way way) => Branches.Where(b => b.Way == way);
}

/// <summary>Takes from a map what is around one section of a valve.</summary>
internal sealed class StageReader(MapResult map, Part valve)
{
    private const int Deep = 2, MostBeyond = 7;
    private readonly HashSet<int> _drawn = [];

    /// <summary>The net of an electrode's node, as far as it is not drawn yet.</summary>
    public StageNet Read(int node) => Read(node, 0);

    private StageNet Read(int node, int depth)
    {
        var leads = map.Nodes[node].Leads.Where(l => IsDrawn(l.Part) && _drawn.Add(l.Part.Id)).ToArray();
        var branches = leads.Select(l => ToBranch(l, node, depth)).OrderBy(b => b.Way).ThenBy(b => b.Beyond is null).ThenBy(b => b.Part.Name, StringComparer.Ordinal).ToImmutableArray();
        var elsewhere = Electrodes(map.Nodes[node].Pins.Where(p => p.Valve.Id != valve.Id || depth > 0));
        return new(node, branches, elsewhere);
    }

    private static bool IsDrawn(Part part) => part.Kind is not (PartKind.Valve or PartKind.Glass);

    private Branch ToBranch(PartLead lead, int node, int depth)
    {
        var part = lead.Part;
        var far = Far(part, lead.Letter, node);
        if (far is not { } to) return new(part, lead.Letter, Way.Onward, "nothing entered", null);
        if (IsCommon(to)) return new(part, lead.Letter, Way.Down, Slider(part, lead.Letter), null);
        if (IsSupply(to)) return new(part, lead.Letter, Way.Up, map.Nodes[to].Name, null);
        var others = map.Nodes[to].Leads.Count(l => IsDrawn(l.Part) && !_drawn.Contains(l.Part.Id));
        var electrodes = Electrodes(map.Nodes[to].Pins);
        if (electrodes.Length > 0) return new(part, lead.Letter, Way.Onward, string.Join(", ", electrodes.Take(2)), null);
        if (depth + 1 < Deep && others is > 0 and <= MostBeyond) return new(part, lead.Letter, Way.Onward, null, Read(to, depth + 1));
        return new(part, lead.Letter, Way.Onward, others == 0 && map.Nodes[to].Leads.Length == 1 ? "nothing" : map.Nodes[to].Name, null);
    }

    private static ImmutableArray<string> Electrodes(IEnumerable<ValvePin> pins) =>
        [.. pins.SelectMany(p => p.Electrodes.Where(e => !IsHeater(e.Kind)).Select(e => $"{e.InWords} of {p.Valve.Name}")).Distinct()];

    // A control: its far end is the other end of its track; from the slider it is the end at common, if one is there.
    private int? Far(Part part, char letter, int node)
    {
        var ends = part.Leads.Where(l => l.Letter != letter).Select(l => (l.Letter, Node: map.NodeOf(l.Lug)?.Index)).Where(l => l.Node is not null && l.Node != node).ToArray();
        if (ends.Length == 0) return null;
        if (part.Kind == PartKind.Control && letter != 'c') ends = [.. ends.OrderBy(e => e.Letter == 'c')];
        return (ends.Where(e => IsCommon(e.Node!.Value)).Select(e => e.Node).FirstOrDefault() ?? ends[0].Node)!.Value;
    }

    private string? Slider(Part part, char letter) => part.Kind != PartKind.Control ? null
        : part.Leads.FirstOrDefault(l => l.Letter != letter && map.NodeOf(l.Lug) is { } n && !IsCommon(n.Index)) is { Lug: { } lug } ? map.NodeOf(lug)!.Name : null;

    public bool IsCommon(int node) => node == map.Common.Node?.Index || node == map.Chassis.Node?.Index || node == map.Earth.Node?.Index;

    public string NameOf(int node) => map.Nodes[node].Name;

    /// <summary>The map names supply nodes B+, B+1, … in the order in which they follow the rectifier.</summary>
    public bool IsSupply(int node) => map.Nodes[node].Name.StartsWith("B+", StringComparison.Ordinal);

    public static bool IsHeater(ElectrodeKind kind) => kind is ElectrodeKind.Heater or ElectrodeKind.HeaterTap or ElectrodeKind.Filament or ElectrodeKind.NoConnection or ElectrodeKind.Internal or ElectrodeKind.Shell or ElectrodeKind.Shield or ElectrodeKind.Jumper or ElectrodeKind.BeamPlates;

    /// <summary>Name and value, in two lines.</summary>
    public static (string Name, string Value) Label(Part part) => (part.Name, PartWords.Value(part));
}

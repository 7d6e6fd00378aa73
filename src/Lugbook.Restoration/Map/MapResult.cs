using System.Collections.Frozen;
using System.Collections.Immutable;
using Lugbook.Trade;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map;

/// <summary>A lead of a part, with its part.</summary>
/// <param name="Part">The part.</param>
/// <param name="Letter">'a', 'b' or 'c'.</param>
/// <param name="Lug">The lug it is on.</param>
public sealed record PartLead(Part Part, char Letter, string Lug);

/// <summary>What is electrically joined: lugs that wires, bonds and straps make one.</summary>
/// <remarks><see cref="Name"/> is stable under reordering of the tables: a role ("chassis", "B-"), or the node's best-known lug.</remarks>
public sealed record Node
{
    /// <summary>Number within the map, from 0.</summary>
    public required int Index { get; init; }
    /// <summary>How people would call it.</summary>
    public required string Name { get; init; }
    /// <summary>Its lugs, in the order of the book.</summary>
    public required ImmutableArray<string> Lugs { get; init; }
    /// <summary>The leads that are on it.</summary>
    public required ImmutableArray<PartLead> Leads { get; init; }
    /// <summary>The valve pins on it whose electrode is known.</summary>
    public required ImmutableArray<ValvePin> Pins { get; init; }
}

/// <summary>One pin of a valve in its socket.</summary>
/// <param name="Valve">The valve's part.</param>
/// <param name="Lug">The socket's lug.</param>
/// <param name="Pin">Pin number; null for a top cap.</param>
/// <param name="Electrode">The electrode by the trade's letters (p, g1, g2, k, h, f, d1, …); several joined by commas.</param>
public sealed record ValvePin(Part Valve, string Lug, int? Pin, string Electrode)
{
    /// <summary>The same electrodes with what each does: in a twin triode "g2" is a control grid, elsewhere a screen.</summary>
    public ImmutableArray<Electrode> Electrodes { get; init; } = [];

    /// <summary>Is this electrode on the pin?</summary>
    public bool Has(ElectrodeKind kind) => Electrodes.Any(e => e.Kind == kind);
}

/// <summary>How a node comes to be joined to the line.</summary>
public enum LinePath
{
    /// <summary>It is a blade, or wired to one.</summary>
    Blade,
    /// <summary>Through switches, fuses, lamps, thermistors, chokes, primaries, droppers or surge resistors.</summary>
    Conductor,
    /// <summary>Through valve heaters in series.</summary>
    Heaters,
    /// <summary>Behind a rectifier that the line feeds directly: B+ of a set without a transformer.</summary>
    Rectifier,
}

/// <summary>A node joined to the line, and how.</summary>
/// <param name="Node">The node.</param>
/// <param name="Path">The worst step on the way.</param>
/// <param name="Evidence">The way as a sentence.</param>
public sealed record LineNode(Node Node, LinePath Path, string Evidence);

/// <summary>A part that alone keeps a touchable or chassis node from the line.</summary>
/// <param name="Part">The capacitor or the high resistance.</param>
/// <param name="Line">Its node on the line.</param>
/// <param name="Far">Its other node.</param>
public sealed record Isolation(Part Part, Node Line, Node Far);

/// <summary>How sure a contradiction is.</summary>
public enum Weight
{
    /// <summary>Worth a look; many good sets show it.</summary>
    Remark,
    /// <summary>Probably a slip in the book or a former repair.</summary>
    Doubt,
    /// <summary>Cannot be true of a working set.</summary>
    Contradiction,
}

/// <summary>Something in the book that does not agree, in one plain sentence and with its place.</summary>
/// <param name="Rule">Which rule found it: a short stable word for programs ("lead-on-no-lug").</param>
/// <param name="Weight">How sure.</param>
/// <param name="Place">Part, lug, valve or node.</param>
/// <param name="Sentence">What does not agree.</param>
/// <param name="Remedy">What to look at or do.</param>
public sealed record Contradiction(string Rule, Weight Weight, string Place, string Sentence, string Remedy);

/// <summary>The common negative, and how it was found.</summary>
/// <param name="Node">The node; null when the book does not tell.</param>
/// <param name="Evidence">The reason, as a sentence.</param>
public sealed record FoundNode(Node? Node, string Evidence);

/// <summary>What is joined to what.</summary>
/// <remarks>Chassis metal, the common negative (B-) and protective earth are three different things and may be one node, two or three.</remarks>
public sealed record MapResult
{
    /// <summary>The book this was made from.</summary>
    public required Book Book { get; init; }
    /// <summary>All nodes, by index.</summary>
    public required ImmutableArray<Node> Nodes { get; init; }
    /// <summary>Lug name to node index; names compare without case.</summary>
    public required FrozenDictionary<string, int> NodeByLug { get; init; }
    /// <summary>The chassis metal.</summary>
    public required FoundNode Chassis { get; init; }
    /// <summary>The common negative, to which the sheet's voltages are measured.</summary>
    public required FoundNode Common { get; init; }
    /// <summary>Protective earth of the line cord.</summary>
    public required FoundNode Earth { get; init; }
    /// <summary>Nodes joined to the line, directly or through heaters, switches, fuses and windings that do not isolate.</summary>
    public required ImmutableArray<Node> LineNodes { get; init; }
    /// <summary>The same nodes as <see cref="LineNodes"/>, each with how it comes to be there.</summary>
    public ImmutableArray<LineNode> LineWays { get; init; } = [];
    /// <summary>Capacitors and high resistances between the line and the chassis or the earth, where these are not on the line themselves.</summary>
    public ImmutableArray<Isolation> Isolations { get; init; } = [];
    /// <summary>Lugs that a wire or a lead names but the table of lugs has not; each is a node of its own, so that the rest can be worked with.</summary>
    public ImmutableArray<string> UnknownLugs { get; init; } = [];
    /// <summary>Lug name to the set that wires alone make: two lugs of one node but different sets are joined by bonds only.</summary>
    public FrozenDictionary<string, int> WiredSetByLug { get; init; } = FrozenDictionary<string, int>.Empty;
    /// <summary>What does not agree, worst first.</summary>
    public required ImmutableArray<Contradiction> Contradictions { get; init; }

    /// <summary>The node of a lug, or null when the lug is unknown.</summary>
    public Node? NodeOf(string? lug) => lug is not null && NodeByLug.TryGetValue(lug, out var index) ? Nodes[index] : null;

    /// <summary>Are both lugs on one node, but only because metal is bonded to metal? That is an assumption to be tested.</summary>
    public bool JoinedByBondsOnly(string lug, string other) =>
        NodeOf(lug) is { } node && node == NodeOf(other)
        && WiredSetByLug.TryGetValue(lug, out var a) && WiredSetByLug.TryGetValue(other, out var b) && a != b;

    /// <summary>Is the node joined to the line?</summary>
    public bool IsOnLine(Node? node) => node is not null && LineNodes.Any(n => n.Index == node.Index);
}

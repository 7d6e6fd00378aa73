using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;

namespace Lugbook.Restoration.Slips;

/// <summary>Which mistake of the hand.</summary>
public enum SlipKind
{
    /// <summary>A lead on a lug beside its own.</summary>
    NeighbouringLug,
    /// <summary>A lead that is not soldered.</summary>
    Missed,
    /// <summary>Solder, a whisker or a clipping between two lugs.</summary>
    Bridge,
    /// <summary>The part the wrong way round, where that matters.</summary>
    Reversed,
    /// <summary>A wire that went to the neighbouring lug together with the lead.</summary>
    WireDisplaced,
    /// <summary>A wire that came off when the lead was changed.</summary>
    WireOff,
    /// <summary>A part of another value.</summary>
    WrongValue,
    /// <summary>The position is empty.</summary>
    Empty,
    /// <summary>The old part is still there.</summary>
    OldLeft,
    /// <summary>The old part is still there beside the new one.</summary>
    OldBeside,
    /// <summary>Two places touch that would cost a life or a transformer, wherever they are: no slip of one position.</summary>
    Dangerous,
}

/// <summary>A change of a network.</summary>
public sealed record SlipChange
{
    /// <summary>No change.</summary>
    public static SlipChange None { get; } = new();
    /// <summary>Elements in place of those of their names: on other nodes, or of another value.</summary>
    public ImmutableArray<Element> Instead { get; init; } = [];
    /// <summary>Elements that are there besides.</summary>
    public ImmutableArray<Element> Further { get; init; } = [];
    /// <summary>Names of new nodes; the first has the number that follows the network's last.</summary>
    public ImmutableArray<string> NewNodes { get; init; } = [];
    /// <summary>Lugs that are then on another node than the map says.</summary>
    public ImmutableDictionary<string, int> Lugs { get; init; } = ImmutableDictionary<string, int>.Empty.WithComparers(StringComparer.OrdinalIgnoreCase);

    /// <summary>The network with this change: a variant as the circuit engine takes it.</summary>
    /// <exception cref="ArgumentException">It was made for another network: an element is missing, or a node.</exception>
    public Network Of(Network network)
    {
        var instead = Instead.ToDictionary(e => e.Name, StringComparer.Ordinal);
        foreach (var name in instead.Keys)
            if (!network.Elements.Any(e => e.Name == name)) throw new ArgumentException($"No element is called '{name}': the slip belongs to another network.", nameof(network));
        return new([.. network.NodeNames, .. NewNodes], network.Reference, [.. network.Elements.Select(e => instead.GetValueOrDefault(e.Name) ?? e), .. Further]);
    }
}

/// <summary>One possible mistake of the hand, in words and as a change of the network.</summary>
public sealed record Slip
{
    /// <summary>Stable word for programs, made of references and lugs alone: "C12.b>A-4".</summary>
    public required string Id { get; init; }
    /// <summary>Which mistake.</summary>
    public required SlipKind Kind { get; init; }
    /// <summary>The part whose exchange makes it possible.</summary>
    public required string Position { get; init; }
    /// <summary>In words: "lead b of C12 on A-4 instead of A-3".</summary>
    public required string Sentence { get; init; }
    /// <summary>What the eye looks at.</summary>
    public required string LookAt { get; init; }
    /// <summary>Lugs concerned.</summary>
    public required ImmutableArray<string> Lugs { get; init; }
    /// <summary>What it does to the network; null where the book does not tell (several pins of one valve on one node).</summary>
    public required SlipChange? Change { get; init; }

    /// <summary>Is it a matter of where things are soldered, and not of which part was taken?</summary>
    public bool IsGeometric => Kind is SlipKind.NeighbouringLug or SlipKind.Missed or SlipKind.Bridge or SlipKind.Reversed or SlipKind.WireDisplaced or SlipKind.WireOff;
}

/// <summary>A part that lies at hand and could be taken for another.</summary>
/// <param name="Position">The position it is meant for.</param>
/// <param name="Value">Its nominal value, Ω or F.</param>
public sealed record PartAtHand(string Position, double Value);

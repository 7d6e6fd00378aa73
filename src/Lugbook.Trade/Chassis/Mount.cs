using System.Text.Json.Serialization;

namespace Lugbook.Trade.Chassis;

/// <summary>Something with lugs: a tag strip, a valve socket, a can, a control, the chassis itself.</summary>
public sealed record Mount : Row
{
    /// <summary>The kind as people wrote it.</summary>
    public required string KindAsWritten { get; init; }
    /// <summary>Anything else.</summary>
    public string? Note { get; init; }
    /// <summary>The kind as Lugbook understands it.</summary>
    [JsonIgnore]
    public MountKind Kind => MountKinds.Of(KindAsWritten);
}

/// <summary>A point to which leads are soldered.</summary>
/// <remarks>Plan view from beneath: x to the right, y to the rear, front edge y = 0, millimetres. Null when not measured.</remarks>
public sealed record Lug : Row
{
    /// <summary>Name of its mount.</summary>
    public required string Mount { get; init; }
    /// <summary>Number on its mount: for a socket the pin; for anything else its place. Null when it has none.</summary>
    public int? No { get; init; }
    /// <summary>What the mount's maker made it for: "grid 1", "wiper", "mounting foot".</summary>
    public string? Function { get; init; }
    /// <summary>To the right, mm, seen from beneath.</summary>
    public double? X { get; init; }
    /// <summary>To the rear, mm.</summary>
    public double? Y { get; init; }
    /// <summary>What this set uses it for.</summary>
    public string? Note { get; init; }
}

/// <summary>What joins two lugs.</summary>
public enum WireKind
{
    /// <summary>Insulated wire.</summary>
    Wire,
    /// <summary>Bare wire or strap.</summary>
    Bare,
    /// <summary>One of a twisted pair.</summary>
    Twisted,
    /// <summary>The core of a shielded wire.</summary>
    Shielded,
    /// <summary>A conductor of the line cord.</summary>
    LineCord,
    /// <summary>Metal to metal with the chassis: a rivet, a twist tab, a bushing. An assumption to be tested, not a fact.</summary>
    Bond,
}

/// <summary>A wire, or a bond to the chassis, between two lugs.</summary>
public sealed record Wire : Row
{
    /// <summary>Lug at one end.</summary>
    public required string From { get; init; }
    /// <summary>Lug at the other end.</summary>
    public required string To { get; init; }
    /// <summary>The kind as people wrote it.</summary>
    public string? KindAsWritten { get; init; }
    /// <summary>Colour of its insulation.</summary>
    public string? Colour { get; init; }
    /// <summary>Anything else.</summary>
    public string? Note { get; init; }
    /// <summary>The kind as Lugbook understands it; an unknown one is an ordinary wire.</summary>
    [JsonIgnore]
    public WireKind Kind => KindAsWritten?.Trim().ToLowerInvariant() switch
    {
        "bond" or "rivet" or "bonded" => WireKind.Bond,
        "bare" or "strap" or "bus" => WireKind.Bare,
        "twisted" or "twisted pair" => WireKind.Twisted,
        "shielded" or "screened" => WireKind.Shielded,
        "line cord" or "mains lead" => WireKind.LineCord,
        _ => WireKind.Wire,
    };
}

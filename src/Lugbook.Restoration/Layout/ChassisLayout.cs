using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Layout.Mounts;

namespace Lugbook.Restoration.Layout;

/// <summary>Where everything is, in chassis millimetres; the same from whichever side it is looked at.</summary>
public sealed record ChassisLayout
{
    /// <summary>Lugs and mounts.</summary>
    public required Places Places { get; init; }
    /// <summary>Mounts in their real shapes.</summary>
    public required ImmutableArray<MountFigure> Mounts { get; init; }
    /// <summary>One for each part of the book, in its order.</summary>
    public required ImmutableArray<PlacedBody> Bodies { get; init; }
    /// <summary>Bodies that several parts share.</summary>
    public required ImmutableArray<SharedBody> Shared { get; init; }
    /// <summary>One for each wire of the book, in its order.</summary>
    public required ImmutableArray<PlacedWire> Wires { get; init; }
    /// <summary>The chassis as far as lugs tell; null when nothing is measured.</summary>
    public required Box? Edges { get; init; }
    /// <summary>Where parts lie that are on no lug yet.</summary>
    public required Box? Tray { get; init; }
}

using System.Collections.Immutable;

namespace Lugbook.Drawing;

/// <summary>How the sheet lies: quarter turns clockwise.</summary>
public enum Turn
{
    /// <summary>Rear up, front edge at the bottom.</summary>
    None,
    /// <summary>A quarter turn clockwise.</summary>
    Quarter,
    /// <summary>Half a turn.</summary>
    Half,
    /// <summary>Three quarters of a turn clockwise.</summary>
    ThreeQuarters,
}

/// <summary>The names of the layers, from below to above.</summary>
public static class LayerNames
{
    public const string Chassis = "chassis", Mounts = "mounts", Wires = "wires", Parts = "parts", Lugs = "lugs", Labels = "labels", Highlight = "highlight";
    /// <summary>All of them, in order.</summary>
    public static ImmutableArray<string> All { get; } = [Chassis, Mounts, Wires, Parts, Lugs, Labels, Highlight];
}

/// <summary>Something that may be at fault.</summary>
/// <param name="Name">Name of a part, a lug, a mount or a wire, in this order of search.</param>
/// <param name="Weight">How likely, from 0 to 1.</param>
public readonly record struct Suspect(string Name, double Weight);

/// <summary>What is to be seen, and from where.</summary>
public sealed record DrawingOptions
{
    /// <summary>From beneath, rear up, every layer, nothing highlighted.</summary>
    public static DrawingOptions Default { get; } = new();
    /// <summary>As seen from above.</summary>
    public bool Mirror { get; init; }
    /// <summary>How the sheet lies.</summary>
    public Turn Rotate { get; init; }
    /// <summary>Layers to draw; a layer left out has no items.</summary>
    public ImmutableHashSet<string> Layers { get; init; } = [.. LayerNames.All];
    /// <summary>Print values on bodies and beside them.</summary>
    public bool Values { get; init; } = true;
    /// <summary>Draw colour bands and dots.</summary>
    public bool Bands { get; init; } = true;
    /// <summary>What may be at fault, likeliest first: parts, lugs, mounts or wires by name. Each bears its rank and its weight in print, so that no colour is needed.</summary>
    public ImmutableArray<Suspect> Suspects { get; init; } = [];
    /// <summary>Highlight all that is joined to this: a node's name or a lug on it. Without a map, the lug alone.</summary>
    public string? Node { get; init; }
    /// <summary>Highlight this part and its lugs.</summary>
    public string? Part { get; init; }
    /// <summary>Highlight this lug.</summary>
    public string? Lug { get; init; }
    /// <summary>Highlight a stage: this valve, and every part with a lead on its pins or on what they are joined to.</summary>
    public string? Stage { get; init; }
    /// <summary>Mark each part as done, to do, to be measured, or staying.</summary>
    public bool ShowWork { get; init; }
    /// <summary>Where a meter's probes stand: the lug of the red one and that of the black one; null for none.</summary>
    public (string Red, string Black)? Probes { get; init; }
    /// <summary>Short texts to set beside lugs, by lug name: voltages, readings. They are placed before all other labels.</summary>
    public ImmutableDictionary<string, string> LugNotes { get; init; } = ImmutableDictionary<string, string>.Empty;
}

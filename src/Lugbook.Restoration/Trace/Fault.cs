using System.Collections.Immutable;
using Lugbook.Restoration.Slips;

namespace Lugbook.Restoration.Trace;

/// <summary>What sort of explanation it is.</summary>
public enum FaultKind
{
    /// <summary>Nothing is wrong: all parts within their tolerance.</summary>
    Healthy,
    /// <summary>Something that the book or the program does not know.</summary>
    NotModelled,
    /// <summary>A part that conducts no more.</summary>
    Open,
    /// <summary>A part that is next to nothing in ohms.</summary>
    Shorted,
    /// <summary>A capacitor that lets direct current through.</summary>
    Leaky,
    /// <summary>Higher than its mark allows.</summary>
    High,
    /// <summary>Lower than its mark allows.</summary>
    Low,
    /// <summary>A valve with too little emission.</summary>
    Weak,
    /// <summary>A valve that passes nothing: heater open, no emission, out of its socket.</summary>
    Dead,
    /// <summary>A valve whose grid takes current: gas, or grid emission.</summary>
    GridCurrent,
    /// <summary>Two electrodes of a valve touch.</summary>
    Touching,
    /// <summary>A mistake of the hand.</summary>
    Slip,
}

/// <summary>One size of a fault: a drift of so many times, a leak of so many ohms.</summary>
/// <param name="Words">The size in words: "4 times its mark", "200 kΩ"; empty where there is only one.</param>
/// <param name="Share">How likely this size is among the fault's, 0 to 1.</param>
/// <param name="Log">Natural logarithm of the size, for values in between; 0 where there is only one.</param>
/// <param name="Change">What it does to the network.</param>
internal sealed record FaultSize(string Words, double Share, double Log, SlipChange Change);

/// <summary>One explanation of what is measured.</summary>
internal sealed record Fault
{
    /// <summary>Stable word for programs: "C12 leaky", "V3 weak", a slip's id.</summary>
    public required string Id { get; init; }
    /// <summary>Which sort.</summary>
    public required FaultKind Kind { get; init; }
    /// <summary>The part, valve or supply; empty for healthy.</summary>
    public required string Position { get; init; }
    /// <summary>In words.</summary>
    public required string Words { get; init; }
    /// <summary>What settles it: the lead to lift, the valve to exchange, what to look at.</summary>
    public required string Act { get; init; }
    /// <summary>How often it is met beside others, before any reading.</summary>
    public required double Weight { get; init; }
    /// <summary>Where the weight comes from, in words.</summary>
    public required string Why { get; init; }
    /// <summary>Its sizes, in order.</summary>
    public required ImmutableArray<FaultSize> Sizes { get; init; }
}

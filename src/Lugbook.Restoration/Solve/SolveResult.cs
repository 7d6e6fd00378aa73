using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Restoration.Netlist;

namespace Lugbook.Restoration.Solve;

/// <summary>A book's set, solved: what all later stages compute from.</summary>
public sealed record SolveResult
{
    /// <summary>The network and what it stands for.</summary>
    public required NetlistResult Netlist { get; init; }
    /// <summary>The network for direct current, with the line's rectifiers averaged and declared currents balanced; null when nothing could be solved.</summary>
    public required Network? Direct { get; init; }
    /// <summary>Its operating point.</summary>
    public required OperatingPoint? Point { get; init; }
    /// <summary>The line's cycle: ripple, rms volts, peaks; null without a line.</summary>
    public required SupplyState? Cycle { get; init; }
    /// <summary>Rectifiers that were averaged.</summary>
    public required ImmutableArray<AveragedRectifier> Rectifiers { get; init; }
    /// <summary>What may differ: the netlist's, and the line.</summary>
    public required ImmutableArray<Spread> Spreads { get; init; }
    /// <summary>Why it is not solved, in a sentence; null when it is.</summary>
    public string? Reason { get; init; }
    /// <summary>What the answer rests on, in sentences: averaging, balances.</summary>
    public required ImmutableArray<string> Remarks { get; init; }
}

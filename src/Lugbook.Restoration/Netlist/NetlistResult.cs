using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Netlist;

/// <summary>What an element of the network stands for.</summary>
/// <param name="Element">The element's name in the network.</param>
/// <param name="Position">The part's name in the book.</param>
/// <param name="What">What of it, where a part makes several elements: "heater", "section 1", "winding T1P"; empty for the whole.</param>
public sealed record Origin(string Element, string Position, string What);

/// <summary>Why a value may differ in a set that is as it should be.</summary>
public enum SpreadCause
{
    /// <summary>A part within its marked tolerance.</summary>
    Tolerance,
    /// <summary>A valve within the spread of new ones.</summary>
    Valve,
    /// <summary>A control, anywhere on its track.</summary>
    Setting,
    /// <summary>The line, ±10 %.</summary>
    Line,
    /// <summary>A voltage taken from the sheet.</summary>
    Declared,
    /// <summary>A value that nobody entered: it may be anything that such a part can be.</summary>
    Unknown,
}

/// <summary>A value that may differ.</summary>
/// <param name="Element">The element.</param>
/// <param name="Parameter">What of it.</param>
/// <param name="Nominal">Its value in the network, in the parameter's unit.</param>
/// <param name="Low">Lowest, in the parameter's unit.</param>
/// <param name="High">Highest.</param>
/// <param name="Cause">Why.</param>
/// <param name="Geometric">Spread evenly on a scale of ratios instead of differences.</param>
public sealed record Spread(string Element, Parameter Parameter, double Nominal, double Low, double High, SpreadCause Cause, bool Geometric = false);

/// <summary>Something that is not known, in words, and what it takes away.</summary>
/// <param name="Place">Part, valve or lug.</param>
/// <param name="Sentence">What is not known and what was done about it.</param>
/// <param name="Elements">Elements that stand in for it; empty where nothing does.</param>
public sealed record Unknown(string Place, string Sentence, ImmutableArray<string> Elements);

/// <summary>One electrode system of a valve, as the network has it.</summary>
/// <param name="Element">Its element.</param>
/// <param name="Valve">The valve's part.</param>
/// <param name="Section">"1", "2", "triode", "d1", … or empty.</param>
/// <param name="Type">Its type.</param>
/// <param name="NewSpread">How far a new one may be off: 0.3 for ±30 %.</param>
/// <param name="Weak">Predictions of the type's fit that rest on the class alone, in words.</param>
public sealed record ValveElement(string Element, string Valve, string Section, string Type, double NewSpread, ImmutableArray<string> Weak);

/// <summary>A book as a network.</summary>
/// <remarks>The first nodes of the network are the map's nodes, number by number; inner nodes come behind them.</remarks>
public sealed record NetlistResult
{
    /// <summary>The map it was made from.</summary>
    public required MapResult Map { get; init; }
    /// <summary>The network as the set runs: line present, switches closed, controls half-way. Null when there is no common to count volts from.</summary>
    public required Network? Network { get; init; }
    /// <summary>Why there is no network, in a sentence; null when there is one.</summary>
    public string? Reason { get; init; }
    /// <summary>What each element stands for.</summary>
    public required ImmutableArray<Origin> Origins { get; init; }
    /// <summary>What may differ in a healthy set.</summary>
    public required ImmutableArray<Spread> Spreads { get; init; }
    /// <summary>What is not known.</summary>
    public required ImmutableArray<Unknown> Unknowns { get; init; }
    /// <summary>Valves that conduct in the network.</summary>
    public required ImmutableArray<ValveElement> Valves { get; init; }
    /// <summary>Valve element to the filament element that heats it.</summary>
    public required ImmutableDictionary<string, string> Heaters { get; init; }
    /// <summary>Elements that pass current only when the set is warm and are no valves: a sealed unit's load.</summary>
    public required ImmutableArray<string> WarmOnly { get; init; }
    /// <summary>Currents that a declared voltage implies; see <see cref="Balance"/>.</summary>
    public required ImmutableArray<Balance> Balances { get; init; }

    /// <summary>Elements of a position.</summary>
    public IEnumerable<string> ElementsOf(string position) => Origins.Where(o => string.Equals(o.Position, position, StringComparison.OrdinalIgnoreCase)).Select(o => o.Element);
}

/// <summary>A stand-in whose value follows from what the declared voltages deliver.</summary>
/// <param name="Element">A drain from an electrode (amperes to be found) or a boost source (volts to be found).</param>
/// <param name="Kind">Which of the two.</param>
/// <param name="Nodes">Plate current: the declared nodes of the valve's other electrodes. Boost: the declared node.</param>
/// <param name="Volts">Boost: the declared voltage; else 0.</param>
public sealed record Balance(string Element, BalanceKind Kind, ImmutableArray<int> Nodes, double Volts);

/// <summary>What is balanced.</summary>
public enum BalanceKind
{
    /// <summary>The plate current of a valve that works on pulses: what its declared cathode delivers less what its declared grids take.</summary>
    PlateCurrent,
    /// <summary>Volts that the damper adds to the supply, so that its direct current comes from there.</summary>
    Boost,
}

using System.Collections.Immutable;

namespace Lugbook.Restoration.Bounds;

/// <summary>A limit that a changed part passes first.</summary>
/// <param name="Kind">A short stable word for programs: "valve-current", "reading", "watts", "volts", "heat".</param>
/// <param name="Place">Where: a valve, a lug, a part.</param>
/// <param name="Sentence">What happens there, in words with figures.</param>
public sealed record PassedLimit(string Kind, string Place, string Sentence);

/// <summary>How far a resistor may drift one way.</summary>
/// <param name="Ohms">The resistance at which the first limit is passed, Ω.</param>
/// <param name="Share">The same over nominal.</param>
/// <param name="Limit">Which limit.</param>
public sealed record DriftBound(double Ohms, double Share, PassedLimit Limit);

/// <summary>What a position bears.</summary>
/// <param name="Position">The part's name.</param>
/// <param name="LeakOhms">A capacitor: the insulation resistance at which the first limit is passed, Ω; null when even <see cref="BoundsStage.LeastLeakOhms"/> passes none, or for a resistor.</param>
/// <param name="LeakLimit">Which limit.</param>
/// <param name="Down">A resistor: how far it may fall; null when a fifth of its value passes no limit.</param>
/// <param name="Up">A resistor: how far it may rise; null when ten times its value passes none.</param>
/// <param name="IsKnown">False where too much is unknown around it for an answer.</param>
/// <param name="Sentence">All of it in words.</param>
public sealed record PositionBound(string Position, double? LeakOhms, PassedLimit? LeakLimit, DriftBound? Down, DriftBound? Up, bool IsKnown, string Sentence);

/// <summary>What every position bears.</summary>
public sealed record BoundsResult
{
    /// <summary>Why there is no answer, in a sentence; null when there is one.</summary>
    public string? Reason { get; init; }
    /// <summary>Capacitors and resistors, in the order of the book.</summary>
    public required ImmutableArray<PositionBound> Positions { get; init; }

    /// <summary>The bound of a position, or null.</summary>
    public PositionBound? Of(string position) => Positions.FirstOrDefault(p => string.Equals(p.Position, position, StringComparison.OrdinalIgnoreCase));
}

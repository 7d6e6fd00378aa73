using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Choose;

/// <summary>What the solved circuit tells the choice: stresses at the worst moment, and what every position bears.</summary>
/// <param name="Solved">The set, solved or not.</param>
/// <param name="Sheet">Its sheet, for the stresses.</param>
/// <param name="Bounds">How far each position may drift.</param>
public sealed record ChooseBasis(SolveResult Solved, SheetResult Sheet, BoundsResult Bounds)
{
    /// <summary>Is there a solution at all?</summary>
    public bool IsSolved => Solved.Point is not null && Sheet.Reason is null;
    /// <summary>Is every value in it entered or declared? Where one is guessed, a computed stress may raise a demand and never lower one.</summary>
    public bool IsComplete => IsSolved && Bounds.Reason is null && !Solved.Spreads.Any(s => s.Cause == Netlist.SpreadCause.Unknown);
    /// <summary>What a part bears; null where nothing is known.</summary>
    public PartStress? StressOf(string position) => IsSolved ? Sheet.Parts.FirstOrDefault(p => string.Equals(p.Position, position, StringComparison.OrdinalIgnoreCase)) : null;
    /// <summary>How far it may drift; null where nothing is known.</summary>
    public PositionBound? BoundOf(string position) => Bounds.Of(position) is { IsKnown: true } bound ? bound : null;
}

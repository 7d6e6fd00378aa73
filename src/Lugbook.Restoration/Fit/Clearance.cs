using System.Collections.Immutable;

namespace Lugbook.Restoration.Fit;

/// <summary>A new lead that crosses or passes bare metal of another node.</summary>
/// <param name="Position">The part's reference.</param>
/// <param name="Letter">Its lead.</param>
/// <param name="Against">What it comes near: "lug A-3", "R12 lead b", "bare wire W7".</param>
/// <param name="Millimetres">How near, in plan; 0: it crosses.</param>
/// <param name="Volts">Largest difference between the two, V; null when not known.</param>
/// <param name="NeedMm">Distance at which no sleeve would be needed.</param>
/// <param name="PlanMm">Length of the lead in plan, mm.</param>
/// <param name="Sentence">All that in words.</param>
public sealed record LeadClearance(string Position, char Letter, string Against, double Millimetres, double? Volts, double NeedMm, double PlanMm, string Sentence);

/// <summary>Two lugs that stand nearer than the rule for their voltage.</summary>
/// <param name="Lug">One, at which the work is done.</param>
/// <param name="Other">The other.</param>
/// <param name="GapMm">Between their edges in plan, as the drawing shows them.</param>
/// <param name="Volts">Largest difference, V.</param>
/// <param name="NeedMm">What the rule asks for.</param>
/// <param name="Sentence">What to mind.</param>
public sealed record LugPair(string Lug, string Other, double GapMm, double Volts, double NeedMm, string Sentence);

/// <summary>What is too near to what.</summary>
public sealed record ClearanceReport
{
    /// <summary>Leads that are sleeved, each with its worst neighbour.</summary>
    public required ImmutableArray<LeadClearance> Leads { get; init; }
    /// <summary>Lugs that are too near, worst first.</summary>
    public required ImmutableArray<LugPair> Lugs { get; init; }
    /// <summary>The rule that was used, with its source.</summary>
    public required string Rule { get; init; }
    /// <summary>What could not be told, and why; null when nothing.</summary>
    public string? Unknown { get; init; }
}

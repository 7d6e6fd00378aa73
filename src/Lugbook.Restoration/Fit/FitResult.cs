using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Order;

namespace Lugbook.Restoration.Fit;

/// <summary>What is to be done with a lug that something leaves.</summary>
public enum LugVerdict
{
    /// <summary>Every part lead there is being replaced and no wire ends there: clear it to bare metal.</summary>
    ClearToBareMetal,
    /// <summary>Something stays: cut the old lead off and splice onto its short tail, so that the lug is not taken apart.</summary>
    SpliceOntoShortTails,
}

/// <summary>One lead of one position on one lug.</summary>
/// <param name="PartId">Identity of the part in the book's table; two parts may share a name by mistake.</param>
/// <param name="Position">The part's reference.</param>
/// <param name="Letter">'a', 'b' or 'c'.</param>
/// <param name="Lug">The lug.</param>
public sealed record FitLead(int PartId, string Position, char Letter, string Lug);

/// <summary>A wire's end on a lug.</summary>
/// <param name="Wire">Name of the wire.</param>
/// <param name="To">Lug at its other end.</param>
/// <param name="Bond">True for metal to metal with the chassis: a rivet, a twist tab.</param>
public sealed record WireEnd(string Wire, string To, bool Bond);

/// <summary>All that concerns one lug.</summary>
public sealed record LugSheet
{
    /// <summary>The lug.</summary>
    public required string Lug { get; init; }
    /// <summary>Its mount; empty when the book does not have the lug.</summary>
    public required string Mount { get; init; }
    /// <summary>What the mount's maker or the book says of it.</summary>
    public string? Function { get; init; }
    /// <summary>Leads that come off, in the order of the work.</summary>
    public required ImmutableArray<FitLead> Off { get; init; }
    /// <summary>Leads of parts that stay.</summary>
    public required ImmutableArray<FitLead> Stay { get; init; }
    /// <summary>Wires and bonds that end here.</summary>
    public required ImmutableArray<WireEnd> Wires { get; init; }
    /// <summary>Clear or splice.</summary>
    public required LugVerdict Verdict { get; init; }
    /// <summary>The verdict as a sentence.</summary>
    public required string Sentence { get; init; }
    /// <summary>Leads and wire ends on it now.</summary>
    public int Ends { get; init; }
    /// <summary>Measured lugs within 12 mm, nearest first.</summary>
    public ImmutableArray<NearLug> Near { get; init; } = [];
    /// <summary>What makes it hard to work at, as sentences; null when nothing does.</summary>
    public string? Crowding { get; init; }
    /// <summary>What suffers from heat on or at this lug; empty when nothing is known to.</summary>
    public required ImmutableArray<string> HeatSensitive { get; init; }
    /// <summary>Numbers of the steps that work at this lug.</summary>
    public required ImmutableArray<int> Steps { get; init; }
}

/// <summary>A lead that comes off or goes on in a step.</summary>
/// <param name="Letter">'a', 'b' or 'c'.</param>
/// <param name="Lug">The lug.</param>
/// <param name="Verdict">What is done with that lug in all.</param>
/// <param name="How">What the hand does.</param>
public sealed record LeadWork(char Letter, string Lug, LugVerdict Verdict, string How);

/// <summary>One position exchanged: it is open only within its step.</summary>
public sealed record FitStep
{
    /// <summary>From 1, in the order of the work.</summary>
    public required int Number { get; init; }
    /// <summary>Identity of the part in the book's table.</summary>
    public required int PartId { get; init; }
    /// <summary>The part's reference.</summary>
    public required string Position { get; init; }
    /// <summary>The old part in words.</summary>
    public required string Old { get; init; }
    /// <summary>The new part in words; null when none is chosen yet.</summary>
    public string? New { get; init; }
    /// <summary>Why it comes at this place.</summary>
    public required string Turn { get; init; }
    /// <summary>Leads that come off, in order.</summary>
    public required ImmutableArray<LeadWork> Off { get; init; }
    /// <summary>Leads that go on, in order.</summary>
    public required ImmutableArray<LeadWork> On { get; init; }
    /// <summary>Distance of its lugs in plan, mm; null when not known or not of two lugs.</summary>
    public double? SpanMm { get; init; }
    /// <summary>How the leads are formed and whether they are sleeved, as far as it can be told.</summary>
    public required string Forming { get; init; }
    /// <summary>The same in figures: mounting, bends, cut lengths, sleeves, which lead first.</summary>
    public required PartPlan Plan { get; init; }
    /// <summary>Positions of one round are open at once; from 1.</summary>
    public required int Round { get; init; }
    /// <summary>Other positions that are open together with this one; empty when one is open at a time.</summary>
    public ImmutableArray<string> Together { get; init; } = [];
    /// <summary>Polarity; null when the part has none.</summary>
    public string? Polarity { get; init; }
    /// <summary>A part that looks the same and is done in another step; null when there is none.</summary>
    public string? Alike { get; init; }
    /// <summary>What must be known before this step can be done; null when nothing.</summary>
    public string? Open { get; init; }
    /// <summary>Dangers of this step.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }
    /// <summary>True once it is done.</summary>
    public required bool Done { get; init; }
}

/// <summary>A lug to be looked at when the work is done.</summary>
/// <param name="Lug">The lug.</param>
/// <param name="Look">What to look at.</param>
/// <param name="CutEnds">Cut ends that must be found from the work at it.</param>
/// <param name="Steps">Numbers of the steps that worked at it.</param>
/// <param name="Worked">Are all of those done?</param>
public sealed record LugInspection(string Lug, ImmutableArray<string> Look, int CutEnds, ImmutableArray<int> Steps, bool Worked);

/// <summary>A position that goes but cannot be on the sheet.</summary>
/// <param name="Position">The part's reference.</param>
/// <param name="Reason">Why.</param>
public sealed record NotOnSheet(string Position, string Reason);

/// <summary>What to do at the bench, lug by lug and step by step.</summary>
public sealed record FitResult
{
    /// <summary>Lugs that something leaves, by mount and number.</summary>
    public required ImmutableArray<LugSheet> Lugs { get; init; }
    /// <summary>Positions in the order of the work.</summary>
    public required ImmutableArray<FitStep> Steps { get; init; }
    /// <summary>What cannot be true of a working set: while there is any, the sheet is not to be trusted whole.</summary>
    public required ImmutableArray<Contradiction> Contradictions { get; init; }
    /// <summary>Positions that go but whose lugs are not known.</summary>
    public required ImmutableArray<NotOnSheet> NotOnSheet { get; init; }
    /// <summary>How the order was found.</summary>
    public required string OrderRule { get; init; }
    /// <summary>The order, with its proof or the gap that is left.</summary>
    public required FitOrder Order { get; init; }
    /// <summary>The rules of thumb that were used.</summary>
    public required FitRules Rules { get; init; }
    /// <summary>What is too near to what.</summary>
    public required ClearanceReport Clearance { get; init; }
    /// <summary>Sleeve, braid, solder and wire for what is still to be done.</summary>
    public required ImmutableArray<Consumable> Materials { get; init; }
    /// <summary>Every lug that is touched, to be looked at before power.</summary>
    public required ImmutableArray<LugInspection> Inspection { get; init; }
    /// <summary>Time and cost of what is still to be done.</summary>
    public required WorkEstimate Estimate { get; init; }
    /// <summary>Steps done.</summary>
    public required int DoneCount { get; init; }
    /// <summary>Steps in all.</summary>
    public required int StepCount { get; init; }
    /// <summary>Number of the next step; null when all are done.</summary>
    public int? Next { get; init; }
    /// <summary>Dangers of the work as a whole.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }
}

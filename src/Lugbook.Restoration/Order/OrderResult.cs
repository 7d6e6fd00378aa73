using System.Collections.Immutable;
using Lugbook.Restoration.Choose;

namespace Lugbook.Restoration.Order;

/// <summary>One line of the buying list: the same part, once.</summary>
/// <param name="Part">The part.</param>
/// <param name="Count">How many, spares included.</param>
/// <param name="Positions">Where they go, in book order.</param>
/// <param name="Spares">How many of <paramref name="Count"/> are spares.</param>
/// <param name="PriceLow">Count times the low end of the example price band; null when the catalogue gives none.</param>
/// <param name="PriceHigh">Count times the high end.</param>
public sealed record OrderLine(ChosenPart Part, int Count, ImmutableArray<string> Positions, int Spares, decimal? PriceLow, decimal? PriceHigh);

/// <summary>Something used up by the work.</summary>
/// <param name="What">Sleeve, solder, braid, wire.</param>
/// <param name="Amount">How much, in <paramref name="Unit"/>.</param>
/// <param name="Unit">"m" or "g".</param>
/// <param name="Reason">The rule of thumb and the counts it was applied to.</param>
public sealed record Consumable(string What, double Amount, string Unit, string Reason);

/// <summary>A position for which nothing is ordered.</summary>
/// <param name="Position">The part's reference.</param>
/// <param name="Reason">Why.</param>
public sealed record NotOrdered(string Position, string Reason);

/// <summary>What to buy, once.</summary>
public sealed record OrderResult
{
    /// <summary>Capacitors by falling danger and value, then resistors.</summary>
    public required ImmutableArray<OrderLine> Lines { get; init; }
    /// <summary>What the work uses up.</summary>
    public required ImmutableArray<Consumable> Consumables { get; init; }
    /// <summary>Everything else, with the reason.</summary>
    public required ImmutableArray<NotOrdered> NotOrdered { get; init; }
    /// <summary>How many parts.</summary>
    public required int Count { get; init; }
    /// <summary>Sum of the low ends.</summary>
    public required decimal PriceLow { get; init; }
    /// <summary>Sum of the high ends.</summary>
    public required decimal PriceHigh { get; init; }
    /// <summary>What the sums are worth.</summary>
    public required string PriceNote { get; init; }
    /// <summary>What must be answered before the order is sent.</summary>
    public required ImmutableArray<string> Questions { get; init; }
}

/// <summary>Rules of thumb for the order; all the user's to change. Common practice, no source.</summary>
public sealed record OrderPolicy
{
    /// <summary>Order for positions that are measured first, too.</summary>
    public bool IncludeMeasureFirst { get; init; }
    /// <summary>Spares added to each line.</summary>
    public int SparesPerLine { get; init; }
    /// <summary>Sleeve for one lead, mm (three quarters to one inch).</summary>
    public double SleeveMmPerLead { get; init; } = 25;
    /// <summary>Solder for one new joint, mm of 0.7 to 1 mm wire.</summary>
    public double SolderMmPerJoint { get; init; } = 20;
    /// <summary>Desoldering braid for a crowded lug, mm (about five inches).</summary>
    public double BraidMmPerCrowdedLug { get; init; } = 125;
    /// <summary>Desoldering braid for any other lug, mm.</summary>
    public double BraidMmPerLug { get; init; } = 25;
    /// <summary>From how many ends on a lug is crowded.</summary>
    public int CrowdedFrom { get; init; } = 4;
    /// <summary>Hook-up wire for each section of a can that is built anew, mm.</summary>
    public double WireMmPerSection { get; init; } = 150;
}

using System.Collections.Immutable;

namespace Lugbook.Restoration.Order;

/// <summary>Hours of work: rules of thumb, all the user's to change. Common practice, no source.</summary>
public sealed record QuotationRules
{
    /// <summary>Hours for a position that is exchanged: least.</summary>
    public double HoursPerPositionLow { get; init; } = 0.15;
    /// <summary>Hours for a position that is exchanged: most.</summary>
    public double HoursPerPositionHigh { get; init; } = 0.4;
    /// <summary>Hours for a position that is measured first.</summary>
    public double HoursPerMeasuredLow { get; init; } = 0.05;
    /// <summary>Hours for a position that is measured first: most.</summary>
    public double HoursPerMeasuredHigh { get; init; } = 0.15;
    /// <summary>Hours for a section of a can that is built anew.</summary>
    public double HoursPerSectionLow { get; init; } = 0.25;
    /// <summary>Hours for a section of a can that is built anew: most.</summary>
    public double HoursPerSectionHigh { get; init; } = 0.6;
    /// <summary>Hours for the set: looking it over, cleaning, safety, first power, trial run.</summary>
    public double HoursPerSetLow { get; init; } = 3;
    /// <summary>Hours for the set: most.</summary>
    public double HoursPerSetHigh { get; init; } = 6;
    /// <summary>Price of an hour; null: hours only.</summary>
    public decimal? HourPrice { get; init; }
    /// <summary>Show what the parts cost to buy? They are the restorer's own business, unless wanted.</summary>
    public bool ShowPartPrices { get; init; }
}

/// <summary>One sort of work in a quotation.</summary>
/// <param name="Work">What.</param>
/// <param name="Count">How many.</param>
/// <param name="Low">Hours, least.</param>
/// <param name="High">Hours, most.</param>
public sealed record QuotedWork(string Work, int Count, double Low, double High);

/// <summary>One sort of part in a quotation.</summary>
/// <param name="Count">How many are fitted.</param>
/// <param name="Part">In words.</param>
public sealed record QuotedPart(int Count, string Part);

/// <summary>What the owner is told before the work begins.</summary>
public sealed record Quotation
{
    /// <summary>Parts that are fitted, without who sells them.</summary>
    public required ImmutableArray<QuotedPart> Parts { get; init; }
    /// <summary>Hours by sort of work.</summary>
    public required ImmutableArray<QuotedWork> Work { get; init; }
    /// <summary>Hours, least.</summary>
    public required double HoursLow { get; init; }
    /// <summary>Hours, most.</summary>
    public required double HoursHigh { get; init; }
    /// <summary>Labour, least; null without a price of the hour.</summary>
    public decimal? LabourLow { get; init; }
    /// <summary>Labour, most.</summary>
    public decimal? LabourHigh { get; init; }
    /// <summary>Parts and postage; null when not wanted or not known.</summary>
    public decimal? PartsMoney { get; init; }
    /// <summary>Currency of the parts.</summary>
    public string? Currency { get; init; }
    /// <summary>What it rests on.</summary>
    public required ImmutableArray<string> Notes { get; init; }
}

using System.Collections.Immutable;

namespace Lugbook.Restoration.Fit;

/// <summary>Minutes for one sort of position.</summary>
/// <param name="Kind">"capacitor", "electrolytic", "section of a can", "resistor".</param>
/// <param name="Left">Positions still to be done.</param>
/// <param name="Known">Positions of this sort whose time the ticks tell.</param>
/// <param name="Minutes">For one: the median of the user's own, or the rule of thumb.</param>
/// <param name="Low">A quarter of the user's own took less; or the rule's least.</param>
/// <param name="High">A quarter took more; or the rule's most.</param>
/// <param name="IsOwn">True from five known times on.</param>
public sealed record PaceLine(string Kind, int Left, int Known, double Minutes, double Low, double High, bool IsOwn);

/// <summary>How long what is left will take, and what it costs.</summary>
public sealed record WorkEstimate
{
    /// <summary>By sort of position.</summary>
    public required ImmutableArray<PaceLine> Kinds { get; init; }
    /// <summary>Minutes for all that is left: medians added.</summary>
    public required double Minutes { get; init; }
    /// <summary>Minutes, if all went quickly.</summary>
    public required double Low { get; init; }
    /// <summary>Minutes, if all went slowly.</summary>
    public required double High { get; init; }
    /// <summary>Labour at the price of an hour; null when none is set.</summary>
    public decimal? LabourLow { get; init; }
    /// <summary>Labour at the price of an hour; null when none is set.</summary>
    public decimal? LabourHigh { get; init; }
    /// <summary>New parts for what is left by the catalogue's example prices, low end.</summary>
    public required decimal PartsLow { get; init; }
    /// <summary>New parts by example prices, high end.</summary>
    public required decimal PartsHigh { get; init; }
    /// <summary>Where the figures come from, as a sentence.</summary>
    public required string Sentence { get; init; }
}

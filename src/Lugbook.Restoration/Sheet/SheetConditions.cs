using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Sheet;

/// <summary>What the sheet is made for.</summary>
public sealed record SheetConditions
{
    /// <summary>The meter at the bench.</summary>
    public required Meter Meter { get; init; }
    /// <summary>The chart's meter.</summary>
    public required Meter ChartMeter { get; init; }
    /// <summary>The chart's line over the set's: 1 when both are the same.</summary>
    public double ChartLineShare { get; init; } = 1;
    /// <summary>Today's line over the set's.</summary>
    public double TodayLineShare { get; init; } = 1;
    /// <summary>Healthy sets that the spread is taken from; 50 or more.</summary>
    public int Samples { get; init; } = 1000;

    /// <summary>Limits by type and section ("1", "triode", … or empty); null when nothing is known of a type.</summary>
    public Func<string, string, ValveLimits?> ValveLimits { get; init; } = (_, _) => null;

    /// <summary>As the book's facts say.</summary>
    public static SheetConditions Of(BookFacts facts, ValveHandbook handbook)
    {
        double Share(double? volts) => volts is { } v and > 0 && facts.LineVolts is { } made and > 0 ? v / made : 1;
        return new()
        {
            ValveLimits = (type, section) => handbook.Find(type)?.LimitsOf(section),
            Meter = (facts.Meter is { } name ? MeterShelf.Named(name) : null) ?? MeterShelf.All[0],
            ChartMeter = MeterShelf.OfChart(facts.ChartOhmsPerVolt, facts.ChartInputOhms),
            ChartLineShare = Share(facts.ChartLineVolts),
            TodayLineShare = Share(facts.TodayLineVolts),
        };
    }
}

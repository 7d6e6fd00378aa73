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

    /// <summary>As the book's facts say; a meter that reads no volts leaves them to the digital one.</summary>
    public static SheetConditions Of(Book book, ValveHandbook handbook)
    {
        var (facts, bench) = (book.Facts, BookMeters.AtBench(book));
        double Share(double? volts) => volts is { } v and > 0 && facts.LineVolts is { } made and > 0 ? v / made : 1;
        return new()
        {
            ValveLimits = (type, section) => handbook.Find(type)?.LimitsOf(section),
            Meter = bench.Volts.Ranges.IsEmpty ? MeterShelf.All[0] : bench.AcVolts.Ranges.IsEmpty ? bench with { AcVolts = MeterShelf.All[0].AcVolts } : bench,
            ChartMeter = MeterShelf.OfChart(facts.ChartOhmsPerVolt, facts.ChartInputOhms),
            ChartLineShare = Share(facts.ChartLineVolts),
            TodayLineShare = Share(facts.TodayLineVolts),
        };
    }
}

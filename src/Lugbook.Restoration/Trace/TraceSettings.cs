using System.Collections.Immutable;
using Lugbook.Restoration.Slips;
using Lugbook.Trade;
using Lugbook.Trade.Meters;

namespace Lugbook.Restoration.Trace;

/// <summary>What a search is done with.</summary>
public sealed record TraceSettings
{
    /// <summary>The voltmeter.</summary>
    public required Meter Volts { get; init; }
    /// <summary>Ohmmeter and capacitance meter.</summary>
    public required BenchMeters Meters { get; init; }
    /// <summary>A meter by the name that a reading carries; null where none has it.</summary>
    public Func<string, Meter?> Named { get; init; } = MeterShelf.Named;
    /// <summary>Parts that the work touched.</summary>
    public ImmutableHashSet<string> Touched { get; init; } = ImmutableHashSet.Create<string>(StringComparer.OrdinalIgnoreCase);
    /// <summary>How often each fault is met.</summary>
    public PriorTable Priors { get; init; } = PriorTable.Usual;
    /// <summary>What the set does: "hum", "silent" …</summary>
    public ImmutableArray<string> Symptoms { get; init; } = [];
    /// <summary>Today's line over the set's own.</summary>
    public double LineShare { get; init; } = 1;
    /// <summary>A suspect, or a group that no reading divides, is named from here on, 0 to 1.</summary>
    public double Confidence { get; init; } = 0.9;
    /// <summary>May readings with the set running be proposed?</summary>
    public bool MayRun { get; init; } = true;

    /// <summary>As a book's facts and its work say.</summary>
    public static TraceSettings Of(Book book)
    {
        var bench = BookMeters.AtBench(book);
        return new()
        {
            Volts = bench.Volts.Ranges.IsEmpty ? MeterShelf.All[0] : bench,
            Meters = SlipsStage.MetersOf(book),
            Named = name => BookMeters.Named(book, name),
            Touched = book.Work.Where(w => w.Done).Select(w => w.Name).ToImmutableHashSet(StringComparer.OrdinalIgnoreCase),
            LineShare = book.Facts is { TodayLineVolts: { } today and > 0, LineVolts: { } made and > 0 } ? today / made : 1,
        };
    }
}

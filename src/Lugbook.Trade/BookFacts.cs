namespace Lugbook.Trade;

/// <summary>What the letter M after a resistance means on this set's sheet.</summary>
public enum MegHabit
{
    /// <summary>Not decided: an M stays ambiguous and is ranked by likelihood.</summary>
    Unknown,
    /// <summary>M is a thousand, and MEG a million: common on American prints up to about 1950.</summary>
    Thousand,
    /// <summary>M is a million.</summary>
    Million,
}

/// <summary>What is known of the set as a whole. Null means "not known yet".</summary>
public sealed record BookFacts
{
    /// <summary>The set in words: "Marlpit kitchen receiver".</summary>
    public required string Title { get; init; }
    /// <summary>About which year it was made.</summary>
    public int? Year { get; init; }
    /// <summary>Where it came from and what is wanted.</summary>
    public string? Story { get; init; }
    /// <summary>Line voltage it was made for, V rms.</summary>
    public double? LineVolts { get; init; }
    /// <summary>Line frequency, Hz.</summary>
    public double? LineHertz { get; init; }
    /// <summary>Line voltage at the bench today, V rms; null: as the set was made for.</summary>
    public double? TodayLineVolts { get; init; }
    /// <summary>Name of the meter at the bench; null: a digital one of 10 MΩ.</summary>
    public string? Meter { get; init; }
    /// <summary>Line voltage at which the service sheet's chart was taken, V rms; null: as the set was made for.</summary>
    public double? ChartLineVolts { get; init; }
    /// <summary>The chart's meter: ohms a volt; null when it is not such an instrument or not known.</summary>
    public double? ChartOhmsPerVolt { get; init; }
    /// <summary>The chart's meter: input resistance, Ω, where it is fixed.</summary>
    public double? ChartInputOhms { get; init; }
    /// <summary>What becomes of families of parts in this set, where it differs from the trade's habit: "paper: stays; resistor: goes".</summary>
    public string? Policy { get; init; }
    /// <summary>Rules of thumb for the bench, where they differ from the usual: "open 2; sleeve 20".</summary>
    public string? FitRules { get; init; }
    /// <summary>A lug on the common negative (B-), when the user says which; otherwise it is inferred.</summary>
    public string? CommonLug { get; init; }
    /// <summary>What M means on this set's sheet.</summary>
    public MegHabit MegHabit { get; init; }
}

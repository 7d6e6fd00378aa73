using Lugbook.Restoration.Judge;
using Lugbook.Trade.Readings;

namespace Lugbook.Output;

/// <summary>Words for verdicts.</summary>
internal static class JudgeWords
{
    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.Within => "good",
        Verdict.Outside => "bad",
        Verdict.Undecided => "at the limit",
        _ => "cannot be told",
    };

    /// <summary>"lifted", "in place", "in place, R5 lifted".</summary>
    public static string How(Reading reading) => reading.IsLifted ? "lifted" : reading.LiftedPart is { } other ? $"in place, {other} lifted" : "in place";

    /// <summary>What the meter showed: "57.8 kΩ", "over 20 MΩ".</summary>
    public static string Figure(Reading reading) => $"{(reading.IsOver ? "over " : "")}{(reading.Unit is { } unit ? Trade.Quantities.Notation.Print(reading.Value, unit) : reading.Value)}";

    /// <summary>Volts are as they should be, or not; that makes no part good or bad.</summary>
    public static string OfVolts(Verdict verdict) => verdict switch
    {
        Verdict.Within => "as it should be",
        Verdict.Outside => "not as it should be",
        _ => "cannot be told",
    };

    /// <summary>A colour class that says the same as the word beside it.</summary>
    public static string Chip(Verdict verdict) => verdict switch { Verdict.Within => "good", Verdict.Outside => "bad", _ => "note" };

    public const string Caution = "Unplug the set, discharge every filter capacitor through a resistor, and measure that it is discharged, before a meter or a finger goes near. Verdicts are aids; local codes and licensed practice come first.";
}

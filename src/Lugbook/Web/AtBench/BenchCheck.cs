using System.Collections.Immutable;
using Lugbook.Output;
using Lugbook.Restoration.Slips;
using Lugbook.Trade.Readings;

namespace Lugbook.Web.AtBench;

/// <summary>What slips would make of a reading.</summary>
/// <param name="Shown">What the meter would show.</param>
/// <param name="Slips">Which slips show that.</param>
internal sealed record SlipsShown(string Shown, ImmutableArray<string> Slips);

/// <summary>One reading to take.</summary>
/// <param name="Number">From 1.</param>
/// <param name="At">Where the leads go, and with which meter.</param>
/// <param name="Sentence">Where the leads go and what is expected, in words.</param>
/// <param name="Hint">How long to wait; null where it does not matter.</param>
/// <param name="Gives">What slips would make of it.</param>
/// <param name="Entered">What was read, as trade notation; null for nothing yet.</param>
/// <param name="Off">Is what was read not as expected?</param>
internal sealed record BenchReading(int Number, ReadAt At, string Sentence, string? Hint, ImmutableArray<SlipsShown> Gives, string? Entered, bool Off);

/// <summary>The after-check of a position, as a device shows and keeps it.</summary>
internal sealed record BenchCheck
{
    public required string Position { get; init; }
    /// <summary>Why there is no check; null when there is one.</summary>
    public required string? Reason { get; init; }
    public required string Why { get; init; }
    public required ImmutableArray<string> Cautions { get; init; }
    public required ImmutableArray<BenchReading> Readings { get; init; }
    /// <summary>What only the eye sees.</summary>
    public required ImmutableArray<string> LookAt { get; init; }
    /// <summary>What was entered says, in words; null while nothing is entered.</summary>
    public required string? Said { get; init; }
    /// <summary>Is all that was entered as expected?</summary>
    public required bool Well { get; init; }

    /// <summary>The check, with the readings that are stored.</summary>
    public static BenchCheck Of(AfterCheck check, IEnumerable<Reading> readings)
    {
        var taken = readings.ToArray();
        var outcome = SlipsStage.Judge(check, taken);
        return new()
        {
            Position = check.Position, Reason = check.Reason, Why = check.Why, Cautions = [.. check.Cautions.Select(c => c.Sentence)], LookAt = check.LookAt,
            Readings =
            [
                .. check.Readings.Select(r => new BenchReading(r.Number, new(r.Kind, r.From, r.To, r.Meter), $"{r.Sentence} ({r.Meter})", r.Hint,
                    [.. r.Slips.Where(s => s.Exposed).GroupBy(s => s.Sentence, StringComparer.Ordinal).Select(g => new SlipsShown(g.Key, [.. g.Select(s => s.Slip.Sentence)]))],
                    SlipsStage.Entered(check, r, taken) is { } was ? JudgeWords.Figure(was) : null, outcome.Off.Contains(r.Number))),
            ],
            Said = outcome.Verdict == CheckVerdict.Open ? null : outcome.Sentence, Well = outcome.Verdict == CheckVerdict.AsExpected,
        };
    }
}

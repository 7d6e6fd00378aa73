using Lugbook.Restoration.Slips;

namespace Lugbook.Output;

/// <summary>An after-check in words.</summary>
internal static class CheckText
{
    public static string Of(AfterCheck check, CheckOutcome outcome)
    {
        var text = new StringWriter { NewLine = "\n" };
        text.WriteLine($"After soldering {check.Position}");
        foreach (var caution in check.Cautions) text.WriteLine($"  Caution: {caution.Sentence}");
        if (check.Reason is { } reason)
        {
            text.WriteLine($"  No check can be worked out: {reason}");
            return text.ToString();
        }
        text.WriteLine($"  {check.Why}");
        foreach (var reading in check.Readings)
        {
            text.WriteLine($"  {reading.Number}. {reading.Sentence} ({reading.Meter})");
            if (reading.Hint is { } hint) text.WriteLine($"     {hint}");
            foreach (var group in reading.Slips.Where(s => s.Exposed).GroupBy(s => s.Sentence, StringComparer.Ordinal))
                text.WriteLine($"     {group.Key}: {string.Join("; or ", group.Select(s => s.Slip.Sentence))}");
        }
        if (!check.LookAt.IsEmpty)
        {
            text.WriteLine("  Look at, because no reading here tells:");
            foreach (var look in check.LookAt) text.WriteLine($"     - {look}");
        }
        if (outcome.Verdict != CheckVerdict.Open) text.WriteLine($"  Entered: {outcome.Sentence}");
        return text.ToString();
    }
}

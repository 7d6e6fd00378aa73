using System.Collections.Immutable;
using Lugbook.Restoration.Judge;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Slips;

/// <summary>Judges what was read after soldering: all readings of the check together.</summary>
internal static class Verdicts
{
    public static CheckOutcome Of(AfterCheck check, IEnumerable<Reading> readings)
    {
        var entered = Entered(check, readings);
        var taken = check.Readings.Where(r => entered.ContainsKey(r.Number)).ToArray();
        var left = check.Readings.Length - taken.Length;
        ImmutableArray<int> off = [.. taken.Where(r => !Holds(r.Expected, entered[r.Number])).Select(r => r.Number)];
        if (taken.Length == 0) return new() { Verdict = CheckVerdict.Open, Suspects = [], Off = [], Left = left, Sentence = left == 0 ? "No reading tells anything here." : $"{Count(left, "reading")} to take." };
        if (off.IsEmpty) return new() { Verdict = CheckVerdict.AsExpected, Suspects = [], Off = [], Left = left, Sentence = $"As expected{(left > 0 ? $" so far; {Count(left, "reading")} to take" : check.LookAt.IsEmpty ? "" : "; what the meter cannot see is to be looked at")}." };
        ImmutableArray<Slip> suspects = [.. check.Slips.Select(t => t.Slip).Where(s => s.Change is not null && taken.All(r => r.Slips.FirstOrDefault(x => x.Slip.Id == s.Id) is { } x && x.Shown.Any(i => Holds(i, entered[r.Number]))))];
        return suspects.IsEmpty
            ? new() { Verdict = CheckVerdict.Neither, Suspects = [], Off = off, Left = left, Sentence = "Neither as expected nor like any single slip: read again, with fresh contact and the capacitors drained. If it stays, a part is not what it is marked, or two things are wrong." }
            : new() { Verdict = CheckVerdict.LooksLike, Suspects = suspects, Off = off, Left = left, Sentence = $"Looks like: {string.Join("; or ", suspects.Select(s => s.Sentence))}.{(suspects.Length > 1 && left > 0 ? " The next reading may tell which." : "")}" };
    }

    /// <summary>The newest reading of each place, by the number of the check's reading.</summary>
    public static Dictionary<int, Reading> Entered(AfterCheck check, IEnumerable<Reading> readings)
    {
        var entered = new Dictionary<int, Reading>();
        foreach (var reading in readings)
            if (check.Readings.FirstOrDefault(r => IsOf(r, check.Position, reading)) is { } wanted) entered[wanted.Number] = reading;
        return entered;
    }

    private static bool IsOf(CheckReading wanted, string position, Reading reading) =>
        reading.Kind == wanted.Kind && Same(reading.Name, position) && (Same(reading.FromLug, wanted.From) && Same(reading.ToLug, wanted.To) || Same(reading.FromLug, wanted.To) && Same(reading.ToLug, wanted.From));

    /// <summary>Could the meter have shown that?</summary>
    public static bool Holds(Interval shown, Reading reading) => reading.IsOver ? double.IsInfinity(shown.High) || shown.High >= reading.Value : reading.Value >= shown.Low && reading.Value <= shown.High;

    private static bool Same(string? a, string? b) => string.Equals(a?.Trim(), b?.Trim(), StringComparison.OrdinalIgnoreCase);
    private static string Count(int n, string what) => $"{n} {what}{(n == 1 ? "" : "s")}";
}

using System.Collections.Immutable;
using Lugbook.Restoration.Slips;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Prove;

/// <summary>Judges what was read in the cold proof: all readings together.</summary>
internal static class ProofVerdicts
{
    private const int MostSaid = 5;
    private const string NoPower = " No power until that is settled.";

    public static CheckOutcome Of(ProveResult proof, IEnumerable<Reading> readings)
    {
        var entered = Entered(proof, readings);
        var taken = proof.Readings.Where(r => entered.ContainsKey(r.Number)).ToArray();
        var left = proof.Readings.Length - taken.Length;
        var wrong = taken.Where(r => !Verdicts.Holds(r.Expected, entered[r.Number])).ToArray();
        CheckOutcome Say(CheckVerdict verdict, string sentence, ImmutableArray<Slip>? suspects = null) => new() { Verdict = verdict, Suspects = suspects ?? [], Off = [.. wrong.Select(r => r.Number)], Left = left, Sentence = sentence };
        if (taken.Length == 0) return Say(CheckVerdict.Open, $"{Count(left)} to take. No power before.");
        if (wrong.Length == 0) return Say(CheckVerdict.AsExpected, left > 0 ? $"As expected so far; {Count(left)} to take. No power before." : "All as expected. What no reading tells is still to be looked at before power.");
        // A short or slip must agree with every reading that it was worked out for, and explain one that is off. Those that explain most stand alone.
        var byId = taken.SelectMany(r => r.Slips.Select(s => (Reading: r, Shown: s))).GroupBy(x => x.Shown.Slip.Id, StringComparer.Ordinal);
        var fits = byId.Where(g => g.All(x => x.Shown.Shown.Any(i => Verdicts.Holds(i, entered[x.Reading.Number]))))
            .Select(g => (g.First().Shown.Slip, Explained: g.Count(x => wrong.Contains(x.Reading)))).Where(f => f.Explained > 0).ToArray();
        if (fits.Length == 0) return Say(CheckVerdict.Neither, "Not as expected, and like no single short or slip around those lugs: read again with fresh contact and the capacitors drained. If it stays, a part is not what it is marked, two things are wrong, or the cause lies farther away." + NoPower);
        var most = fits.Max(f => f.Explained);
        ImmutableArray<Slip> suspects = [.. fits.Where(f => f.Explained == most).Select(f => f.Slip).OrderBy(s => s.Kind == SlipKind.Dangerous ? 0 : 1)];
        var more = suspects.Length - MostSaid;
        return Say(CheckVerdict.LooksLike, $"Looks like: {string.Join("; or ", suspects.Take(MostSaid).Select(s => s.Sentence))}{(more > 0 ? $"; or {more} more" : "")}."
            + (most < wrong.Length ? $" That explains {most} of the {wrong.Length} readings that are off." : "") + NoPower, suspects);
    }

    /// <summary>The newest reading of each place, by the number of the proof's reading.</summary>
    public static Dictionary<int, Reading> Entered(ProveResult proof, IEnumerable<Reading> readings)
    {
        var entered = new Dictionary<int, Reading>();
        foreach (var reading in readings.Where(r => Same(r.Name, ProveStage.Place)))
            foreach (var wanted in proof.Readings)
                if (wanted.Kind == reading.Kind && (Same(reading.FromLug, wanted.From) && Same(reading.ToLug, wanted.To) || Same(reading.FromLug, wanted.To) && Same(reading.ToLug, wanted.From))) entered[wanted.Number] = reading;
        return entered;
    }

    private static bool Same(string? a, string? b) => string.Equals(a?.Trim(), b?.Trim(), StringComparison.OrdinalIgnoreCase);
    private static string Count(int n) => $"{n} reading{(n == 1 ? "" : "s")}";
}

using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Slips;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Prove;

/// <summary>Limits in words.</summary>
internal static class ProofWords
{
    public static (string Pass, string Short) Limits(ProveResult proof, CheckReading reading)
    {
        var told = proof.Shorts.Where(s => s.By.Contains(reading.Number)).Select(s => s.Slip.Id).ToHashSet(StringComparer.Ordinal);
        var shown = reading.Slips.Where(s => told.Contains(s.Slip.Id)).SelectMany(s => s.Shown).ToArray();
        var pass = reading.Expected.Low <= 0 ? CheckWords.Shown(reading.Kind, reading.Expected, double.PositiveInfinity) : CheckWords.Shown(reading.Kind, new Interval(reading.Expected.Low, double.PositiveInfinity), double.PositiveInfinity);
        return (pass, shown.Length == 0 ? "" : CheckWords.Shown(ReadingKind.Ohms, new Interval(shown.Min(i => i.Low), shown.Max(i => i.High)), double.PositiveInfinity));
    }
}

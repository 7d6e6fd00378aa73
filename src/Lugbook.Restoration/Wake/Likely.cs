using System.Collections.Immutable;

namespace Lugbook.Restoration.Wake;

/// <summary>Which serious faults look most like what was read.</summary>
internal static class Likely
{
    private const double Tolerated = 0.1;

    /// <summary>The faults of a step, nearest first, with how far off they are: root mean square of differences in shares, 10 % of the value or the healthy half-spread counting as one.</summary>
    /// <param name="step">The step.</param>
    /// <param name="read">Value of each watched quantity that was read; null where not.</param>
    public static ImmutableArray<(FaultShown Fault, double Off)> Of(WakeStep step, ImmutableArray<double?> read)
    {
        var used = read.Select((r, k) => (r, k)).Where(x => x.r is not null && x.k < step.Expected.Length).ToArray();
        if (used.Length == 0) return [];
        return
        [
            .. step.Faults.Where(f => f.Shows.Length == step.Expected.Length).Select(f => (f, Off: Math.Sqrt(used.Average(x =>
            {
                var e = step.Expected[x.k];
                var unit = Math.Max(Math.Max(Tolerated * Math.Abs(f.Shows[x.k]), (e.High - e.Low) / 2), 1e-3);
                return Math.Pow((x.r!.Value - f.Shows[x.k]) / unit, 2);
            })))).OrderBy(f => f.Off),
        ];
    }
}

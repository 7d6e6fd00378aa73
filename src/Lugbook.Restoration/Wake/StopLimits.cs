using System.Globalization;

namespace Lugbook.Restoration.Wake;

/// <summary>Where to switch off: between what healthy sets show and what serious faults show.</summary>
internal static class StopLimits
{
    /// <summary>Healthy is within so many standard deviations: one in a thousand lies outside on one side, were it normal.</summary>
    public const double Deviations = 3.3;
    // What a hand meter and a line that moves add to every reading: common practice, no source.
    private const double ReadingShare = 0.03;
    private const double NothingVolts = 5;
    private const double FarShare = 0.5, Far = 2;

    /// <summary>Limits of one quantity.</summary>
    /// <param name="what">The quantity.</param>
    /// <param name="nominal">Every part at its mark.</param>
    /// <param name="healthy">Healthy samples.</param>
    /// <param name="faults">Values under serious faults, with their words.</param>
    /// <remarks>
    /// A limit stands half of the way, on a scale of ratios, between the healthy edge and the nearest fault that lies well outside it (more than half of the healthy half-spread, and 5 % of the value); so the margin
    /// to healthy sets and to the fault is the same. Never farther than two healthy half-spreads beyond the edge: what is there is not healthy, whatever it is. Without such a fault there is no limit.
    /// </remarks>
    public static Expected Of(Watched what, double nominal, IReadOnlyList<double> healthy, IReadOnlyList<(string Words, double Value)> faults)
    {
        // What should be nothing: a few volts from grids or leakage are nothing too.
        if (what.Unit == "V" && Math.Abs(nominal) < NothingVolts)
        {
            var seen = faults.Where(f => Math.Abs(f.Value) > 2 * NothingVolts).OrderBy(f => Math.Abs(f.Value)).Select(f => ((string Words, double Value)?)f).FirstOrDefault();
            return new(what, nominal, -NothingVolts, NothingVolts, null, seen is null ? null : 2 * NothingVolts, seen is null ? null : 1, Words(seen, null, what));
        }
        var mean = healthy.Count > 0 ? healthy.Average() : nominal;
        var deviation = healthy.Count > 1 ? Math.Sqrt(healthy.Sum(h => (h - mean) * (h - mean)) / (healthy.Count - 1)) : 0;
        var half = Math.Max(Deviations * deviation, ReadingShare * Math.Abs(mean));
        var (low, high) = (Math.Min(mean - half, nominal - ReadingShare * Math.Abs(nominal)), Math.Max(mean + half, nominal + ReadingShare * Math.Abs(nominal)));
        if (nominal >= 0) low = Math.Max(low, 0);
        if (nominal <= 0 && high > 0) high = 0;
        // Negative supplies are held by their size.
        if (nominal < 0)
        {
            var mirrored = Of(what, -nominal, [.. healthy.Select(h => -h)], [.. faults.Select(f => (f.Words, -f.Value))]);
            return mirrored with { Nominal = nominal, Low = -mirrored.High, High = -mirrored.Low, StopBelow = -mirrored.StopAbove, StopAbove = -mirrored.StopBelow };
        }
        var clear = Math.Max(FarShare * half, 0.05 * Math.Abs(nominal));
        var above = faults.Where(f => f.Value > high + clear).OrderBy(f => f.Value).Select(f => ((string Words, double Value)?)f).FirstOrDefault();
        var below = faults.Where(f => f.Value < low - clear).OrderByDescending(f => f.Value).Select(f => ((string Words, double Value)?)f).FirstOrDefault();
        double? stopAbove = above is { } a ? Math.Sqrt(high * a.Value) : null;
        double? stopBelow = below is { } b ? b.Value > 0 ? Math.Sqrt(low * b.Value) : low / 2 : null;
        // However far the fault: nothing healthy comes three times as far out as the healthy edge.
        if (stopAbove > high + Far * half) stopAbove = high + Far * half;
        if (stopBelow < low - Far * half) stopBelow = low - Far * half;
        var margins = new[] { stopAbove is { } sa ? (sa - high) / half : (double?)null, stopBelow is { } sb ? (low - sb) / half : null }.OfType<double>().ToArray();
        return new(what, nominal, low, high, stopBelow, stopAbove, margins.Length > 0 ? margins.Min() : null, Words(above, below, what));
    }

    private static string Words((string Words, double Value)? above, (string Words, double Value)? below, Watched what)
    {
        string Say((string Words, double Value) f) => string.Create(CultureInfo.InvariantCulture, $"{f.Words} would show {Number(f.Value)} {what.Unit}");
        return (above, below) switch
        {
            ({ } a, { } b) => $"{Say(a)}; {Say(b)}.",
            ({ } a, null) => $"{Say(a)}.",
            (null, { } b) => $"{Say(b)}.",
            _ => "No serious fault shows here.",
        };
    }

    /// <summary>Two or three figures, as a meter would be read.</summary>
    public static string Number(double value) => Math.Abs(value) switch
    {
        >= 100 => value.ToString("0", CultureInfo.InvariantCulture),
        >= 10 => value.ToString("0.#", CultureInfo.InvariantCulture),
        >= 1 => value.ToString("0.##", CultureInfo.InvariantCulture),
        _ => value.ToString("0.###", CultureInfo.InvariantCulture),
    };
}

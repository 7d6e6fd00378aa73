using System.Collections.Immutable;
using System.Numerics;
using Lugbook.Restoration.Judge;

namespace Lugbook.Restoration.Slips;

/// <summary>True values behind what a meter may show: one stretch as a rule; a capacitance meter on a resistance may also answer by the series equivalent, or "over".</summary>
/// <param name="Main">The values.</param>
/// <param name="Series">What a meter in its series setting makes of it besides; null where no such figure comes.</param>
/// <param name="OrOver">It may also show "over" or dashes.</param>
internal readonly record struct Display(Interval Main, Interval? Series = null, bool OrOver = false)
{
    /// <summary>Above this ratio of resistive to capacitive current resistance rules, and meters that measure alike up to then part ways (common practice, no source).</summary>
    public const double MostLoss = 3;
    // A healthy capacitance is offered only up to this ratio: where a resistance lies across it, and where it lies in series, which harms less.
    private const double GoodAcross = 0.5, GoodInSeries = 2, InSeriesBelowOhms = 1e3;
    /// <summary>Component meters measure the parallel equivalent above this impedance, Ω, and may measure the series one below (common practice, no source).</summary>
    public const double SeriesBelowOhms = 10e3;
    // The drawn chassis do not reach the ends of what is possible: the width grows by so much on either side.
    private const double Margin = 0.1;

    /// <summary>Direct current.</summary>
    public static Display Direct(Complex ohms) => new(new(ohms.Real, ohms.Real));

    /// <summary>Capacitance at a frequency, of one chassis. Meters tell the parallel equivalent, the bare current, or the series equivalent: figures between these.</summary>
    public static Display Farads(Complex ohms, double hertz)
    {
        if (!Complex.IsFinite(ohms)) return new(new(0, 0));
        var omega = 2 * Math.PI * hertz;
        var y = 1 / ohms;
        if (!Complex.IsFinite(y)) return new(new(0, double.PositiveInfinity), null, true);
        var (parallel, current) = (y.Imaginary / omega, y.Magnitude / omega);
        var series = -1 / (omega * ohms.Imaginary);
        var low = ohms.Magnitude < SeriesBelowOhms;
        if (Loss(ohms) <= MostLoss) return new(new(parallel, low ? series : current));
        return new(new(Math.Max(0, parallel), current), low && series > 0 ? new(series, series) : null, true);
    }

    /// <summary>Can a healthy capacitance be read well here?</summary>
    public static bool IsGood(Complex ohms) => !Complex.IsFinite(ohms) || Loss(ohms) <= (ohms.Magnitude < InSeriesBelowOhms ? GoodInSeries : GoodAcross);

    // Resistive over capacitive current; infinite where there is none of the latter, or a coil rules.
    private static double Loss(Complex ohms) => ohms.Imaginary < 0 ? ohms.Real / -ohms.Imaginary : double.PositiveInfinity;

    /// <summary>Both chassis.</summary>
    public Display With(Display other) => new(Hull(Main, other.Main), Series is { } a ? other.Series is { } b ? Hull(a, b) : a : other.Series, OrOver || other.OrOver);

    /// <summary>Room for what was not drawn.</summary>
    public Display Widened() => new(Wider(Main), Series is { } s ? Wider(s) : null, OrOver);

    /// <summary>What the meter shows, its error included.</summary>
    /// <param name="shown">From true values to figures.</param>
    /// <param name="top">The meter's top.</param>
    public ImmutableArray<Interval> Shown(Func<Interval, Interval> shown, double top)
    {
        var main = shown(Main);
        var all = ImmutableArray.Create(main);
        if (Series is { } s) all = all.Add(shown(s));
        return OrOver && !double.IsInfinity(main.High) ? all.Add(new(top, double.PositiveInfinity)) : all;
    }

    private static Interval Hull(Interval a, Interval b) => new(Math.Min(a.Low, b.Low), Math.Max(a.High, b.High));

    private static Interval Wider(Interval i)
    {
        var more = double.IsInfinity(i.High) ? 0 : Margin * (i.High - i.Low);
        return new(Math.Max(0, i.Low - more), i.High + more);
    }
}

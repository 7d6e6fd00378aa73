namespace Lugbook.Circuit.Elements;

/// <summary>How a diode conducts: I = K·[S(V − V₀)ˣ − r] + V/LeakOhms, S a smoothed max(·, 0) of width w.</summary>
/// <remarks>
/// A hot cathode sends electrons to an anode at 0 V too: r = 0. A dry rectifier (<see cref="NeedsHeat"/> false) is no source: r = S(−V₀)ˣ, so that nothing flows at 0 V and the
/// little that flows backwards saturates at K·r. That is small only where V₀ is ten widths or more.
/// </remarks>
/// <param name="Perveance">K, A/Vˣ; above 0.</param>
/// <param name="Exponent">x, 1 or more: 1.5 for a vacuum diode (Child and Langmuir), 1 where a plain resistance rules.</param>
/// <param name="OffsetVolts">V₀, V: contact potential (negative) or forward threshold (positive).</param>
/// <param name="WidthVolts">w, V; above 0: how softly conduction begins. Far below V₀ the current falls e-fold each w/x.</param>
/// <param name="LeakOhms">Reverse leakage, Ω; infinity for none.</param>
public sealed record DiodeLaw(double Perveance, double Exponent, double OffsetVolts, double WidthVolts, double LeakOhms = double.PositiveInfinity)
{
    // Initial velocities at a cathode near 1,100 K: kT/q is about 0.1 V, which the exponent 1.5 makes of a width of 0.15 V.
    private const double CathodeWidth = 0.15;

    /// <summary>True (unless set): a vacuum diode, which passes nothing while its cathode is cold. False: a dry rectifier (selenium, silicon, germanium).</summary>
    public bool NeedsHeat { get; init; } = true;

    /// <summary>Vacuum diode, rectifier or damper from one point of its handbook curve, per plate.</summary>
    /// <param name="dropVolts">Drop at the current, V; above 0.15.</param>
    /// <param name="atAmperes">Current, A; above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    /// <remarks>
    /// Source: three-halves law (Child 1911, Langmuir 1913). The onset, +0.15 V, makes the current at 0 V some tens of microamperes in a
    /// signal diode of 10 V at 60 mA, as its sheets allow (from memory).
    /// </remarks>
    public static DiodeLaw Vacuum(double dropVolts, double atAmperes)
    {
        Check(dropVolts > 0.15 && double.IsFinite(dropVolts), nameof(dropVolts), dropVolts, "The drop of a vacuum diode is above 0.15 V.");
        Check(atAmperes > 0 && double.IsFinite(atAmperes), nameof(atAmperes), atAmperes, "The current is above 0 A.");
        return new(atAmperes / Math.Pow(dropVolts - 0.15, 1.5), 1.5, 0.15, CathodeWidth);
    }

    /// <summary>Selenium stack in fair condition.</summary>
    /// <param name="plates">Plates in series in one arm; 1 or more.</param>
    /// <param name="ratedAmperes">Rated direct current, A; above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    /// <remarks>
    /// Common practice, no source: about 1 V a plate at three times the rated direct current (the peak into a reservoir), conduction from about
    /// 0.35 V a plate, and a reverse leakage of a hundredth of the rated current at 25 V a plate. An aged stack drops more: raise the plates' drop.
    /// </remarks>
    public static DiodeLaw Selenium(int plates, double ratedAmperes)
    {
        Check(plates >= 1, nameof(plates), plates, "A stack has 1 plate or more.");
        Check(ratedAmperes > 0 && double.IsFinite(ratedAmperes), nameof(ratedAmperes), ratedAmperes, "The rated current is above 0 A.");
        return new(3 * ratedAmperes / Math.Pow(0.65 * plates, 1.5), 1.5, 0.35 * plates, 0.08 * plates, 25.0 * plates / (0.01 * ratedAmperes)) { NeedsHeat = false };
    }

    /// <summary>Silicon rectifier of the one-ampere class.</summary>
    /// <remarks>Source: typical forward curve of the 1N4007 class, from memory: 0.6 V at 10 mA, 0.75 V at 100 mA, 0.95 V at 1 A.</remarks>
    public static DiodeLaw Silicon() => new(6, 1, 0.80, 0.05, 1e9) { NeedsHeat = false };

    /// <summary>Germanium point-contact crystal.</summary>
    /// <remarks>Source: 1N34 class limits, from memory: 5 mA or more at +1 V, 30 µA or less at −10 V.</remarks>
    public static DiodeLaw Germanium() => new(8e-3, 1.3, 0.2, 0.06, 330e3) { NeedsHeat = false };

    /// <summary>A further cathode of a signal valve that feeds two small plates: the diodes of a duo-diode triode.</summary>
    /// <remarks>
    /// Common practice, from memory: about 2 mA at 10 V, and some −0.5 V of contact potential across half a megohm; an onset of −0.3 V gives that.
    /// </remarks>
    public static DiodeLaw SignalPlate() => new(2e-3 / Math.Pow(10.3, 1.5), 1.5, -0.3, CathodeWidth);

    private static void Check(bool good, string name, object value, string problem)
    {
        if (!good) throw new ArgumentOutOfRangeException(name, value, problem);
    }
}

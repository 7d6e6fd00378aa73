using System.Collections.Immutable;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>What today's makers sell, as far as the choice treats kinds differently.</summary>
public enum NewKind
{
    /// <summary>Plastic film, polyester or polypropylene.</summary>
    Film,
    /// <summary>Polypropylene film: small loss, made for AC and pulses.</summary>
    Polypropylene,
    /// <summary>Aluminium electrolytic.</summary>
    Electrolytic,
    /// <summary>Ceramic that keeps its value (C0G, NP0).</summary>
    C0G,
    /// <summary>Silvered mica.</summary>
    Mica,
    /// <summary>Ceramic of class 2 (X7R, Y5P): bypass of radio frequencies only.</summary>
    CeramicClass2,
    /// <summary>Film with the class X mark (IEC 60384-14).</summary>
    SafetyFilm,
    /// <summary>Ceramic disc with the class Y mark (IEC 60384-14).</summary>
    SafetyCeramic,
    /// <summary>Metal film resistor.</summary>
    MetalFilm,
    /// <summary>Carbon film resistor.</summary>
    CarbonFilm,
    /// <summary>Metal oxide resistor, flameproof.</summary>
    MetalOxide,
    /// <summary>Wirewound resistor.</summary>
    Wirewound,
    /// <summary>Metal glaze (thick film) resistor, made for high voltages.</summary>
    MetalGlaze,
}

/// <summary>Between which values the new part's nominal value must lie, in the position's unit.</summary>
/// <param name="Low">Lowest; above 0.</param>
/// <param name="Target">The value aimed at: the mark, unless a limit lies below it.</param>
/// <param name="High">Highest.</param>
/// <param name="Reason">Why so, as a sentence.</param>
public sealed record ValueWindow(double Low, double Target, double High, string Reason)
{
    /// <summary>Does a nominal value lie within? The ends belong to it, to a part in 10⁹.</summary>
    public bool Holds(double value) => value >= Low * (1 - 1e-9) && value <= High * (1 + 1e-9);
}

/// <summary>Current that a capacitor between the line and something touchable passes through a hand.</summary>
/// <param name="Farads">Capacitance, F.</param>
/// <param name="LineVolts">Line, V rms.</param>
/// <param name="LineHertz">Line frequency, Hz.</param>
/// <param name="Milliamperes">2π·f·C·V, mA rms.</param>
public sealed record TouchCurrent(double Farads, double LineVolts, double LineHertz, double Milliamperes)
{
    /// <summary>Computes I = 2π·f·C·V for a part of exactly this value.</summary>
    public static TouchCurrent Of(double farads, double volts, double hertz) =>
        new(farads, volts, hertz, 2 * Math.PI * hertz * farads * volts * 1000);
}

/// <summary>Which lug the plus lead goes to.</summary>
/// <param name="PlusLug">Lug of +; null when not known.</param>
/// <param name="MinusLug">Lug of −; null when not known.</param>
/// <param name="Sentence">What to do.</param>
public sealed record Polarity(string? PlusLug, string? MinusLug, string Sentence);

/// <summary>What the part that takes a position must be. Null means "no demand" or "not known"; the reasons tell which.</summary>
public sealed record Requirement
{
    /// <summary>Ohm or farad.</summary>
    public required Unit Unit { get; init; }
    /// <summary>Value window; null when the old value is not known.</summary>
    public required ValueWindow? Value { get; init; }
    /// <summary>Least rated voltage, V DC; for a resistor the least working voltage of its type. Never below the old mark.</summary>
    public required double? VoltsAtLeast { get; init; }
    /// <summary>Why this voltage.</summary>
    public required string VoltsReason { get; init; }
    /// <summary>Least rated line voltage, V AC, of a safety class part.</summary>
    public double? LineVoltsAtLeast { get; init; }
    /// <summary>Least rated power, W; null for a capacitor. Never below the old mark.</summary>
    public double? WattsAtLeast { get; init; }
    /// <summary>Why this power.</summary>
    public string? WattsReason { get; init; }
    /// <summary>Kinds that may stand here, best first.</summary>
    public required ImmutableArray<NewKind> Kinds { get; init; }
    /// <summary>Why these kinds.</summary>
    public required string KindReason { get; init; }
    /// <summary>Least safety class; a Y part may stand where X is asked for, never the other way round.</summary>
    public SafetyClass SafetyClass { get; init; }
    /// <summary>Why this class.</summary>
    public string? SafetyReason { get; init; }
    /// <summary>Widest tolerance of the new part, percent; null when any will do.</summary>
    public double? TolerancePercentAtMost { get; init; }
    /// <summary>Polarity; null when the part has none.</summary>
    public Polarity? Polarity { get; init; }
    /// <summary>Ripple current that an electrolytic here must bear at twice the line's frequency or at it, A rms; null when not computed.</summary>
    public double? RippleAmperes { get; init; }
    /// <summary>Frequency of that ripple, Hz; null when there is none.</summary>
    public double? RippleHertz { get; init; }
    /// <summary>Least upper category temperature, °C; null: any.</summary>
    public double? CelsiusAtLeast { get; init; }
    /// <summary>Why this temperature.</summary>
    public string? CelsiusReason { get; init; }
    /// <summary>How far its lugs lie apart, mm; null when not known.</summary>
    public double? LugDistanceMm { get; init; }

    /// <summary>May a part of this class stand here?</summary>
    public bool Accepts(SafetyClass offered) => SafetyClass switch
    {
        SafetyClass.None => offered == SafetyClass.None,
        SafetyClass.X1 => offered is SafetyClass.X1 or SafetyClass.Y1,
        SafetyClass.X2 => offered != SafetyClass.None,
        SafetyClass.Y2 => offered is SafetyClass.Y2 or SafetyClass.Y1,
        _ => offered == SafetyClass.Y1,
    };
}

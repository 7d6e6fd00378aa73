using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Variants;

/// <summary>Elements made ready to be varied, and with a value put in.</summary>
internal static class Placed
{
    /// <summary>A short is taken as so many ohms.</summary>
    public const double LeastOhms = 1 / Writer.MostSiemens;
    /// <summary>How near an end of its track a slider is taken at most, as a share.</summary>
    public const double End = 1e-6;

    /// <summary>An element whose resistance varies: leakage and contact as a resistor, nothing joined.</summary>
    public static Element Of(Element element) => element switch
    {
        Resistor e => e with { Ohms = Math.Max(e.Ohms, LeastOhms) },
        Capacitor e => new Resistor(e.Name, e.A, e.B, Math.Max(e.LeakOhms, LeastOhms)),
        Switch e => new Resistor(e.Name, e.A, e.B, e.Closed ? LeastOhms : double.PositiveInfinity),
        Filament e => new Resistor(e.Name, e.A, e.B, e.RatedVolts / e.RatedAmperes),
        Thermistor e => new Resistor(e.Name, e.A, e.B, e.ColdOhms),
        Fuse e => new Resistor(e.Name, e.A, e.B, e.Ohms),
        Inductor e => new Resistor(e.Name, e.A, e.B, e.Ohms),
        Control e => Inner(e),
        _ => element,
    };

    private static Control Inner(Control e) => e with { Position = Math.Clamp(e.Position, End, 1 - End) };

    /// <summary>The element with one value.</summary>
    public static Element With(Element element, Parameter parameter, double x) => (element, parameter) switch
    {
        (Resistor e, Parameter.Ohms) => e with { Ohms = Math.Max(x, LeastOhms) },
        (Control e, Parameter.Ohms) => Bounded(Inner(e) with { Ohms = x }),
        (Control e, Parameter.Position) => Bounded(Inner(e with { Position = x })),
        (Battery e, Parameter.Volts) => e with { Volts = x },
        (CurrentDrain e, Parameter.Amperes) => e with { Amperes = x },
        (Declared e, Parameter.Volts) => e with { Volts = x },
        (GasRegulator e, Parameter.Volts) => e with { RunVolts = x },
        (GasRegulator e, Parameter.Ohms) => e with { SlopeOhms = Math.Max(x, LeastOhms) },
        (Converter e, Parameter.OscillatorVolts) => e with { OscillatorPeakVolts = x },
        (Diode e, Parameter.Perveance) => e with { Law = e.Law with { Perveance = x } },
        (Triode e, Parameter.Perveance) => e with { Law = e.Law with { Perveance = x } },
        (Triode e, Parameter.Mu) => e with { Law = e.Law with { Mu = x } },
        (Pentode e, Parameter.Perveance) => e with { Law = e.Law with { Perveance = x } },
        (Pentode e, Parameter.Mu) => e with { Law = e.Law with { ScreenMu = x } },
        (Converter e, Parameter.Perveance) => e with { Law = e.Law with { Perveance = x } },
        (Converter e, Parameter.Mu) => e with { Law = e.Law with { ScreenMu = x } },
        _ => throw new ArgumentException($"Element '{element.Name}' has no {parameter} that can be varied."),
    };

    // Both halves of a track at least 0.1 Ω, as in a lane.
    private static Control Bounded(Control e)
    {
        if (double.IsInfinity(e.Ohms)) return e;
        var (below, above) = (Math.Max(e.Ohms * e.Position, LeastOhms), Math.Max(e.Ohms * (1 - e.Position), LeastOhms));
        return e with { Ohms = below + above, Position = below / (below + above) };
    }
}

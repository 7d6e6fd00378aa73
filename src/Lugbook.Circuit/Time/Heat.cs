using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Time;

/// <summary>How resistance follows heat in filaments and thermistors. Laws and sources: docs/supply.md.</summary>
internal static class Heat
{
    /// <summary>Resistivity of tungsten rises as absolute temperature to this power.</summary>
    /// <remarks>Fitted by us to the Jones and Langmuir table (300 to 3,000 K); within 2 %.</remarks>
    public const double ResistivityPower = 1.217;
    /// <summary>Radiated power rises as resistance to this power, which makes current rise as V^0.55: (1 + 0.55)/(1 − 0.55).</summary>
    public const double RadiationPower = 1.55 / 0.45;
    /// <summary>Warming time of a filament that is said to follow at once, s: slow beside a half-cycle, fast beside a valve (common practice, no source).</summary>
    public const double LampSeconds = 0.05;
    private const double AmbientKelvin = 298.15;

    /// <summary>Resistance over rated hot resistance at a rise u, in shares of the rated rise in temperature (0 cold, 1 at rated power).</summary>
    public static double Share(Filament filament, double rise)
    {
        var hot = Math.Pow(1 / filament.ColdShare, 1 / ResistivityPower);
        return filament.ColdShare * Math.Pow(Math.Max(1 + rise * (hot - 1), 1e-3), ResistivityPower);
    }

    /// <summary>Rise at a resistance share: the inverse of <see cref="Share"/>.</summary>
    public static double Rise(Filament filament, double share)
    {
        var hot = Math.Pow(1 / filament.ColdShare, 1 / ResistivityPower);
        return (Math.Pow(share / filament.ColdShare, 1 / ResistivityPower) - 1) / (hot - 1);
    }

    /// <summary>Heat given off, in shares of rated power, at a resistance share.</summary>
    public static double GivenOff(Filament filament, double share)
    {
        var cold = Math.Pow(filament.ColdShare, RadiationPower);
        return (Math.Pow(share, RadiationPower) - cold) / (1 - cold);
    }

    /// <summary>Resistance share at rest at a power, in shares of rated power: the inverse of <see cref="GivenOff"/>.</summary>
    public static double ShareAtRest(Filament filament, double power)
    {
        var cold = Math.Pow(filament.ColdShare, RadiationPower);
        return Math.Pow(cold + Math.Max(power, 0) * (1 - cold), 1 / RadiationPower);
    }

    /// <summary>How fast the heat given off rises with the rise in temperature at rated power: with it the last of the warming goes by the stated time constant.</summary>
    private static double RatedSlope(Filament filament)
    {
        var hot = Math.Pow(1 / filament.ColdShare, 1 / ResistivityPower);
        return RadiationPower * ResistivityPower * (hot - 1) / hot / (1 - Math.Pow(filament.ColdShare, RadiationPower));
    }

    public static double RatedOhms(Filament filament) => filament.RatedVolts / filament.RatedAmperes;

    /// <summary>Heat state of an element → Ω. The state is the rise for a filament, kelvin above 25 °C for a thermistor.</summary>
    public static double Ohms(Element element, double state) => element switch
    {
        Filament f => RatedOhms(f) * Share(f, state),
        Thermistor t => t.ColdOhms * Math.Exp(t.Beta * (1 / (AmbientKelvin + state) - 1 / AmbientKelvin)),
        _ => throw new ArgumentException($"'{element.Name}' has no heat.", nameof(element)),
    };

    /// <summary>How fast the state rises under a power, a second.</summary>
    public static double Rate(Element element, double state, double watts) => element switch
    {
        Filament f => (watts / (f.RatedVolts * f.RatedAmperes) - GivenOff(f, Share(f, state))) / ((f.WarmUpSeconds > 0 ? f.WarmUpSeconds : LampSeconds) * RatedSlope(f)),
        Thermistor t => (watts - t.WattsPerKelvin * state) / t.JoulesPerKelvin,
        _ => throw new ArgumentException($"'{element.Name}' has no heat.", nameof(element)),
    };

    /// <summary>The state at which a steady power is given off.</summary>
    public static double AtRest(Element element, double watts) => element switch
    {
        Filament f => Rise(f, ShareAtRest(f, watts / (f.RatedVolts * f.RatedAmperes))),
        Thermistor t => watts / t.WattsPerKelvin,
        _ => throw new ArgumentException($"'{element.Name}' has no heat.", nameof(element)),
    };
}

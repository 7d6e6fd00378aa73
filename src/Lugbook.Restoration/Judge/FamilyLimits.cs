using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Judge;

/// <summary>What a family's parts must meet, whatever the position.</summary>
internal static class FamilyLimits
{
    /// <summary>The limits of the mark: the printed tolerance, or the family's usual one.</summary>
    public static (double Low, double High, Tolerance Tolerance, bool Usual)? OfMark(Part part)
    {
        if (part.Value is not { } nominal || nominal <= 0) return null;
        var usual = part.Tolerance is null;
        var tolerance = part.Tolerance ?? Usual(part.Kind);
        return (tolerance.Low(nominal), tolerance.High(nominal), tolerance, usual);
    }

    // Common practice, no source: no band is ±20 %, old electrolytics -10 +100 %, ceramics without a mark a guaranteed minimum, windings ±20 % (copper warms, sheets round).
    private static Tolerance Usual(PartKind kind) => kind switch
    {
        PartKind.Electrolytic => Tolerance.Between(0.1, 1),
        PartKind.Ceramic => Tolerance.Between(0.2, 1),
        _ => Tolerance.Percent(20),
    };

    /// <summary>Insulation that an old film, paper, mica or ceramic capacitor must still have, Ω.</summary>
    /// <remarks>
    /// Film and paper: 100 s (MΩ·µF), at least 100 MΩ: new waxed paper had 1,000 to 5,000 s, below 100 s it is bad (from memory). Mica and ceramic: 1,000 MΩ (common practice, no source).
    /// </remarks>
    public static (double Ohms, string Rule)? Insulation(Part part) => part.Kind switch
    {
        PartKind.Electrolytic => null,
        PartKind.Mica or PartKind.SilverMica or PartKind.Ceramic => (1e9, "1,000 MΩ for mica and ceramic"),
        _ => part.Value is { } farads and > 0 ? (Math.Min(Math.Max(100 / farads, 100e6), 10e9), "100 MΩ·µF, and 100 MΩ at least") : (100e6, "100 MΩ at least"),
    };

    /// <summary>Leakage that an old electrolytic may have at its working voltage, A.</summary>
    /// <remarks>0.5 mA for 10 µF after re-forming (common practice, no source), and never less than a new part's 0.01·C·V or 3 µA (a general series, as its makers print it).</remarks>
    public static double Leakage(double farads, double volts) => Math.Max(0.5e-3 * farads / 10e-6, Math.Max(0.01 * farads * volts, 3e-6));

    /// <summary>Series resistance at which an old electrolytic is out, Ω at 120 Hz: twice that of a new general part.</summary>
    /// <remarks>tan δ by rated voltage of one general 105 °C series; ESR = tan δ/(2π·120·C). Out above twice (common practice, no source).</remarks>
    public static double SeriesOhms(double farads, double ratedVolts)
    {
        (double Volts, double Loss)[] table = [(6.3, .23), (10, .20), (16, .16), (25, .14), (35, .12), (50, .10), (63, .09), (100, .08), (160, .12), (200, .14), (250, .17), (350, .20), (450, .25)];
        var loss = table.FirstOrDefault(t => ratedVolts <= t.Volts * 1.001, (Volts: 600, Loss: .25)).Loss;
        return 2 * loss / (2 * Math.PI * 120 * farads);
    }

    /// <summary>The least capacitance that an old electrolytic may have, as a share of its mark; common practice, no source.</summary>
    public const double LeastElectrolyticShare = 0.7;

    /// <summary>Highest dissipation factor of an old film, paper or mica capacitor; common practice, no source.</summary>
    public static double Loss(PartKind kind) => kind switch { PartKind.Mica or PartKind.SilverMica => 0.003, PartKind.Ceramic => 0.03, PartKind.Electrolytic => 0.5, PartKind.Paper => 0.02, _ => 0.01 };
}

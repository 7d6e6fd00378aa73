using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Netlist;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Slips;

/// <summary>How far an element of a healthy set may be from its nominal value. Ratios but for the leakage.</summary>
/// <param name="OhmsLow">Lowest resistance, as a share of nominal.</param>
/// <param name="OhmsHigh">Highest.</param>
/// <param name="FaradsLow">Lowest capacitance.</param>
/// <param name="FaradsHigh">Highest.</param>
/// <param name="LeakLow">Lowest insulation of a capacitor, Ω.</param>
/// <param name="LeakHigh">Highest, Ω; infinite but for one with resistors across it.</param>
internal readonly record struct Range(double OhmsLow, double OhmsHigh, double FaradsLow, double FaradsHigh, double LeakLow, double LeakHigh)
{
    /// <summary>Coils: what their turns and iron make of them is rarely marked (common practice, no source).</summary>
    public const double Henries = 3;
    /// <summary>Cold resistance of heaters and lamps, fuses and thermistors, as a factor either way (common practice, no source).</summary>
    public const double Hot = 1.6;
    /// <summary>What a dry rectifier passes at a fraction of a volt differs from piece to piece by a decade (common practice, no source).</summary>
    public const double Rectifier = 10;
    // An old composition resistor that nobody measured may have drifted up so far beyond its tolerance (common practice, no source).
    private const double Drift = 1.3;
    // Insulation of old paper that nobody measured, Ω, and of others: paper is leaky as a rule, mica and ceramic rarely (common practice, no source).
    private const double OldPaper = 1e6, OldOther = 100e6, NewFilm = 1e9;
    // Insulation times capacitance of electrolytics at an ohmmeter's volts, s: a tenth of what 0.01·C·V allows a new one, a hundredth for an old one (common practice, no source).
    private const double NewElectrolytic = 10, OldElectrolytic = 1;

    private static Range Ohms(double low, double high) => new(low, high, 1, 1, double.PositiveInfinity, double.PositiveInfinity);

    /// <summary>A new part.</summary>
    public static Range New(Part part, Exchange exchange, double farads) =>
        part.Kind == PartKind.Resistor ? Ohms(1 - exchange.Tolerance, 1 + exchange.Tolerance)
        : exchange.AcrossOhms is { } across ? new(0.3, 2, 1 - exchange.Tolerance, 1 + exchange.Tolerance, 0.9 * across, 1.1 * across)
        : new(0.1, 2, 1 - exchange.Tolerance, 1 + exchange.Tolerance, part.Kind == PartKind.Electrolytic ? NewElectrolytic / farads : NewFilm, double.PositiveInfinity);

    /// <summary>A part that is as it was found.</summary>
    public static Range Old(Element element, Part? part, NetlistResult netlist, ILookup<string, Spread> spreads)
    {
        var spread = spreads[element.Name].FirstOrDefault(s => s.Parameter == Parameter.Ohms && s.Nominal > 0);
        var (low, high) = spread is null ? (0.8, 1.2) : (spread.Low / spread.Nominal, spread.High / spread.Nominal);
        switch (element)
        {
            case Capacitor c when part is not null:
                var (least, most) = part.Kind switch
                {
                    PartKind.Trimmer or PartKind.VariableCapacitor => (0.03, 1.2),
                    PartKind.Electrolytic => (0.5, 2.0),
                    // Leaky paper reads high.
                    PartKind.Paper or PartKind.Capacitor => (0.7, 1.5),
                    _ when FamilyLimits.OfMark(part) is var (l, h, _, _) => (l / part.Value!.Value, h / part.Value.Value),
                    _ => (0.7, 1.5),
                };
                var leak = part.Kind switch { PartKind.Electrolytic => OldElectrolytic / c.Farads, PartKind.Paper or PartKind.Capacitor => OldPaper, _ => OldOther };
                return new(0.3, 20, part.Value is null ? 0.1 : least, part.Value is null ? 10 : most, leak, double.PositiveInfinity);
            case Resistor when part?.Kind == PartKind.Resistor: return Ohms(low, spread?.Cause == SpreadCause.Tolerance ? high * Drift : high);
            case Filament or Fuse or Thermistor: return Ohms(1 / Hot, Hot);
            default: return Ohms(low, high);
        }
    }
}

using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Markings.Colours;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Layout.Bodies;

/// <summary>What a body looks like.</summary>
public enum Look
{
    /// <summary>Composition resistor with bands.</summary>
    Resistor,
    /// <summary>Wire-wound resistor on a ceramic tube.</summary>
    PowerResistor,
    /// <summary>Paper or film tube.</summary>
    Tube,
    /// <summary>Electrolytic tube.</summary>
    Electrolytic,
    /// <summary>Moulded mica, flat.</summary>
    Mica,
    /// <summary>Ceramic disc, lying.</summary>
    Disc,
    /// <summary>Ceramic disc on its edge.</summary>
    DiscOnEdge,
    /// <summary>Ceramic tube with dots.</summary>
    CeramicTube,
    /// <summary>Diode or small rectifier with its cathode marked.</summary>
    Diode,
    /// <summary>Coil on a form.</summary>
    Coil,
    /// <summary>Glass fuse.</summary>
    Fuse,
    /// <summary>Lamp.</summary>
    Lamp,
    /// <summary>Something round: a control, a speaker.</summary>
    Round,
    /// <summary>Trimmer or other adjustable part.</summary>
    Adjustable,
    /// <summary>A capacitor inside its mount: two plates.</summary>
    Plates,
    /// <summary>Anything else.</summary>
    Block,
}

/// <summary>A body: what it looks like, and its true size.</summary>
/// <param name="Look">What it looks like.</param>
/// <param name="Length">From lead to lead, mm.</param>
/// <param name="Width">Across, mm.</param>
/// <param name="Least">The share of its length to which it may be drawn short when its lugs stand close.</param>
public readonly record struct BodyForm(Look Look, double Length, double Width, double Least)
{
    /// <summary>The typical body of a part, from its kind, value and ratings.</summary>
    /// <remarks>
    /// Common practice, no source. Composition resistors go by watts; paper and electrolytic tubes by the cube root of µF times
    /// volts, because they are wound foil of about one thickness; discs by value; what is not known counts as the commonest part.
    /// </remarks>
    public static BodyForm Of(Part part)
    {
        double micro = part.Unit == Trade.Quantities.Unit.Farad && part.Value is > 0 and < 1 and { } f ? f * 1e6 : 0.01, pico = micro * 1e6;
        var volts = part.RatedVolts is { } rated && double.IsFinite(rated) ? rated : (double?)null;
        switch (part.Kind)
        {
            case PartKind.Resistor:
                return (part.RatedWatts is > 0 and < 1e4 and { } watts ? watts : (double?)null) switch
                {
                    null or (> 0.3 and <= 0.6) => new(Look.Resistor, 9.5, 3.6, 0.75),
                    <= 0.3 => new(Look.Resistor, 6.4, 2.4, 0.8),
                    <= 1.2 => new(Look.Resistor, 14.3, 5.7, 0.7),
                    <= 3 => new(Look.Resistor, 17.5, 7.9, 0.7),
                    <= 6 => new(Look.PowerResistor, 25, 8, 0.65),
                    <= 12 => new(Look.PowerResistor, 44, 9, 0.6),
                    _ => new(Look.PowerResistor, 50, 13, 0.6),
                };
            case PartKind.Paper or PartKind.Capacitor or PartKind.Film:
                var k = Math.Cbrt(Math.Clamp(micro, 1e-4, 20) * Math.Clamp(volts ?? 400, 50, 5000) / 400) * (part.Kind == PartKind.Film ? 0.85 : 1);
                return new(Look.Tube, Math.Clamp(17 + 36 * k, 16, 60), Math.Clamp(6 + 13 * k, 6, 28), 0.62);
            case PartKind.Electrolytic:
                var e = Math.Cbrt(Math.Clamp(micro, 0.2, 5000) * Math.Clamp(volts ?? 300, 3, 600) / 1000);
                return new(Look.Electrolytic, Math.Clamp(19 + 16 * e, 18, 80), Math.Clamp(6.5 + 8.5 * e, 7, 36), 0.62);
            case PartKind.Mica or PartKind.SilverMica:
                return pico > 2500 ? new(Look.Mica, 19, 13, 0.75) : pico > 600 ? new(Look.Mica, 16, 10.5, 0.75) : new(Look.Mica, 13.5, 9, 0.75);
            case PartKind.Ceramic when Paint.Code(part.Code) is { Length: >= 3 }:
                return new(Look.CeramicTube, pico > 400 ? 18 : 13, 5, 0.75);
            case PartKind.Ceramic:
                var across = (pico <= 470 ? 8 : pico <= 2200 ? 10 : pico <= 6000 ? 12.5 : 16) + (volts > 1400 ? 4 : 0);
                return new(Look.Disc, across, across, 0.8);
            case PartKind.CrystalDiode: return new(Look.Diode, 9, 3.4, 0.8);
            case PartKind.SeleniumDiode: return new(Look.Diode, 11, 6, 0.75);
            case PartKind.SiliconRectifier: return new(Look.Diode, 10, 5.5, 0.8);
            case PartKind.SeleniumRectifier: return new(Look.Block, 26, 20, 0.7);
            case PartKind.Winding: return part.Value is > 40 ? new(Look.Coil, 22, 11, 0.6) : new(Look.Coil, 12, 5, 0.7);
            case PartKind.Fuse: return new(Look.Fuse, 30, 6.5, 0.7);
            case PartKind.Lamp: return new(Look.Lamp, 11, 11, 0.7);
            case PartKind.Thermistor: return new(Look.Disc, 12, 12, 0.8);
            case PartKind.Control: return new(Look.Round, 22, 22, 0.6);
            case PartKind.Speaker: return new(Look.Round, 22, 22, 0.7);
            case PartKind.Trimmer or PartKind.VariableCapacitor: return new(Look.Adjustable, 14, 11, 0.7);
            case PartKind.Switch: return new(Look.Block, 14, 9, 0.7);
            default: return new(Look.Block, 14, 8, 0.65);
        }
    }

    /// <summary>The same disc standing on its edge: what one sees of it from beneath among close lugs.</summary>
    public BodyForm? OnEdge => Look == Look.Disc ? this with { Look = Look.DiscOnEdge, Width = Math.Max(3, Width * 0.3) } : null;

    /// <summary>What it covers when its middle lies here along this direction.</summary>
    public Slab At(Pt centre, Pt axis) => new(centre, axis, Length, Width);
}

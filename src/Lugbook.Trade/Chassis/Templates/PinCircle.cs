using System.Collections.Immutable;

namespace Lugbook.Trade.Chassis.Templates;

/// <summary>How the pins of a valve base lie: on a circle, numbered clockwise from key or gap as seen from below.</summary>
/// <param name="DiameterMillimetres">Diameter of the circle through the pins' centres.</param>
/// <param name="Positions">Equal steps round the circle, those without a pin included.</param>
/// <param name="FirstDegrees">Angle from the key or the middle of the gap to pin 1, clockwise as seen from below.</param>
/// <param name="Pins">Numbers of the pins, each at its step: pin n is n − 1 steps after pin 1.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record PinCircle(double DiameterMillimetres, int Positions, double FirstDegrees, ImmutableArray<int> Pins, string Source)
{
    /// <summary>
    /// How far outside the pin circle a chassis socket's soldering tag lies, mm. Common practice, no source: tags bend outwards
    /// by 2 to 4 mm, and differ from maker to maker. Move the lugs when it matters.
    /// </summary>
    public const double TagReachMillimetres = 2.5;

    /// <summary>A pin that stands in the middle and not on the circle; null for none.</summary>
    public int? CentrePin { get; init; }

    /// <summary>Does a gap wider than a step part the last pin from the first?</summary>
    public bool HasGap => FirstDegrees > 0.75 * 360 / Positions;

    /// <summary>Angle of a pin from key or gap, degrees clockwise as seen from below; at least 0, less than 360.</summary>
    public double DegreesOf(int pin) => (FirstDegrees + ((pin - 1) * 360.0 / Positions)) % 360;

    /// <summary>Place of a pin's soldering tag from the middle, mm: x to the right, y towards the key or gap, as seen from below.</summary>
    public (double X, double Y) TagOf(int pin)
    {
        if (pin == CentrePin) return (0, 0);
        var radius = (DiameterMillimetres / 2) + TagReachMillimetres;
        var angle = DegreesOf(pin) * Math.PI / 180;
        return (radius * Math.Sin(angle), radius * Math.Cos(angle));
    }
}

/// <summary>The valve bases that templates know.</summary>
/// <remarks>
/// "Public table" is a published list of valve bases with their pin circles (electronics-notes.com, valve sockets and bases),
/// which agrees with IEC 60067 as far as remembered. All numbering is clockwise as seen from below.
/// </remarks>
public static class PinCircles
{
    /// <summary>International octal: 17.5 mm (11/16 in), 8 steps of 45°, the key midway between 8 and 1.</summary>
    public static PinCircle Octal { get; } = new(17.5, 8, 22.5, Upto(8), "circle and spacing: public table; key between pins 8 and 1: from memory");
    /// <summary>Loctal: 8 steps of 45°, the key of the centre pin midway between 8 and 1.</summary>
    public static PinCircle Loctal { get; } = new(17.5, 8, 22.5, Upto(8), "from memory");
    /// <summary>Noval: 11.9 mm (15/32 in), 10 steps of 36°, the gap of two steps between 9 and 1.</summary>
    public static PinCircle Noval { get; } = new(11.9, 10, 36, Upto(9), "public table");
    /// <summary>Seven-pin miniature: 9.5 mm (3/8 in), 8 steps of 45°, the gap of two steps between 7 and 1.</summary>
    public static PinCircle SevenPin { get; } = new(9.5, 8, 45, Upto(7), "circle and 45° from 1 to 7: public table; gap of 90° follows");
    /// <summary>Duodecal (picture tubes): 12 steps of 30°, the key midway between 12 and 1; many tubes use pins 1, 2, 6, 7, 10, 11, 12 only.</summary>
    public static PinCircle Duodecal { get; } = new(27.0, 12, 15, Upto(12), "from memory");

    /// <summary>American four-pin (UX4): the thick filament pins 1 and 4 at the key's side.</summary>
    public static PinCircle FourPin { get; } = new(16.3, 4, 45, Upto(4), "from memory; really slightly wider between the thick pins");
    /// <summary>American five-pin (UY): the heater pins 1 and 5 at the key's side.</summary>
    public static PinCircle FivePin { get; } = new(19.05, 5, 36, Upto(5), "3/4 in circle, equal steps: from memory");
    /// <summary>American six-pin: the thick heater pins 1 and 6 at the key's side.</summary>
    public static PinCircle SixPin { get; } = new(19.05, 6, 30, Upto(6), "3/4 in circle, equal steps: from memory");
    /// <summary>American seven-pin, small: the thick heater pins 1 and 7 at the key's side.</summary>
    public static PinCircle LargeSevenPin { get; } = new(19.05, 7, 180.0 / 7, Upto(7), "3/4 in circle (a larger one of 0.855 in exists), equal steps: from memory");
    /// <summary>British four-pin (B4): drawn evenly; really pin 1 (anode) stands farther out.</summary>
    public static PinCircle B4 { get; } = new(16.3, 4, 0, Upto(4), "from memory; pin 1 really stands farther out than the others");
    /// <summary>British five-pin (B5): B4 with pin 5 in the middle.</summary>
    public static PinCircle B5 { get; } = B4 with { Pins = Upto(5), CentrePin = 5 };
    /// <summary>British seven-pin (B7): drawn with a gap of two steps between 7 and 1.</summary>
    public static PinCircle B7 { get; } = new(17.5, 8, 45, Upto(7), "from memory, steps not sure");
    /// <summary>Mazda octal: drawn evenly; really the steps differ so that an international octal valve does not fit.</summary>
    public static PinCircle MazdaOctal { get; } = new(17.5, 8, 22.5, Upto(8), "from memory; the steps really differ");
    /// <summary>Rimlock (B8A): 8 steps of 45°, the nipple on the rim midway between 8 and 1.</summary>
    public static PinCircle Rimlock { get; } = new(11.5, 8, 22.5, Upto(8), "from memory");
    /// <summary>Magnoval (B9D): 10 steps of 36°, the gap between 9 and 1.</summary>
    public static PinCircle Magnoval { get; } = new(17.5, 10, 36, Upto(9), "from memory");
    /// <summary>Duodecar (B12C): 13 steps, the gap between 12 and 1.</summary>
    public static PinCircle Duodecar { get; } = new(19.05, 13, 360.0 / 13, Upto(12), "from memory");

    /// <summary>The pins of a socket of this kind; null for what is no socket.</summary>
    public static PinCircle? Of(MountKind kind) => kind switch
    {
        MountKind.OctalSocket => Octal,
        MountKind.LoctalSocket => Loctal,
        MountKind.NovalSocket => Noval,
        MountKind.SevenPinSocket => SevenPin,
        MountKind.DuodecalSocket => Duodecal,
        MountKind.FourPinSocket => FourPin,
        MountKind.FivePinSocket => FivePin,
        MountKind.SixPinSocket => SixPin,
        MountKind.LargeSevenPinSocket => LargeSevenPin,
        MountKind.B4Socket => B4,
        MountKind.B5Socket => B5,
        MountKind.B7Socket => B7,
        MountKind.MazdaOctalSocket => MazdaOctal,
        MountKind.RimlockSocket => Rimlock,
        MountKind.MagnovalSocket => Magnoval,
        MountKind.DuodecarSocket => Duodecar,
        _ => null,
    };

    private static ImmutableArray<int> Upto(int last) => [.. Enumerable.Range(1, last)];
}

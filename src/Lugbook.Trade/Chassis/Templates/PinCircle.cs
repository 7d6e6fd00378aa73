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

    /// <summary>Angle of a pin from key or gap, degrees clockwise as seen from below; at least 0, less than 360.</summary>
    public double DegreesOf(int pin) => (FirstDegrees + ((pin - 1) * 360.0 / Positions)) % 360;

    /// <summary>Place of a pin's soldering tag from the middle, mm: x to the right, y towards the key or gap, as seen from below.</summary>
    public (double X, double Y) TagOf(int pin)
    {
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

    private static ImmutableArray<int> Upto(int last) => [.. Enumerable.Range(1, last)];
}

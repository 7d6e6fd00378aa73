using System.Collections.Immutable;

namespace Lugbook.Restoration.Square;

/// <summary>A lug shown in a photograph, and where it lies.</summary>
/// <param name="Lug">Its name.</param>
/// <param name="PixelX">Pixels from the photograph's left edge.</param>
/// <param name="PixelY">Pixels from its upper edge.</param>
/// <param name="X">Chassis mm to the right, seen from beneath.</param>
/// <param name="Y">Chassis mm to the rear.</param>
public sealed record Pick(string Lug, double PixelX, double PixelY, double X, double Y);

/// <summary>How far a pick lies from where the squared-up photograph puts it.</summary>
/// <param name="Lug">Its name.</param>
/// <param name="Millimetres">Distance on the chassis, mm.</param>
/// <param name="Pixels">Distance in the photograph, pixels.</param>
public sealed record PickError(string Lug, double Millimetres, double Pixels);

/// <summary>A plane mapped on another by a camera: x' = (a·x + b·y + c) / (g·x + h·y + i), y' = (d·x + e·y + f) / (g·x + h·y + i).</summary>
public sealed record Homography(double A, double B, double C, double D, double E, double F, double G, double H, double I)
{
    /// <summary>Where a point comes to lie.</summary>
    public (double X, double Y) Map(double x, double y)
    {
        var w = G * x + H * y + I;
        return ((A * x + B * y + C) / w, (D * x + E * y + F) / w);
    }

    /// <summary>The way back.</summary>
    public Homography Inverse() => new(E * I - F * H, C * H - B * I, B * F - C * E, F * G - D * I, A * I - C * G, C * D - A * F, D * H - E * G, B * G - A * H, A * E - B * D);

    /// <summary>First <paramref name="first"/>, then this.</summary>
    public Homography After(Homography first)
    {
        ArgumentNullException.ThrowIfNull(first);
        var f = first;
        return new(A * f.A + B * f.D + C * f.G, A * f.B + B * f.E + C * f.H, A * f.C + B * f.F + C * f.I,
            D * f.A + E * f.D + F * f.G, D * f.B + E * f.E + F * f.H, D * f.C + E * f.F + F * f.I,
            G * f.A + H * f.D + I * f.G, G * f.B + H * f.E + I * f.H, G * f.C + H * f.F + I * f.I);
    }
}

/// <summary>A photograph squared up, or why it is not.</summary>
/// <param name="ToChassis">From pixels to chassis mm; null when it is not squared up.</param>
/// <param name="ToPixels">From chassis mm to pixels; null with it.</param>
/// <param name="Errors">How far each pick is off, in the order of the picks; empty when it is not squared up.</param>
/// <param name="Refusal">Why it is not, as a sentence; null when it is.</param>
/// <param name="Remarks">What the picks cannot tell, and which of them looks mistaken, as sentences.</param>
public sealed record SquareResult(Homography? ToChassis, Homography? ToPixels, ImmutableArray<PickError> Errors, string? Refusal, ImmutableArray<string> Remarks)
{
    /// <summary>The largest of <see cref="Errors"/>, mm; 0 when there are none.</summary>
    public double WorstMillimetres => Errors.IsEmpty ? 0 : Errors.Max(e => e.Millimetres);
}

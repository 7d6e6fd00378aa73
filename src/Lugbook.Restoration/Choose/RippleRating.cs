namespace Lugbook.Restoration.Choose;

/// <summary>Ripple current of an electrolytic, asked for at one frequency and promised at another.</summary>
/// <remarks>A rating at 100 or 120 Hz is worth 0.8 of itself at 50 or 60 Hz, because the losses of the oxide are larger there; one at 10 kHz and more is worth 0.5 of itself at 120 Hz (sheets differ: 0.4 to 0.7;
/// from memory). A cooler place would allow more; that is kept for a long life.</remarks>
internal static class RippleRating
{
    private const double Usual = 120;

    /// <summary>What a rating is worth at another frequency, A.</summary>
    public static double At(double hertz, double amperes, double? statedHertz) => amperes * Worth(hertz) / Worth(statedHertz ?? Usual);

    /// <summary>Null when the ripple asked for is borne or none is asked for; else what is against it. A rating that is not stated counts as not met.</summary>
    /// <param name="need">The requirement.</param>
    /// <param name="amperes">Stated ripple current, A.</param>
    /// <param name="statedHertz">Where it is stated, Hz; null: 100 or 120 Hz.</param>
    /// <param name="share">Share of the ripple that this part carries.</param>
    public static string? Fault(Requirement need, double? amperes, double? statedHertz, double share = 1)
    {
        if (need.RippleAmperes is not { } asked) return null;
        var hertz = need.RippleHertz ?? Usual;
        if (amperes is not { } stated) return $"Its ripple current is not stated; {Amperes(asked * share)} at {Show.Number(hertz)} Hz are asked for.";
        var worth = At(hertz, stated, statedHertz);
        return worth >= asked * share * (1 - 1e-9) ? null : $"It bears {Amperes(worth)} of ripple at {Show.Number(hertz)} Hz; {Amperes(asked * share)} are asked for.";
    }

    /// <summary>"320 mA", "1.1 A".</summary>
    public static string Amperes(double amperes) => amperes < 0.9995 ? $"{Show.Number(Math.Round(amperes * 1000))} mA" : $"{Show.Number(Math.Round(amperes, 2))} A";

    // Relative to 120 Hz.
    private static double Worth(double hertz) => hertz < 90 ? 0.8 : hertz < 500 ? 1 : hertz < 5000 ? 1.4 : 2;
}

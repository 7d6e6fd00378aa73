using System.Collections.Immutable;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Which kind of capacitor it is when nobody says so.</summary>
/// <remarks>Common practice, no source: values, notations and years in which each kind was usual.</remarks>
internal static class KindGuess
{
    /// <summary>From this year on a new set has plastic film rather than paper.</summary>
    private const int FilmYear = 1960;
    /// <summary>From this year on a small capacitor is ceramic rather than mica.</summary>
    private const int CeramicYear = 1950;

    /// <summary>The likely kind, why, and the kinds that are likely enough to ask about.</summary>
    /// <param name="farads">The value; null when it is not known.</param>
    /// <param name="inPicofarads">The note wrote it in picofarads.</param>
    /// <param name="volts">Rated volts; null when not known.</param>
    /// <param name="polar">The note names a + or − lead.</param>
    /// <param name="year">The set's year; null when not known.</param>
    public static (PartKind Kind, string? Why, ImmutableArray<PartKind> Ask) Capacitor(double? farads, bool inPicofarads, double? volts, bool polar, int? year)
    {
        if (polar) return (PartKind.Electrolytic, "a + or − lead is named", []);
        if (farads is not { } value) return (PartKind.Capacitor, null, []);
        if (value >= 3.999e-6) return (PartKind.Electrolytic, "4 µF or more", []);
        if (value >= 0.999e-6 && volts <= 100) return (PartKind.Electrolytic, "1 µF or more at 100 V or less", [PartKind.Electrolytic, Tubular(year)]);
        var tubular = Tubular(year);
        var small = year >= CeramicYear ? PartKind.Ceramic : PartKind.Mica;
        if (value <= 2.0001e-9)
        {
            if (inPicofarads) return (small, "2000 pF or less", year >= CeramicYear ? [small, PartKind.Mica] : [small, PartKind.Ceramic]);
            return value < 0.999e-9
                ? (small, "less than .001 µF", [small, tubular])
                : (tubular, "marked in µF", [tubular, small]);
        }
        if (inPicofarads && value <= 1.0001e-8) return (PartKind.Ceramic, "marked in pF, more than 2000", [PartKind.Ceramic, tubular]);
        return (tubular, year is null ? "usual for this value before 1960" : tubular == PartKind.Paper ? "usual for this value before 1960" : "usual for this value from 1960 on", []);
    }

    private static PartKind Tubular(int? year) => year >= FilmYear ? PartKind.Film : PartKind.Paper;
}

using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Compare;

/// <summary>Signs on a part that it was fitted after the set was made.</summary>
/// <remarks>
/// Years of introduction into sets are round figures of the trade (common practice, no source): ceramic 1937, crystal diode 1946, selenium rectifier 1946,
/// film 1955, silicon rectifier 1957; resistors of ±5 % are rare before 1950, of ±2 % and less before 1960. Nothing here is proof: makers changed parts within a run.
/// </remarks>
internal static partial class RepairSigns
{
    public static ImmutableArray<string> Of(Part part, Book book)
    {
        if (part.Kind is PartKind.Valve or PartKind.Winding or PartKind.Other) return [];
        var reasons = ImmutableArray.CreateBuilder<string>();
        if (book.Facts.Year is { } year)
        {
            if (Since(part) is var (first, what) && year < first)
                reasons.Add($"{Capital(what)} came into sets about {first.ToString(CultureInfo.InvariantCulture)}; this set is of {year.ToString(CultureInfo.InvariantCulture)}.");
            if (part.Kind == PartKind.Resistor && part.Tolerance is { } t && t.Plus < 0.021 && year < 1960)
                reasons.Add("A resistor of ±2 % or better is not of this set's time.");
            else if (part.Kind == PartKind.Resistor && part.Tolerance is { Plus: < 0.051 } && year < 1950 && !FiveIsUsual(book))
                reasons.Add("Resistors of ±5 % were rare in sets before 1950, and the others here are wider.");
            if (part.Kind.IsFixedCapacitor() && year < 1965 && part.RatedVolts is 63 or 160 or 630 or 1250)
                reasons.Add($"A rating of {Figures.Number(part.RatedVolts!.Value)} V is a modern step.");
            if (part.Kind.IsFixedCapacitor() && part.Marked is { } marked && year < 1965 && ModernMarking().IsMatch(marked))
                reasons.Add($"The marking '{marked.Trim()}' is in a modern notation.");
        }
        if (part.Kind is PartKind.Paper or PartKind.Film or PartKind.Capacitor && part.Value is >= 0.9e-9 && IsSeriesOnly(part.Value.Value) && OldStyle(book, part))
            reasons.Add($"{Figures.Of(part)} is a value of the E series; the other capacitors of this set have the older round values.");
        return reasons.ToImmutable();
    }

    private static (int Year, string What)? Since(Part part) => part.Kind switch
    {
        PartKind.Film => (1955, "film capacitors"),
        PartKind.Ceramic => (1937, "ceramic capacitors"),
        PartKind.SiliconRectifier => (1957, "silicon rectifiers"),
        PartKind.CrystalDiode => (1946, "crystal diodes"),
        PartKind.SeleniumRectifier => (1946, "selenium rectifiers"),
        _ => null,
    };

    private static bool FiveIsUsual(Book book)
    {
        var marked = book.Parts.Where(p => p.Kind == PartKind.Resistor && p.Tolerance is not null).ToArray();
        return marked.Count(p => p.Tolerance!.Value.Plus < 0.051) * 2 > marked.Length;
    }

    /// <summary>Figures that the E series has and round values have not.</summary>
    private static bool IsSeriesOnly(double value) => Figures2(value) is 22 or 33 or 47 or 68 or 82 or 18 or 27 or 39 or 56;

    /// <summary>Do at least three, and most, of the set's other capacitors of this family have round figures?</summary>
    private static bool OldStyle(Book book, Part part)
    {
        var values = book.SheetParts.Where(p => PartKinds.Of(p.KindAsWritten) is PartKind.Paper or PartKind.Capacitor && p.Value is >= 0.9e-9).Select(p => p.Value!.Value).ToArray();
        if (values.Length < 3)
            values = [.. book.Parts.Where(p => p.Id != part.Id && p.Kind is PartKind.Paper or PartKind.Capacitor && p.Value is >= 0.9e-9).Select(p => p.Value!.Value)];
        var round = values.Count(v => Figures2(v) is 20 or 25 or 30 or 40 or 50 or 60 or 80);
        var series = values.Count(IsSeriesOnly);
        return round >= 3 && round > 3 * series;
    }

    /// <summary>The first two significant figures, 10 to 99.</summary>
    private static int Figures2(double value)
    {
        var scaled = value / Math.Pow(10, Math.Floor(Math.Log10(value) + 1e-9)) * 10;
        return (int)Math.Round(scaled);
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    [GeneratedRegex(@"\b\d+n\d*\b|\bnF\b|\b\d{3}[JKM]\b|\bX[12]\b|\bY[12]\b|\b105\s*°?C\b|\bMKP\b|\bMKT\b", RegexOptions.None)] private static partial Regex ModernMarking();
}

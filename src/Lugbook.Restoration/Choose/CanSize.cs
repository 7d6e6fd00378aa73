using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Choose;

/// <summary>How large a can is.</summary>
/// <param name="DiameterMm">Outside, mm.</param>
/// <param name="LengthMm">Outside, mm.</param>
/// <param name="From">Where that is known from, in words.</param>
/// <param name="IsWritten">True when the user wrote it.</param>
internal sealed partial record CanSize(double DiameterMm, double LengthMm, string From, bool IsWritten)
{
    // Wall and insulating sleeve on both sides; the wafer with the lugs and the crimp below it. Common practice, no source.
    private const double Walls = 2, Wafer = 12;

    /// <summary>Room inside once it is emptied, mm.</summary>
    public double BoreMm => DiameterMm - Walls;
    /// <summary>Length inside, mm.</summary>
    public double DepthMm => LengthMm - Wafer;

    /// <summary>From what the user wrote at the can's mount, its lugs or its sections ("35 x 76 mm", "1 3/8 x 3 in"); else as usual for what the old sections held.</summary>
    public static CanSize Of(MapResult map, string can, IReadOnlyList<Part> sections)
    {
        var notes = new[] { (map.Book.Mounts.Named(can)?.Note, $"written at {can}") }
            .Concat(map.Book.Lugs.Where(l => string.Equals(l.Mount, can, StringComparison.OrdinalIgnoreCase)).Select(l => (l.Note, $"written at {l.Name}")))
            .Concat(sections.Select(p => (p.Note, $"written at {p.Name}")));
        foreach (var (note, where) in notes)
            if (Read(note) is var (diameter, length)) return new(diameter, length, where, true);
        // From memory: a can of 1 in up to 15 mC, of 1 3/8 in and 3 in long up to 36 mC, 4 in beyond.
        var charge = sections.Sum(p => (p.Value ?? 0) * (p.RatedVolts ?? 0));
        var (d, l) = charge <= 15e-3 ? (25.4, 76.2) : charge <= 36e-3 ? (34.9, 76.2) : (34.9, 101.6);
        return new(d, l, "as usual for such cans, from memory; measure yours and write it in its note, such as 35 x 76 mm", false);
    }

    /// <summary>A size in a note, diameter first; null when there is none or it cannot be a can's.</summary>
    public static (double DiameterMm, double LengthMm)? Read(string? note)
    {
        if (note is null || Pair().Match(note) is not { Success: true } m) return null;
        var factor = m.Groups["u"].Value.StartsWith("mm", StringComparison.OrdinalIgnoreCase) ? 1.0 : 25.4;
        var (a, b) = (Figure(m.Groups["a"].Value) * factor, Figure(m.Groups["b"].Value) * factor);
        return a is >= 10 and <= 100 && b is >= 15 and <= 300 ? (Math.Round(a, 1), Math.Round(b, 1)) : null;
    }

    // "1 3/8", "1-3/8", "1.375", "34,9".
    private static double Figure(string text)
    {
        if (Fraction().Match(text) is { Success: true } f)
            return (f.Groups["w"].Success ? double.Parse(f.Groups["w"].Value, CultureInfo.InvariantCulture) : 0) + double.Parse(f.Groups["n"].Value, CultureInfo.InvariantCulture) / double.Parse(f.Groups["d"].Value, CultureInfo.InvariantCulture);
        return double.TryParse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var figure) ? figure : 0;
    }

    [GeneratedRegex("""(?<a>\d+[ -]\d+/[1-9]\d?|\d+/[1-9]\d?|\d+(?:[.,]\d+)?)\s*(?:mm|in\b|inch|"|″)?\s*[x×]\s*(?<b>\d+[ -]\d+/[1-9]\d?|\d+/[1-9]\d?|\d+(?:[.,]\d+)?)\s*(?<u>mm|inch(?:es)?|in\b|"|″)""", RegexOptions.IgnoreCase)]
    private static partial Regex Pair();
    [GeneratedRegex(@"^(?:(?<w>\d+)[ -])?(?<n>\d+)/(?<d>\d+)$")]
    private static partial Regex Fraction();
}

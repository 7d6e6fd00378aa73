using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Lugbook.Restoration.Map;
using Lugbook.Trade;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Choose;

/// <summary>What IEC 60384-14 asks of a position, and the current that a hand would get. Never relaxed; where the map is silent, words are asked about.</summary>
internal static partial class SafetyRule
{
    /// <summary>Class, its reason, and a question when the class rests on words alone.</summary>
    public static (SafetyClass Class, string? Reason, string? Question) Of(Part part, RoleFinding role, MapResult map, LineView line)
    {
        var earthed = map.Earth.Node is not null;
        switch (role.Role)
        {
            case Role.AcrossLine:
            case var _ when role.IsAcrossLine:
                return (SafetyClass.X2, "Between two points of the line: class X, so that it fails without fire.", null);
            case Role.LineToTouchable:
                return (earthed ? SafetyClass.Y2 : SafetyClass.Y1, earthed
                    ? "From the line to what a hand can touch: class Y, so that it fails open. The cord brings an earth, so Y2 will do."
                    : "From the line to what a hand can touch: class Y, so that it fails open. No protective earth is in the book, so Y1.", null);
        }
        if (!part.Kind.IsFixedCapacitor()) return (SafetyClass.None, null, null);
        var words = Words(part, map);
        // A part of known role is where the map puts it; only words that contradict the map are worth a question then.
        var saysAcross = Across().IsMatch(words);
        var saysTouch = Touch().IsMatch(words);
        if (!saysAcross && !saysTouch) return (SafetyClass.None, null, null);
        var placed = line.Known && role.IsKnown;
        if (placed) return (SafetyClass.None, null, $"The book's words about {part.Name} speak of the line, the map puts it elsewhere ({role.Evidence.TrimEnd('.')}). Which is right? On the line only a part with a safety class may stand.");
        return saysTouch
            ? (SafetyClass.Y1, "By the words in the book, not by the map: from the line to what a hand can touch.", $"Does {part.Name} go from the line to chassis, aerial or anything touchable? Then class Y is right; across the line class X is enough; elsewhere an ordinary part will do.")
            : (SafetyClass.X2, "By the words in the book, not by the map: across the line.", $"Does {part.Name} lie across the line? Then class X is right; from the line to chassis or aerial it must be class Y; elsewhere an ordinary part will do.");
    }

    /// <summary>May this part be on the line, when the map cannot tell? By its kind and rating.</summary>
    public static bool IsCandidate(Part part) => part.Kind is PartKind.Paper or PartKind.Capacitor
        && part.Value is null or (>= 0.01e-6 * (1 - 1e-9) and <= 0.5e-6 * (1 + 1e-9)) && part.RatedVolts is null or >= 400;

    /// <summary>The lines that a touch current is computed for: the set's own, or both common ones.</summary>
    public static ImmutableArray<(double Volts, double Hertz)> Lines(BookFacts facts) => facts switch
    {
        { LineVolts: { } volts, LineHertz: { } hertz } => [(volts, hertz)],
        { LineVolts: { } volts } => [(volts, volts < 160 ? 60 : 50)],
        _ => [(117, 60), (230, 50)],
    };

    /// <summary>Largest capacitance whose touch current stays within the limit on every line considered, F.</summary>
    public static double LargestFarads(BookFacts facts, double milliamperes) =>
        Lines(facts).Min(l => milliamperes / 1000 / (2 * Math.PI * l.Hertz * l.Volts));

    public static ImmutableArray<TouchCurrent> Currents(BookFacts facts, double farads) =>
        [.. Lines(facts).Select(l => TouchCurrent.Of(farads, l.Volts, l.Hertz))];

    private static string Words(Part part, MapResult map) => string.Join(" ; ",
        new[] { part.Marked, part.Note }.Concat(part.Leads.Select(l => map.Book.Lugs.Named(l.Lug)).SelectMany(l => new[] { l?.Function, l?.Note })).OfType<string>());

    // "AVC line", "delay line", "line output" and "500 ohm line" are not the mains.
    [GeneratedRegex(@"\bmains\b|\b(across|before|after|from)\s+(the\s+)?(AC |power |mains )?(line|cord|switch)\b|\b(AC|power) line\b|^line\b(?! (out|output|coil|osc|trans))|; line\b(?! (out|output|coil|osc|trans))|\bline to line\b|\bX[12]\b", RegexOptions.IgnoreCase)]
    private static partial Regex Across();

    [GeneratedRegex(@"\b(line|mains|B-|common)\s+(side\s+)?to\s+(the\s+)?(chassis|earth|ground|aerial|antenna|frame)\b|\b(aerial|antenna|earth|ground)\s+(isolat\w+|blocking)\b|\bisolat\w+\s+(the\s+)?(aerial|antenna|chassis|earth)\b|\bline.?bypass\b|\bY[12]\b", RegexOptions.IgnoreCase)]
    private static partial Regex Touch();
}

using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>One reading, with the belief in it.</summary>
/// <param name="Read">What the colours say.</param>
/// <param name="Turned">True when the part was turned for it.</param>
/// <param name="Altered">What was taken for something else, and why, as a sentence; empty when read as seen.</param>
/// <param name="Filled">Which colour stands for each "?"; empty when all were seen.</param>
internal sealed record Candidate(Decoded Read, bool Turned, string Altered, string Filled)
{
    /// <summary>Belief in the code, before the colours are read.</summary>
    public required double Prior { get; init; }
    /// <summary>Belief in the colours, when it is this code.</summary>
    public required double Belief { get; init; }
    public required Fit Fit { get; init; }
    /// <summary>The series that the value is in: "E12"; empty when in none.</summary>
    public required string Series { get; init; }
    /// <summary>Other codes that read the same.</summary>
    public IReadOnlyList<string> AlsoBy { get; init; } = [];

    public double Weight => Prior * Belief;
}

/// <summary>How much belief a reading deserves. Judgement (common practice, no source), not measurement.</summary>
internal static class Belief
{
    /// <summary>A restorer holds the part the right way more often than not.</summary>
    public const double OfTurned = 0.25;
    /// <summary>A colour that has changed, against the same colour as seen.</summary>
    public const double OfChanged = 0.5;

    /// <summary>Belief in a code before the colours are read.</summary>
    public static double InCode(CodeLayout layout, MarkingContext context)
    {
        var prior = Kind(context) switch
        {
            null => layout.Unasked,
            { } kind when layout.Kinds.Contains(kind) => layout.Asked,
            PartKind.Capacitor => layout.IsCapacitor ? layout.Asked : 0.03,
            { } kind when kind.IsCapacitor() == layout.IsCapacitor => 0.05 * layout.Asked,
            _ => layout.IsCapacitor ? 0.002 : 0.01,
        };
        // A button is told by its shape: nobody reads one without knowing.
        if (layout.Id == "mica-button" && Kind(context) != PartKind.SilverMica) return 0;
        return prior * (context.Year is { } year && (year < layout.Years.From - 2 || year > layout.Years.To + 5) ? 0.2 : 1);
    }

    /// <summary>Belief in what the colours say.</summary>
    public static (double Belief, Fit Fit, string Series) InReading(Decoded read, MarkingContext context)
    {
        var layout = read.Layout;
        var percent = read.PercentOfValue;
        var (fit, series) = SeriesFit.Of(read.Value, layout.Unit, layout.IsCapacitor ? null : percent);
        var belief = layout.IsCapacitor
            ? fit switch { Fit.Own or Fit.Round => 1, Fit.Finer => 0.1, _ => 0.05 }
            : percent <= 2
                // Three-figure parts are younger than the series: a value outside was hardly made.
                ? fit switch { Fit.Own => 1, Fit.Round => 0.2, Fit.Finer => 0.15, _ => 0.004 }
                : fit switch { Fit.Own => 1, Fit.Round => 0.6, Fit.Finer => 0.15, _ => 0.04 };
        belief *= OfPercent(read) * read.TypeBelief * read.Form.Belief;
        if (!IsUsual(layout, read.Value)) belief *= layout.Unusual;
        // Pink came in 2016; silver as a multiplier is for a few wire-wound parts.
        if (!layout.IsCapacitor && read.Value < 1) belief *= MultiplierOf(read) == Colour.Pink ? 0.05 : 1;
        if (layout.Table == CodeTables.RmaMica && read.Volts is not (null or 500 or 300 or 1000)) belief *= 0.4;
        if (layout.Table == CodeTables.Paper && read.Volts is 700 or 800 or 900 or 1100 or 1300 or 1400 or (> 1600 and not 2000 and not 2500 and not 3000)) belief *= 0.3;
        if (read.Form.Slots[^1].Role == Role.Tempco && read.TempcoPpm is not (null or 100 or 50)) belief *= read.TempcoPpm is 25 or 15 ? 0.5 : 0.15;
        return (belief * OfExpected(read, context), fit, series);
    }

    /// <summary>Was this tolerance common on parts of this code? 1 when it was.</summary>
    public static double OfPercent(Decoded read) =>
        read.Layout.UsualPercents.IsEmpty || read.Percent is not { } percent ? 1
        : read.Layout.UsualPercents.FirstOrDefault(u => u.Percent == percent) is { Belief: > 0 } usual ? usual.Belief : 0.02;

    /// <summary>How common a value is among those of its series, when all that speaks for it is that it was made.</summary>
    public static double OfCommon(Decoded read)
    {
        var unit = read.Layout.Unit;
        var series = SeriesFit.Of(read.Value, unit, 20).Fit == Fit.Own ? 1 : SeriesFit.Of(read.Value, unit, 10).Fit == Fit.Own ? 0.7 : 0.5;
        if (read.Layout.IsCapacitor) return series;
        return series * (read.Value switch { >= 100 and <= 1e6 => 1, >= 10 and <= 10e6 => 0.6, >= 1 and <= 22e6 => 0.25, _ => 0.1 });
    }

    /// <summary>A common value for parts of this code?</summary>
    public static bool IsUsual(CodeLayout layout, double value) =>
        value >= layout.Usual.Low * (1 - 1e-9) && value <= layout.Usual.High * (1 + 1e-9);

    // Rule Q-09: within the tolerance and the drift of age, composition up to +50 %, leaky capacitors as much.
    private static double OfExpected(Decoded read, MarkingContext context)
    {
        if (context.ExpectedValue is not { } expected || !(expected > 0) || !double.IsFinite(expected)) return 1;
        var off = expected / read.Value;
        var tolerance = read.Tolerance ?? Quantities.Tolerance.Percent(20);
        if (off >= 0.9 * (1 - tolerance.Minus) && off <= 1.5 * (1 + tolerance.Plus)) return 1;
        return off is > 0.3 and < 3 ? 0.1 : 0.02;
    }

    private static Colour? MultiplierOf(Decoded read) =>
        read.Colours[read.Form.Slots.ToList().FindIndex(s => s.Role == Role.Multiplier)];

    /// <summary>The kind that was given, as far as it says what carries colours.</summary>
    public static PartKind? Kind(MarkingContext context) => context.Kind switch
    {
        { } kind when kind.IsCapacitor() => kind is PartKind.Paper or PartKind.Film or PartKind.Mica or PartKind.SilverMica or PartKind.Ceramic ? kind : PartKind.Capacitor,
        { } kind when kind.IsResistive() => PartKind.Resistor,
        _ => null,
    };
}

using Lugbook.Trade.Parts;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>How much one way to take a value deserves to be believed beside the others. Judgement, not measurement.</summary>
internal static class Belief
{
    /// <summary>A weight above 0; only ratios matter.</summary>
    public static double Of(Candidate c, Situation s) =>
        c.Weight * Kind(c, s) * Written(c, s) * Likely(c, s) * Made(c) * Meg(c, s) * Marks(c) * Expected(c, s);

    /// <summary>Within what was ever made? Ω 10⁻³ to 10¹³, F 10⁻¹⁴ to 10, H 10⁻⁹ to 10⁴.</summary>
    public static bool IsPossible(Unit unit, double value) => unit switch
    {
        Unit.Ohm => value is >= 0.999e-3 and <= 1.001e13,
        Unit.Farad => value is >= 0.999e-14 and <= 10.001,
        _ => value is >= 0.999e-9 and <= 1.001e4,
    };

    /// <summary>Is the value likely for such a part: 1 in the usual range, a tenth for each decade outside?</summary>
    public static double Likely(Candidate c, Situation s)
    {
        var (low, high) = (c.Unit, s.Kind) switch
        {
            (Unit.Ohm, PartKind.Control) => (4, 5.1e6),
            (Unit.Ohm, PartKind.Winding or PartKind.Speaker or PartKind.Lamp) => (0.05, 2e4),
            (Unit.Ohm, _) => (0.09, 1.01e7),
            (Unit.Farad, PartKind.Electrolytic) => (0.9e-6, 1.1e-3),
            (Unit.Farad, PartKind.Paper) => (0.9e-10, 2e-5),
            (Unit.Farad, PartKind.Film) => (0.9e-10, 2e-5),
            (Unit.Farad, PartKind.Mica or PartKind.SilverMica) => (0.9e-12, 2.1e-8),
            (Unit.Farad, PartKind.Ceramic) => (0.4e-12, 2.3e-7),
            (Unit.Farad, PartKind.Trimmer) => (0.9e-12, 3e-9),
            (Unit.Farad, PartKind.VariableCapacitor) => (4e-12, 1.6e-9),
            (Unit.Farad, PartKind.Glass) => (1e-10, 5e-9),
            (Unit.Farad, _) => (0.4e-12, 5.1e-4),
            _ => (1e-7, 40),
        };
        var value = c.Value;
        var decades = value < low ? Math.Log10(low / value) : value > high ? Math.Log10(value / high) : 0;
        // Between the usual top and twice that there are a few: 22 megohms in a frame timebase.
        var outside = c.Unit == Unit.Ohm && value > high ? Math.Pow(10, -2.2 * decades) : Math.Pow(10, -decades);
        var highEnd = c.Unit == Unit.Ohm && value > 6e6 && s.Kind is not PartKind.Control ? 0.4 : 1;
        return Math.Max(2e-3, outside * highEnd);
    }

    private static double Kind(Candidate c, Situation s)
    {
        if (s.Kind is not null) return s.Fits(c.Unit) ? 1 : 0.003;
        if (s.ShowsCapacitor) return c.Unit == Unit.Farad ? 1 : 0.03;
        if (s.Facts.Watts is not null) return c.Unit == Unit.Ohm ? 1 : 0.01;
        if (s.Facts.Amperes is not null) return c.Unit == Unit.Henry ? 1 : 0.3;
        return 1;
    }

    private static double Written(Candidate c, Situation s)
    {
        var capacitor = s.ShowsCapacitor;
        switch (c.Form)
        {
            case Form.LetterPoint or Form.LetterTail:
                return c.Habit switch
                {
                    Habit.KPicofarads => (capacitor ? (s.Kind == PartKind.Electrolytic ? 0.05 : 1) : 0.1) * (c.Value < 0.99e-9 && c.Form == Form.LetterTail ? 0.03 : 1),
                    Habit.MMicrofarad => !capacitor ? (s.Context.MegHabit == MegHabit.Unknown ? 0.08 : 0.02) : s.Kind is PartKind.Mica or PartKind.SilverMica or PartKind.Ceramic or PartKind.Trimmer ? 0.2 : 1,
                    Habit.RPoint => !capacitor ? 0.03 : (c.Value >= 1e-8) == (s.Kind is PartKind.Electrolytic or PartKind.Film or PartKind.Paper) ? 1 : s.Kind is null or PartKind.Capacitor ? 0.6 : 0.02,
                    Habit.OmegaMegohm => s.Context.Year is <= 1938 && c.Value <= 1.01e7 ? 20 : 1,
                    _ => c.Unit == Unit.Ohm && c.Value < 99 && c.Code == "number and letter" && c.Reason.StartsWith('K') ? 0.1 : 1,   // .047K is no 47 ohms
                };
            case Form.ThreeDigitCode:
                if (c.Unit == Unit.Ohm) return (s.Kind == PartKind.Control ? 0.6 : s.Kind is null ? 0.02 : 0.15) * (s.Context.Year is >= 1975 ? 4 : 1);
                if (!capacitor && LooksLikeMultiplier(c)) return EndsInNought(c) ? 0.05 : 1;
                if (c.Volts is not null || !EndsInNought(c)) return capacitor ? 1 : 0.35;
                return (c.Tolerance is not null || s.Kind == PartKind.Film ? 0.5 : s.Kind is PartKind.Mica or PartKind.SilverMica ? 0.06 : 0.2) * (s.Context.Year is >= 1975 ? 4 : 1) * (capacitor ? 1 : 0.35);
            case Form.TrueValue:
                var usual = s.Kind switch { PartKind.Electrolytic => 0.02, PartKind.Film => 0.3, PartKind.Paper => 0.5, _ => 1 };
                if (!capacitor) usual *= LooksLikeMultiplier(c) ? 0.05 : c.Value > 0.9e-7 ? 0.1 : 0.5;
                if (c.Tolerance is null && s.Kind is null or PartKind.Capacitor && s.Volts is >= 6 and < 490 && c.Value < 2e-10) usual *= 0.3;   // mica was mostly made for 500 V
                return usual * (c.Tolerance is null ? 1 : s.Kind == PartKind.Ceramic ? 0.5 : 0.3) * (s.Context.Year is >= 1975 ? 0.3 : 1);
            case Form.MicrofaradsAndLetter:
                return (c.Value < 1e-6 ? 1 : c.Volts is not null ? 0.9 : 0.2) * (s.Kind is PartKind.Mica or PartKind.SilverMica or PartKind.Ceramic && c.Value >= 1e-6 ? 0.1 : 1) * (capacitor ? 1 : LooksLikeMultiplier(c) && c.Value > 0.99e-6 ? 0.05 : 0.5);
            case Form.OldBritish:
                return capacitor ? 1 : 0.3;
            case Form.OhmsAndLetter:
                return capacitor ? 0.02 : 0.6;
            case Form.BareOhms:
                return c.Value >= 1 ? 1 : 0.1;
            case Form.BareMicrofarads:
                return BareMicrofarads(c, s);
            case Form.Range:
                return s.Kind is PartKind.Trimmer or PartKind.VariableCapacitor ? 30 : 1;
            default:
                return 1;
        }
    }

    // 22M and 47K are ohms first, as long as nothing shows a capacitor.
    private static bool LooksLikeMultiplier(Candidate c) => c.Tolerance is { IsSymmetric: true, Plus: 0.1 or 0.2 };

    private static double BareMicrofarads(Candidate c, Situation s)
    {
        var micro = c.Value * 1e6;
        if (micro < 0.9999) return s.ShowsCapacitor ? 1 : 0.8;
        if (s.Kind is { } kind && kind != PartKind.Capacitor)
            return kind switch { PartKind.Electrolytic => 1, PartKind.Paper or PartKind.Film => micro <= 20 ? 1 : 0.05, _ => 0.02 };
        if (s.Facts.Polarised) return 5;
        if (c.Values.Length > 1) return 3;                    // sections are electrolytics'
        if (micro > 1100) return 0.05;
        return s.Volts switch { null => (s.Kind is null ? 0.1 : 0.3) * (micro >= 100 ? 0.15 : 1), <= 100 => 1.5, <= 480 => micro >= 2 ? 1.5 : 1, _ => micro <= 40 ? 0.6 : 0.2 };
    }

    // 471: nobody made it; 470 and 250 are or were.
    private static double Made(Candidate c)
    {
        if (c.Form == Form.Range || c.Unit == Unit.Henry) return 1;
        return c.Values.Min(v => OldValues.IsMade(v, c.Unit) ? 1 : PreferredValues.Contains(v, PreferredSeries.E192) ? 0.2 : 0.06);
    }

    private static double Meg(Candidate c, Situation s)
    {
        if (c.Habit is not (Habit.MThousand or Habit.MMillion)) return 1;
        var thousand = MegEvidence.Weigh(s.Context, Figures(c)).Thousand;
        return c.Habit == Habit.MThousand ? thousand : 1 - thousand;
    }

    /// <summary>The number that stands before the M.</summary>
    public static double Figures(Candidate c) => c.Value / (c.Habit == Habit.MThousand ? 1e3 : 1e6);

    // 5.000 pF is thousands, since nobody writes noughts after a point; 27,000 is hardly ever 27.
    private static double Marks(Candidate c)
    {
        if (c.OtherMark is not { } mark) return 1;
        if (mark == OtherMark.ToDecimal) return 0.02;
        if (mark == OtherMark.AsItStands) return 0.05;
        var mantissa = c.Value / Math.Pow(10, Math.Floor(Math.Log10(c.Value)));
        var round = Math.Abs(mantissa - Math.Round(mantissa, 2)) < 1e-9;
        var small = c.Unit == Unit.Farad && c.Value < 1e-7 || c.Unit == Unit.Ohm && c.Value < 1e6;
        return round && small ? 1.5 : 0.05;
    }

    private static double Expected(Candidate c, Situation s)
    {
        if (s.Context.ExpectedValue is not > 0 || !double.IsFinite(s.Context.ExpectedValue.Value)) return 1;
        var off = Math.Log(c.Value / s.Context.ExpectedValue.Value) / Math.Log(1.6);
        return Math.Max(0.003, Math.Exp(-off * off / 2)) * 3;
    }

    private static bool EndsInNought(Candidate c) => c.Value is >= 0.99e-11 and < 0.995e-10;
}

using System.Collections.Immutable;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>What is to be shown in colours; null where it does not matter.</summary>
internal sealed record Asked(double Value, Tolerance? Tolerance, double? Volts, double? TempcoPpm);

/// <summary>From a value to colours: the only encoder, whatever the code.</summary>
internal static class Encoder
{
    private sealed record Try(Arrangement Form, ImmutableArray<ColourMark> Marks, bool Exact, int Lost, int Free, string Shows);

    /// <summary>The form of the code that shows most of what is asked; null when the code cannot show the value.</summary>
    public static ColourLook? Show(CodeLayout layout, Asked asked)
    {
        var best = layout.Forms.Select(f => Attempt(layout, f, asked)).OfType<Try>()
            .OrderBy(t => t.Lost).ThenBy(t => t.Free).ThenBy(t => t.Marks.Length).FirstOrDefault();
        return best is null ? null : new(ColourCodes.Describe(layout), best.Marks, best.Exact, best.Shows, Belief.IsUsual(layout, asked.Value), Note(layout, best));
    }

    private static Try? Attempt(CodeLayout layout, Arrangement form, Asked asked)
    {
        if (asked.Value < layout.Possible.Low * (1 - 1e-9) || asked.Value > layout.Possible.High * (1 + 1e-9)) return null;
        if (Figures(layout, form, asked.Value) is not { } figures) return null;
        var shown = figures.Shown;
        var off = Math.Abs(shown / asked.Value - 1);
        var allowed = asked.Tolerance is { } t ? Math.Max(0.005, Math.Min(t.Minus, t.Plus)) : 0.05;
        if (off > allowed) return null;

        var lost = off > 1e-9 ? 1 : 0;
        var free = 0;
        var marks = ImmutableArray.CreateBuilder<ColourMark>();
        var digit = 0;
        foreach (var slot in form.Slots)
        {
            var (colour, isFree, fits) = slot.Role switch
            {
                Role.Figure => Digit(layout, figures.Digits[digit++], true),
                Role.Multiplier => (figures.Multiplier, false, true),
                Role.Type => (layout.Types[0].Colour, false, true),
                Role.Tolerance => Tolerance(layout, asked, shown),
                Role.Volts => Nearest(layout, r => r.Volts, asked.Volts, 500),
                Role.VoltsTens => asked.Volts is { } v ? Digit(layout, Hundreds(v) / 10, v is >= 1000 and < 10000) : (Colour.Brown, true, true),
                Role.VoltsUnits => asked.Volts is { } v ? Digit(layout, Hundreds(v) % 10, v is >= 1000 and < 10000 && v % 100 == 0) : (Colour.Black, true, true),
                Role.Tempco => Nearest(layout, r => r.Tempco, asked.TempcoPpm, layout.IsCapacitor ? 0 : 100),
                Role.TempcoFigure => Extended(layout, asked.TempcoPpm, figure: true),
                Role.TempcoMultiplier => Extended(layout, asked.TempcoPpm, figure: false),
                Role.Class => (Colour.Red, true, true),
                Role.FailureRate => (Colour.Brown, true, true),
                Role.Temperatures => (Colour.Red, true, true),
                _ => (Colour.Black, true, true),
            };
            if (!fits) lost++;
            if (isFree) free++;
            marks.Add(new(slot.Place, slot.Words, colour, isFree));
        }
        // Understood, not shown: it must be what is asked for.
        if (!form.Slots.Any(s => s.Role == Role.Tolerance) && asked.Tolerance is { } wanted)
            lost += form.ImpliedPercent is { } percent ? (Same(wanted, percent / 100) ? 0 : 1) : 0;
        var silent = !form.Slots.Any(s => s.Role == Role.Tolerance) && form.ImpliedPercent is null && asked.Tolerance is not null ? 1 : 0;
        if (!form.Slots.Any(s => s.Role is Role.Volts or Role.VoltsTens) && asked.Volts is { } volts)
        {
            lost += form.ImpliedVolts is { } implied && implied != volts ? 1 : 0;
            silent += form.ImpliedVolts is null ? 1 : 0;
        }
        var (read, _) = Decoder.Read(layout, form, [.. marks.Select(m => (Colour?)m.Colour)]);
        // The decoder has the last word: what it cannot read must not be looked for.
        return read is null ? null : new(form, marks.ToImmutable(), lost == 0, 10 * lost + silent, free, Said(read, marks));
    }

    private static string Said(Decoded read, IEnumerable<ColourMark> marks)
    {
        var free = marks.Where(m => m.IsFree).Select(m => m.Role).ToHashSet();
        return Shown.Reading(read with
        {
            Percent = free.Contains("tolerance") ? null : read.Percent,
            Picofarads = free.Contains("tolerance") ? null : read.Picofarads,
            Volts = free.Any(f => f.Contains("volts", StringComparison.Ordinal)) ? null : read.Volts,
        });
    }

    /// <summary>The figures and the multiplier nearest to the value.</summary>
    private static (int[] Digits, Colour Multiplier, double Shown)? Figures(CodeLayout layout, Arrangement form, double value)
    {
        var places = form.Figures;
        var scaled = layout.IsCapacitor ? value * 1e12 : value;
        var exponent = (int)Math.Floor(Math.Log10(scaled) + 1e-12) - (places - 1);
        var whole = (int)Math.Round(scaled / Math.Pow(10, exponent));
        if (whole >= (int)Math.Pow(10, places)) { whole /= 10; exponent++; }
        var row = layout.Table.Rows.FirstOrDefault(r => r.Exponent == exponent);
        if (row is null && layout.ZeroFirst && exponent == -1 && whole % 10 == 0)
        {
            whole /= 10;
            row = layout.Table.Rows.First(r => r.Exponent == 0);
        }
        if (row is null) return null;
        var digits = new int[places];
        for (var (i, rest) = (places - 1, whole); i >= 0; i--, rest /= 10) digits[i] = rest % 10;
        return (digits, row.Colour, whole * Math.Pow(10, row.Exponent!.Value) * (layout.IsCapacitor ? 1e-12 : 1));
    }

    private static (Colour, bool, bool) Tolerance(CodeLayout layout, Asked asked, double shown)
    {
        var picofarads = layout.Table == CodeTables.Ceramic && shown <= Decoder.PicofaradLimit * (1 + 1e-9);
        double? Fraction(CodeRow r) => picofarads ? r.Picofarads * 1e-12 / shown : r.Percent / 100;
        if (asked.Tolerance is not { } wanted)
            return (layout.Table.Rows.Where(r => Fraction(r) is not null).MinBy(r => Math.Abs(Fraction(r)!.Value - 0.1))!.Colour, true, true);
        // The table's order puts a plain colour before none, so that there is something to see. Green is doubtful on military parts.
        var row = layout.Table.Rows.Where(r => Fraction(r) is not null)
            .OrderBy(r => Same(wanted, Fraction(r)!.Value) ? 0 : 1).ThenBy(r => Math.Abs(Fraction(r)!.Value - wanted.Plus))
            .ThenBy(r => r.Colour == Colour.Green && layout.Id.Contains("-mil-", StringComparison.Ordinal) ? 1 : 0).First();
        return (row.Colour, false, Same(wanted, Fraction(row)!.Value));
    }

    private static (Colour, bool, bool) Nearest(CodeLayout layout, Func<CodeRow, double?> of, double? wanted, double otherwise)
    {
        var goal = wanted ?? otherwise;
        var row = layout.Table.Rows.Where(r => of(r) is not null).MinBy(r => Math.Abs(of(r)!.Value - goal))!;
        return (row.Colour, wanted is null, wanted is null || of(row) == wanted);
    }

    private static (Colour, bool, bool) Digit(CodeLayout layout, int digit, bool fits) =>
        (layout.Table.Rows.First(r => r.Figure == digit).Colour, false, fits);

    private static int Hundreds(double volts) => (int)Math.Clamp(volts / 100, 10, 99);

    private static (Colour, bool, bool) Extended(CodeLayout layout, double? tempco, bool figure)
    {
        var pairs = from f in layout.Table.Rows
                    where f.TempcoFigure is not null
                    from m in layout.Table.Rows
                    where m.TempcoMultiplier is not null && (f.TempcoFigure > 0 || m.Colour == Colour.Black)
                    select (Figure: f.Colour, Multiplier: m.Colour, Ppm: (double)((decimal)f.TempcoFigure!.Value * (decimal)m.TempcoMultiplier!.Value));
        var pair = pairs.MinBy(p => Math.Abs(p.Ppm - (tempco ?? 0)));
        return (figure ? pair.Figure : pair.Multiplier, tempco is null, tempco is null || Math.Abs(pair.Ppm - tempco.Value) < 1e-9);
    }

    private static bool Same(Tolerance wanted, double fraction) =>
        Math.Abs(wanted.Plus - fraction) <= 1e-9 * fraction && Math.Abs(wanted.Minus - Math.Min(1, fraction)) <= 1e-9 * fraction;

    private static string Note(CodeLayout layout, Try best)
    {
        if (layout.NoneIsBody && best.Marks.Skip(1).Take(2).Any(m => m.Colour == best.Marks[0].Colour))
            return "A place of the body's own colour shows no paint of its own.";
        if (layout.Merges && best.Marks.Zip(best.Marks.Skip(1)).Any(p => p.First.Colour == p.Second.Colour))
            return "Equal neighbours may show as one wide band.";
        return layout.Types.IsEmpty ? "" : layout.Sign;
    }
}

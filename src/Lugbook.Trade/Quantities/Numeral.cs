using System.Globalization;

namespace Lugbook.Trade.Quantities;

/// <summary>A number as written: its figures stay text until the multiplier is known, so that .047 with 10⁻⁶ is exactly 4.7e-8.</summary>
/// <param name="Figures">Plain decimal text with a point: "0.047", "27000", "4.7E-09".</param>
/// <param name="Otherwise">The same figures with their mark read the other way (27.000 as 27000), or null.</param>
/// <param name="IsWhole">No decimal mark and no fraction.</param>
internal readonly record struct Numeral(string Figures, string? Otherwise, bool IsWhole)
{
    /// <summary>The value times ten to this power; infinity when the figures are absurd.</summary>
    public double Times(int exponent) => Scale(Figures, exponent);

    /// <summary>The value itself.</summary>
    public double Value => Times(0);

    /// <summary>The number with its mark read the other way, or null.</summary>
    public Numeral? Other => Otherwise is null ? null : new Numeral(Otherwise, null, !Otherwise.Contains('.', StringComparison.Ordinal));

    /// <summary>What reading the mark the other way makes of it.</summary>
    public Markings.Text.OtherMark OtherMark => IsWhole ? Markings.Text.OtherMark.ToDecimal
        : IsPointLeftOut ? Markings.Text.OtherMark.AsItStands : Markings.Text.OtherMark.ToThousands;

    /// <summary>05 is read as .05: nobody writes a nought before a whole number.</summary>
    public bool IsPointLeftOut => Otherwise is not null && Figures.StartsWith("0.", StringComparison.Ordinal);

    /// <summary>A number that was not written in figures: "half".</summary>
    public static Numeral Of(double value) => new(value.ToString("R", CultureInfo.InvariantCulture), null, value == Math.Floor(value));

    /// <summary>Figures (no exponent needed) times a power of ten, correctly rounded.</summary>
    public static double Scale(string figures, int exponent)
    {
        var e = figures.IndexOfAny(['e', 'E']);
        if (e >= 0)
        {
            exponent += int.Parse(figures.AsSpan(e + 1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
            figures = figures[..e];
        }
        var text = figures + "E" + exponent.ToString(CultureInfo.InvariantCulture);
        return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? value : double.NaN;
    }

    /// <summary>Does a number begin here?</summary>
    public static bool Begins(string text, int at) => at < text.Length
        && (char.IsAsciiDigit(text[at]) || Vulgar(text[at]) is not null
            || (text[at] is '.' or ',' && at + 1 < text.Length && char.IsAsciiDigit(text[at + 1])));

    /// <summary>Reads the number that begins at <paramref name="at"/>.</summary>
    /// <param name="text">Folded text.</param>
    /// <param name="at">Where it begins; <see cref="Begins"/> must hold.</param>
    /// <param name="end">One past its last character, or where it goes wrong.</param>
    /// <param name="problem">What is wrong, or null.</param>
    public static Numeral? Read(string text, int at, out int end, out string? problem)
    {
        problem = null;
        end = at;
        var stop = at;
        while (stop < text.Length && (char.IsAsciiDigit(text[stop]) || (text[stop] is '.' or ',' or '\'' && Begins(text, stop + 1) && Vulgar(text[stop + 1]) is null)))
            stop++;
        if (stop > at && text[stop - 1] is '.' && at < stop - 1) stop--;
        var body = text[at..stop];
        var marks = NumberMarks.Interpret(body, out var used, out problem);
        end = at + used;
        if (problem is not null) return null;

        if (used == body.Length && end < text.Length && Vulgar(text[end]) is { } part && marks.IsWhole)
        {
            var whole = body.Length == 0 ? 0 : double.Parse(marks.Figures, CultureInfo.InvariantCulture);
            end++;
            return new Numeral((whole + part).ToString("R", CultureInfo.InvariantCulture), null, false);
        }
        if (used == body.Length && Exponent(text, end) is var length and > 0)
        {
            var figures = string.Concat(marks.Figures, text.AsSpan(end, length));
            end += length;
            return new Numeral(figures, null, false);
        }
        return marks;
    }

    // Only with its sign, as spreadsheets print it: 1E3 could be a voltage code.
    private static int Exponent(string text, int at)
    {
        if (at + 2 >= text.Length || text[at] is not ('e' or 'E') || text[at + 1] is not ('+' or '-') || !char.IsAsciiDigit(text[at + 2])) return 0;
        var end = at + 3;
        if (end < text.Length && char.IsAsciiDigit(text[end])) end++;
        return end < text.Length && char.IsAsciiDigit(text[end]) ? 0 : end - at;
    }

    /// <summary>The value of a one-character fraction, or null.</summary>
    public static double? Vulgar(char c) => c switch
    {
        '½' => 0.5,
        '¼' => 0.25,
        '¾' => 0.75,
        '⅓' => 1.0 / 3,
        '⅔' => 2.0 / 3,
        '⅕' => 0.2,
        '⅛' => 0.125,
        '⅜' => 0.375,
        '⅝' => 0.625,
        '⅞' => 0.875,
        '⅒' => 0.1,
        _ => null,
    };
}

using System.Collections.Immutable;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>One thing that a multiplier letter can mean.</summary>
internal readonly record struct LetterSense(UnitSense Sense, Habit Habit, string Code, string Reason, double Weight = 1);

/// <summary>What a single letter means as a multiplier: the decimal mark of 4K7, or the tail of 47K.</summary>
/// <remarks>Source: data/reference/letter-codes.csv, value-letter and unit-spelling.</remarks>
internal static class Letters
{
    private const string Standard = "letter code";

    /// <summary>All senses of a letter, upper and lower case told apart only where both were used; empty when it multiplies nothing.</summary>
    /// <param name="letter">The letter, folded.</param>
    /// <param name="asPoint">It stands in place of the decimal mark.</param>
    public static ImmutableArray<LetterSense> Senses(char letter, bool asPoint)
    {
        var code = asPoint ? Standard : "number and letter";
        return letter switch
        {
            'R' or 'r' =>
            [
                new(new(Unit.Ohm, 0), Habit.None, code, "R marks ohms"),
                new(new(Unit.Farad, -12), Habit.RPoint, code, "R marks the point of picofarads on ceramics", 0.5),
                new(new(Unit.Farad, -6), Habit.RPoint, code, "R marks the point of microfarads on small electrolytics", 0.5),
            ],
            'E' or 'e' => [new(new(Unit.Ohm, 0), Habit.None, code, "E marks ohms on some European parts", 0.6)],
            'Ω' or 'ω' => OmegaSenses(letter, code),
            'K' or 'k' =>
            [
                new(new(Unit.Ohm, 3), Habit.None, code, "K is a thousand ohms"),
                new(new(Unit.Farad, -9), Habit.KPicofarads, "K as thousand picofarads", "K is a thousand picofarads on ceramics and on central European prints"),
            ],
            'M' =>
            [
                new(new(Unit.Ohm, 6), Habit.MMillion, asPoint ? code : "M as million", "M is a million ohms"),
                new(new(Unit.Ohm, 3), Habit.MThousand, "M as thousand", "M is a thousand ohms on many American prints up to about 1950", asPoint ? 0.1 : 1),
                new(new(Unit.Farad, -6), Habit.MMicrofarad, "M as microfarad", "M is a microfarad on old parts"),
            ],
            'm' =>
            [
                new(new(Unit.Farad, -6), Habit.MMicrofarad, "m as microfarad", "on a valve-era part m is micro"),
                new(new(Unit.Farad, -3), Habit.Milli, Standard, "m is milli in the standard's letter code", 0.05),
                new(new(Unit.Henry, -3), Habit.None, code, "m with H is a millihenry"),
                new(new(Unit.Ohm, 6), Habit.MMillion, "M as million", "M is a million ohms", 0.6),
                new(new(Unit.Ohm, 3), Habit.MThousand, "M as thousand", "M is a thousand ohms on many American prints up to about 1950", asPoint ? 0.05 : 0.6),
            ],
            'G' or 'g' => [new(new(Unit.Ohm, 9), Habit.None, code, "G is a thousand million ohms", 0.7)],
            'T' or 't' =>
            [
                new(new(Unit.Ohm, 12), Habit.None, code, "T is a million million ohms", 0.5),
                new(new(Unit.Farad, -9), Habit.TThousand, "T as thousand picofarads", "T is a thousand (Tausend) on some German parts", 0.2),
                new(new(Unit.Ohm, 3), Habit.TThousand, "T as thousand", "T is a thousand (Tausend) on some German prints", 0.2),
            ],
            _ => Small(letter, code),
        };
    }

    private static ImmutableArray<LetterSense> Small(char letter, string code)
    {
        return letter switch
        {
            'P' or 'p' => [new(new(Unit.Farad, -12), Habit.None, code, "p is a picofarad")],
            'N' or 'n' => [new(new(Unit.Farad, -9), Habit.None, code, "n is a nanofarad"), new(new(Unit.Henry, -9), Habit.None, code, "n with H is a nanohenry")],
            'U' or 'u' or 'µ' => [new(new(Unit.Farad, -6), Habit.None, code, "u stands for the micro sign"), new(new(Unit.Henry, -6), Habit.None, code, "the micro sign with H is a microhenry")],
            'F' or 'f' => [new(new(Unit.Farad, 0), Habit.None, code, "F is a farad", 0.5)],
            'H' or 'h' => [new(new(Unit.Henry, 0), Habit.None, code, "H is a henry")],
            _ => [],
        };
    }

    /// <summary>Does this letter multiply ohms, farads or henries?</summary>
    public static bool IsMultiplier(char letter) => "RKMGTPNUµFHEΩω".Contains(char.ToUpperInvariant(letter) is var up && letter is 'µ' or 'ω' ? letter : up, StringComparison.Ordinal);

    /// <summary>May it open a letter code: R47, n47, M1?</summary>
    public static bool Opens(char letter) => letter is 'R' or 'r' or 'K' or 'k' or 'M' or 'm' or 'P' or 'p' or 'N' or 'n' or 'U' or 'u' or 'µ' or 'G' or 'Ω';

    /// <summary>The senses of an omega: ohms, and on some prints before about 1938 the capital one is a megohm.</summary>
    public static ImmutableArray<LetterSense> OmegaSenses(char letter, string code) => letter == 'ω'
        ? [new(new(Unit.Ohm, 0), Habit.None, code, "the small omega is an ohm")]
        :
        [
            new(new(Unit.Ohm, 0), Habit.None, code, "the unit is printed"),
            new(new(Unit.Ohm, 6), Habit.OmegaMegohm, "capital omega as megohm", "on some prints of the 1920s and 1930s the capital omega is a megohm", 0.01),
        ];
}

using Lugbook.Trade.Text;

namespace Lugbook.Trade.Quantities;

/// <summary>Reads one value whose unit is known.</summary>
internal static class NotationParse
{
    private static readonly string Place = "the value";

    /// <summary>See <see cref="Notation.TryParse"/>.</summary>
    public static bool TryParse(string? text, Unit unit, MegHabit megHabit, out double value, out Complaint? complaint)
    {
        value = 0;
        var written = text ?? "";
        var folded = FoldedText.Of(written);
        var s = folded.Text;
        var at = Skip(s, 0);
        Complaint Wrong(int where, string problem, string remedy) => new(Place, written, folded.SourceOf(where), problem, remedy);
        var example = Notation.Print(unit switch { Unit.Farad => 4.7e-8, Unit.Ohm => 4700, Unit.Henry => 8, Unit.Volt => 400, Unit.Watt => 2, _ => 0.12 }, unit);

        if (at == s.Length)
        {
            complaint = Wrong(0, "nothing is written", $"Write a value such as {example}.");
            return false;
        }
        var minus = s[at] == '-';
        if (minus) at = Skip(s, at + 1);
        if (minus && unit is not (Unit.Volt or Unit.Ampere))
        {
            complaint = Wrong(at - 1, "the value is negative", "Leave the minus out.");
            return false;
        }

        var letterFirst = at < s.Length && Multiplier(s[at..(at + 1)], unit, megHabit) is not null
            && Numeral.Begins(s, at + 1) && char.IsAsciiDigit(s[at + 1]);
        var numeral = new Numeral("0", null, true);
        if (!letterFirst)
        {
            if (!Numeral.Begins(s, at))
            {
                complaint = Wrong(at, "a number should stand here", $"Write a value such as {example}.");
                return false;
            }
            if (Numeral.Read(s, at, out at, out var problem) is not { } read)
            {
                complaint = Wrong(at, problem!, "Write one decimal mark.");
                return false;
            }
            numeral = read;
            if (!Fraction(s, ref at, ref numeral, out var zeroAt))
            {
                complaint = Wrong(zeroAt, "a division by zero", "Write the fraction as 1/4 or as 0.25.");
                return false;
            }
        }

        var wordAt = at = Skip(s, at);
        while (at < s.Length && (char.IsLetter(s[at]) || s[at] == ' ')) at++;
        var word = s[wordAt..at].Replace(" ", "", StringComparison.Ordinal);
        var exponent = Multiplier(word, unit, megHabit);
        if (exponent is null)
        {
            complaint = Wrong(wordAt, $"'{word}' is no way to write {Name(unit)}", $"Write a value such as {example}.");
            return false;
        }

        var glued = at > wordAt && s[at - 1] != ' ';
        if (at < s.Length && char.IsAsciiDigit(s[at]) && glued && numeral.IsWhole && Sign(word, unit))
        {
            var start = at;
            while (at < s.Length && char.IsAsciiDigit(s[at])) at++;
            numeral = new Numeral(numeral.Figures + "." + s[start..at], null, false);
            var tail = at = Skip(s, at);
            while (at < s.Length && char.IsLetter(s[at])) at++;
            if (s[tail..at] is { Length: > 0 } own && Multiplier(own, unit, megHabit) != 0)
            {
                complaint = Wrong(tail, "two multipliers in one value", $"Write one of them, as in {Notation.Print(4700, Unit.Ohm, NotationStyle.LetterCode)}.");
                return false;
            }
        }
        at = Skip(s, at);
        if (at < s.Length && s[at] != '.')
        {
            complaint = Wrong(at, "the value should end here", "Take the rest out, or write it in its own field.");
            return false;
        }

        var factor = UnitSpellings.Find(word) is { } sense && sense.Unit == unit ? sense.Factor : 1;
        value = numeral.Times(exponent.Value) * factor;
        if (!double.IsFinite(value))
        {
            value = 0;
            complaint = Wrong(0, "the value is beyond all measure", $"Write a value such as {example}.");
            return false;
        }
        if (minus) value = -value;
        complaint = null;
        return true;
    }

    // 1/2, and 1 1/2 is left to the markings.
    private static bool Fraction(string s, ref int at, ref Numeral numeral, out int zeroAt)
    {
        zeroAt = at + 1;
        if (at + 1 >= s.Length || s[at] != '/' || !char.IsAsciiDigit(s[at + 1]) || !numeral.IsWhole) return true;
        if (Numeral.Read(s, at + 1, out var end, out _) is not { IsWhole: true } under) return true;
        if (under.Value == 0) return false;
        numeral = Numeral.Of(numeral.Value / under.Value);
        at = end;
        return true;
    }

    // A word that may stand in the place of the decimal mark.
    private static bool Sign(string word, Unit unit) => word.Length == 1 && Multiplier(word, unit, MegHabit.Unknown) is not null;

    /// <summary>The power of ten that this word stands for with this unit, or null when it stands for none.</summary>
    private static int? Multiplier(string word, Unit unit, MegHabit megHabit)
    {
        if (word.Length == 0) return 0;
        if (unit == Unit.Ohm && word is "M" or "m") return megHabit == MegHabit.Thousand ? 3 : 6;
        if (unit == Unit.Ohm && string.Equals(word, "KMEG", StringComparison.OrdinalIgnoreCase)) return 9;
        if (UnitSpellings.Find(word) is { } sense && sense.Unit == unit) return sense.Exponent;
        var upper = word.ToUpperInvariant();
        return (unit, upper) switch
        {
            (Unit.Ohm, "R" or "E") => 0,
            (Unit.Ohm, "K") => 3,
            (Unit.Ohm, "G") => 9,
            (Unit.Ohm, "T") => 12,
            (Unit.Farad, "P") => -12,
            (Unit.Farad, "N" or "K") => -9,
            (Unit.Farad, "U" or "M") => -6,
            (Unit.Farad, "F") => 0,
            (Unit.Henry, "M") => -3,
            (Unit.Henry, "U" or "Μ" or "µ") => -6,
            (Unit.Henry, "N") => -9,
            (Unit.Volt, "V" or "VOLT" or "VOLTS" or "VDC" or "VAC" or "VRMS") => 0,
            (Unit.Watt, "W" or "WATT" or "WATTS") => 0,
            (Unit.Ampere, "A" or "AMP" or "AMPS" or "AMPERE" or "AMPERES") => 0,
            (Unit.Volt or Unit.Watt or Unit.Ampere, _) => Prefixed(upper, unit),
            _ => null,
        };
    }

    private static int? Prefixed(string upper, Unit unit)
    {
        int? prefix = upper[0] switch { 'K' => 3, 'M' => -3, 'U' or 'Μ' or 'µ' => -6, 'N' => -9, _ => null };
        var rest = upper[1..];
        return rest.Length == 0 || Multiplier(rest, unit, MegHabit.Unknown) == 0 ? prefix : null;
    }

    private static string Name(Unit unit) => unit switch
    {
        Unit.Ohm => "ohms",
        Unit.Farad => "farads",
        Unit.Henry => "henries",
        Unit.Volt => "volts",
        Unit.Watt => "watts",
        _ => "amperes",
    };

    private static int Skip(string s, int at)
    {
        while (at < s.Length && s[at] == ' ') at++;
        return at;
    }
}

namespace Lugbook.Trade.Quantities;

/// <summary>One step of a unit's scale: from this power of ten upwards, this multiplier and sign.</summary>
/// <param name="From">Smallest magnitude (power of ten of the first figure) that uses it.</param>
/// <param name="Exponent">Power of ten of the multiplier.</param>
/// <param name="Sign">What is printed.</param>
internal readonly record struct ScaleStep(int From, int Exponent, string Sign);

/// <summary>Which multiplier each style uses for which size; largest first, the last one takes everything below.</summary>
internal static class Scales
{
    private static readonly ScaleStep[] PlainOhm = [new(9, 9, "GΩ"), new(6, 6, "MΩ"), new(3, 3, "kΩ"), new(int.MinValue, 0, "Ω")];
    private static readonly ScaleStep[] PlainFarad = [new(-8, -6, "µF"), new(int.MinValue, -12, "pF")];
    private static readonly ScaleStep[] ShopFarad = [new(-6, -6, "µF"), new(-9, -9, "nF"), new(int.MinValue, -12, "pF")];
    private static readonly ScaleStep[] PlainHenry = [new(0, 0, "H"), new(-3, -3, "mH"), new(-6, -6, "µH"), new(int.MinValue, -9, "nH")];
    private static readonly ScaleStep[] PlainVolt = [new(4, 3, "kV"), new(-1, 0, "V"), new(-4, -3, "mV"), new(int.MinValue, -6, "µV")];
    private static readonly ScaleStep[] PlainWatt = [new(3, 3, "kW"), new(-1, 0, "W"), new(-4, -3, "mW"), new(int.MinValue, -6, "µW")];
    private static readonly ScaleStep[] PlainAmpere = [new(0, 0, "A"), new(-3, -3, "mA"), new(-6, -6, "µA"), new(int.MinValue, -9, "nA")];

    private static readonly ScaleStep[] LetterOhm = [new(9, 9, "G"), new(6, 6, "M"), new(3, 3, "k"), new(int.MinValue, 0, "R")];
    private static readonly ScaleStep[] LetterFarad = [new(-6, -6, "µ"), new(-9, -9, "n"), new(int.MinValue, -12, "p")];
    private static readonly ScaleStep[] LetterHenry = [new(0, 0, "H"), new(-3, -3, "m"), new(-6, -6, "µ"), new(int.MinValue, -9, "n")];
    private static readonly ScaleStep[] LetterVolt = [new(3, 3, "k"), new(0, 0, "V"), new(int.MinValue, -3, "m")];
    private static readonly ScaleStep[] LetterWatt = [new(3, 3, "k"), new(-1, 0, "W"), new(int.MinValue, -3, "m")];
    private static readonly ScaleStep[] LetterAmpere = [new(0, 0, "A"), new(-3, -3, "m"), new(-6, -6, "µ"), new(int.MinValue, -9, "n")];

    private static readonly ScaleStep[] OldOhm = [new(9, 9, "KMEG"), new(6, 6, "MEG"), new(4, 3, "K"), new(int.MinValue, 0, "OHMS")];
    private static readonly ScaleStep[] ThousandOhm = [new(9, 9, "KMEG"), new(6, 6, "MEG"), new(4, 3, "M"), new(int.MinValue, 0, "OHMS")];
    private static readonly ScaleStep[] OldFarad = [new(-9, -6, "MFD"), new(int.MinValue, -12, "MMF")];
    private static readonly ScaleStep[] OldHenry = [new(0, 0, "HY"), new(-3, -3, "MH"), new(int.MinValue, -6, "UH")];
    private static readonly ScaleStep[] OldVolt = [new(4, 3, "KV"), new(-1, 0, "V"), new(int.MinValue, -3, "MV")];
    private static readonly ScaleStep[] OldWatt = [new(3, 3, "KW"), new(-1, 0, "W"), new(int.MinValue, -3, "MW")];
    private static readonly ScaleStep[] OldAmpere = [new(0, 0, "A"), new(-3, -3, "MA"), new(int.MinValue, -6, "UA")];

    /// <summary>The steps of a unit in a style.</summary>
    public static ScaleStep[] Of(Unit unit, NotationStyle style) => (style, unit) switch
    {
        (NotationStyle.LetterCode, Unit.Ohm) => LetterOhm,
        (NotationStyle.LetterCode, Unit.Farad) => LetterFarad,
        (NotationStyle.LetterCode, Unit.Henry) => LetterHenry,
        (NotationStyle.LetterCode, Unit.Volt) => LetterVolt,
        (NotationStyle.LetterCode, Unit.Watt) => LetterWatt,
        (NotationStyle.LetterCode, Unit.Ampere) => LetterAmpere,
        (NotationStyle.OldThousand, Unit.Ohm) => ThousandOhm,
        (NotationStyle.Old, Unit.Ohm) => OldOhm,
        (NotationStyle.Old or NotationStyle.OldThousand, Unit.Farad) => OldFarad,
        (NotationStyle.Old or NotationStyle.OldThousand, Unit.Henry) => OldHenry,
        (NotationStyle.Old or NotationStyle.OldThousand, Unit.Volt) => OldVolt,
        (NotationStyle.Old or NotationStyle.OldThousand, Unit.Watt) => OldWatt,
        (NotationStyle.Old or NotationStyle.OldThousand, Unit.Ampere) => OldAmpere,
        (NotationStyle.Shop, Unit.Farad) => ShopFarad,
        (_, Unit.Ohm) => PlainOhm,
        (_, Unit.Farad) => PlainFarad,
        (_, Unit.Henry) => PlainHenry,
        (_, Unit.Volt) => PlainVolt,
        (_, Unit.Watt) => PlainWatt,
        _ => PlainAmpere,
    };

    /// <summary>The step for a value whose first figure has this magnitude.</summary>
    public static ScaleStep Step(Unit unit, NotationStyle style, int magnitude)
    {
        var steps = Of(unit, style);
        foreach (var step in steps)
            if (magnitude >= step.From) return step;
        return steps[^1];
    }
}

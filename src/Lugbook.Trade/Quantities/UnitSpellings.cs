using System.Collections.Frozen;

namespace Lugbook.Trade.Quantities;

/// <summary>One thing that a unit word can mean: a unit, a power of ten, and for the old units a factor.</summary>
/// <param name="Unit">The unit.</param>
/// <param name="Exponent">Power of ten.</param>
/// <param name="Factor">1, but 1.11265 for the centimetre of capacitance.</param>
internal readonly record struct UnitSense(Unit Unit, int Exponent, double Factor = 1)
{
    /// <summary>This number of this unit, in the unit's base.</summary>
    public double Of(Numeral number) => Factor == 1 ? number.Times(Exponent) : number.Times(Exponent) * Factor;
}

/// <summary>How the trade writes units of resistance, capacitance and inductance, in words of two letters and more or with a sign of their own.</summary>
/// <remarks>
/// Single Latin letters (K, M, P) are not here: what they mean depends on what stands around them.
/// Source: data/reference/letter-codes.csv, unit-spelling; the rest is common practice, no source.
/// </remarks>
internal static class UnitSpellings
{
    /// <summary>1 cm of capacitance (electrostatic unit) in pF: 1/(c²·10⁻⁹) with c in cm/s.</summary>
    public const double CentimetrePicofarads = 1.11265;
    /// <summary>1 jar in pF: 1/900 µF.</summary>
    public const double JarPicofarads = 1111.1;

    private static readonly FrozenDictionary<string, UnitSense> Words = Build();
    private static readonly string[] Sorted = [.. Words.Keys.Where(k => k.Length >= 3).Order(StringComparer.Ordinal)];

    /// <summary>What this word means as a unit, or null.</summary>
    public static UnitSense? Find(string word)
    {
        if (word is "mΩ" or "mohm" or "mOhm" or "mω" or "mohms") return new(Unit.Ohm, -3);
        if (word is "mµF" or "mµf" or "mµ" or "mµFd" or "mµfd") return new(Unit.Farad, -9);
        return Words.TryGetValue(word, out var sense) ? sense : null;
    }

    /// <summary>The known word that this one is a slip of the pen away from, or null: MFB is near MFD.</summary>
    public static string? Near(string word) =>
        word.Length < 3 ? null : Array.Find(Sorted, k => OneSlip(k, word));

    private static bool OneSlip(string known, string written)
    {
        if (Math.Abs(known.Length - written.Length) > 1) return false;
        var same = 0;
        while (same < known.Length && same < written.Length && char.ToUpperInvariant(known[same]) == char.ToUpperInvariant(written[same])) same++;
        var (left, over) = (known.Length - same, written.Length - same);
        var restKnown = known.AsSpan(same + (left >= over && left > 0 ? 1 : 0));
        var restWritten = written.AsSpan(same + (over >= left && over > 0 ? 1 : 0));
        return restKnown.Equals(restWritten, StringComparison.OrdinalIgnoreCase);
    }

    private static FrozenDictionary<string, UnitSense> Build()
    {
        var words = new Dictionary<string, UnitSense>(StringComparer.OrdinalIgnoreCase);
        void Add(UnitSense sense, string spellings)
        {
            foreach (var word in spellings.Split(' ', StringSplitOptions.RemoveEmptyEntries)) words.Add(word, sense);
        }

        Add(new(Unit.Farad, -12), "pF pFd pFds pFs picofarad picofarads pico puff puffs MMF MMFD MMFDS MMFS µµF µµFD µµ UUF UUFD UUFDS mmicrofarad "
            + "micromicrofarad micromicrofarads micromicro micromikrofarad mikromikrofarad MicMic");
        Add(new(Unit.Farad, -9), "nF nFd nano nanofarad nanofarads KPF KPFD KMMF KMMFD KUUF KµµF millimicrofarad TPF");
        Add(new(Unit.Farad, -6), "MFD MFDS MFS MF MFRD UF UFD UFDS µF µFd µ µFs MIC MICS MICRO MICROS MICROF MICROFD MICROFARAD MICROFARADS MICROFARADY "
            + "MICFARAD MICFD MICFDS MIKROFARAD MIKRO MFARAD MFARADS MCF MKF");
        Add(new(Unit.Farad, -3), "millifarad millifarads");
        Add(new(Unit.Farad, 0), "farad farads FD");
        Add(new(Unit.Farad, -12, CentimetrePicofarads), "cm cms");
        Add(new(Unit.Farad, -9, CentimetrePicofarads), "kcm tcm");
        Add(new(Unit.Farad, -12, JarPicofarads), "jar jars");

        Add(new(Unit.Ohm, 0), "Ω ohm ohms ΩS");
        Add(new(Unit.Ohm, -3), "milliohm milliohms");
        Add(new(Unit.Ohm, 3), "KΩ KΩS KOHM KOHMS KILO KILOS KILOHM KILOHMS KILOOHM KILOOHMS KILΩ thousand thousandohm thousandohms");
        Add(new(Unit.Ohm, 6), "MEG MEGS MEGO MEGOS MEGOHM MEGOHMS MEGΩ MEGA MEGAOHM MEGAOHMS MΩ MΩS MOHM MOHMS million millionohms mill millohm millohms MGOHM");
        Add(new(Unit.Ohm, 9), "GΩ GOHM GOHMS GIGOHM GIGAOHM");
        Add(new(Unit.Ohm, 12), "TΩ TOHM TERAOHM");

        Add(new(Unit.Henry, 0), "H HY HYS HYST HENRY HENRYS HENRIES HEN");
        Add(new(Unit.Henry, -3), "MH MHY MHYS MILLIHENRY MILLIHENRYS MILLIHENRIES MILHENRY MILLIHY");
        Add(new(Unit.Henry, -6), "µH UH µHY UHY µHYS UHYS MICROHENRY MICROHENRYS MICROHENRIES MICROHY MIKROHENRY");
        Add(new(Unit.Henry, -9), "NH NHY NANOHENRY");
        return words.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);
    }
}

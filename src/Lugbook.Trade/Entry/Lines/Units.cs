using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Units as a bench note writes them.</summary>
internal enum UnitWord
{
    None, Ohm, Kilo, Meg, LetterM, Micro, Nano, Pico, Centimetre, Henry, MilliHenry, MicroHenry,
    Volt, KiloVolt, VoltAc, Watt, MilliWatt, Ampere, MilliAmpere, Percent,
}

/// <summary>Finds units among words.</summary>
internal static class Units
{
    // Common practice, no source; the spellings of capacitance are those of data/reference/letter-codes.csv.
    private static readonly FrozenDictionary<string, UnitWord> Spellings = Lines(
        (UnitWord.Ohm, "ohm,ohms,Ω,r,ohm's"),
        (UnitWord.Kilo, "k,kohm,kohms,kΩ,k ohm,k ohms,k Ω,kilohm,kilohms,kilo,kay,thousand,thousand ohm,thousand ohms,kilo ohm,kilo ohms"),
        (UnitWord.Meg, "meg,megs,megohm,megohms,meg ohm,meg ohms,megΩ,MΩ,mega,million,million ohm,million ohms"),
        (UnitWord.LetterM, "m,m ohm,m ohms"),
        (UnitWord.Micro, "mfd,mfds,mf,uf,ufd,µf,µfd,u,µ,micro,microfarad,microfarads,micro farad,micro farads,mike,mikes,mic,mics"),
        (UnitWord.Nano, "n,nf,nano,nanofarad,nanofarads"),
        (UnitWord.Pico, "mmf,mmfd,mmfds,uuf,uufd,µµf,µµfd,pf,pfd,p,puff,puffs,pico,picofarad,picofarads,micromicrofarad,micromicrofarads,micro micro farads,micro micro,micro mike,micro mikes,micromike,micromikes"),
        (UnitWord.Centimetre, "cm"),
        (UnitWord.Henry, "h,hy,hys,henry,henries,henrys"),
        (UnitWord.MilliHenry, "mh,mhy,millihenry,millihenries,millihenrys"),
        (UnitWord.MicroHenry, "uh,µh,microhenry,microhenries,microhenrys"),
        (UnitWord.Volt, "v,volt,volts,vdc,vdcw,wvdc,dcwv,dcv,wv,vw,v dc,volt dc,volts dc,dc volts,w v,v w,w v dc,v dc w,d c w v,working volts,volts working,volts dc working,v working,wkg,v wkg,volt working"),
        (UnitWord.KiloVolt, "kv,kilovolt,kilovolts"),
        (UnitWord.VoltAc, "vac,v~,v ac,volt ac,volts ac,ac volts"),
        (UnitWord.Watt, "w,watt,watts"),
        (UnitWord.MilliWatt, "mw,milliwatt,milliwatts"),
        (UnitWord.Ampere, "a,amp,amps,ampere,amperes"),
        (UnitWord.MilliAmpere, "ma,milliamp,milliamps,milliampere,milliamperes"),
        (UnitWord.Percent, "%,percent,pct,pc,per cent"));

    private static FrozenDictionary<string, UnitWord> Lines(params (UnitWord Unit, string Words)[] lines) =>
        lines.SelectMany(l => l.Words.Split(',').Select(w => KeyValuePair.Create(w, l.Unit))).ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    /// <summary>The unit of this spelling, glued or alone; none when it is no unit.</summary>
    public static UnitWord Of(string text) =>
        Spellings.GetValueOrDefault(text.Replace(".", "", StringComparison.Ordinal));

    /// <summary>The longest unit that begins at word <paramref name="i"/>, and how many words it takes.</summary>
    public static (UnitWord Unit, int Count) At(ImmutableArray<Word> words, int i)
    {
        for (var count = Math.Min(3, words.Length - i); count >= 1; count--)
        {
            if (Enumerable.Range(i, count).Any(k => words[k].Quoted || (k < i + count - 1 && words[k].CommaAfter))) continue;
            var unit = Of(string.Join(' ', words.Skip(i).Take(count).Select(w => w.Text)));
            if (unit != UnitWord.None) return (unit, count);
        }
        return (UnitWord.None, 0);
    }

    /// <summary>Does it measure a resistance or a capacitance?</summary>
    public static bool IsValue(this UnitWord unit) => unit is >= UnitWord.Ohm and <= UnitWord.Centimetre;
    /// <summary>Does it measure a capacitance, and nothing else?</summary>
    public static bool IsCapacitance(this UnitWord unit) => unit is >= UnitWord.Micro and <= UnitWord.Centimetre;
    /// <summary>Does it measure a resistance, and nothing else?</summary>
    public static bool IsResistance(this UnitWord unit) => unit is UnitWord.Ohm or UnitWord.Meg;
    /// <summary>Does it measure an inductance?</summary>
    public static bool IsInductance(this UnitWord unit) => unit is >= UnitWord.Henry and <= UnitWord.MicroHenry;
    /// <summary>Is this text a unit of value?</summary>
    public static bool IsValueUnit(string text) => Of(text).IsValue() || Of(text).IsInductance();
}

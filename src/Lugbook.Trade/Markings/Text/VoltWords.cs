using System.Collections.Frozen;

namespace Lugbook.Trade.Markings.Text;

/// <summary>What a word says about a voltage.</summary>
[Flags]
internal enum VoltTraits
{
    /// <summary>Nothing more.</summary>
    None = 0,
    /// <summary>Alternating, rms.</summary>
    Ac = 1,
    /// <summary>Direct.</summary>
    Dc = 2,
    /// <summary>Peak or surge: not the rating.</summary>
    Peak = 4,
    /// <summary>Test volts: not the rating.</summary>
    Test = 8,
}

/// <summary>How the trade writes volts, and the words that qualify them.</summary>
/// <remarks>Source: data/reference/letter-codes.csv, voltage-spelling; the rest is common practice, no source.</remarks>
internal static class VoltWords
{
    private static readonly FrozenDictionary<string, (int Exponent, VoltTraits Traits)> Units = BuildUnits();
    private static readonly FrozenDictionary<string, VoltTraits> Qualifiers = BuildQualifiers();

    /// <summary>The power of ten and the traits of a word that is a unit of voltage, or null.</summary>
    public static (int Exponent, VoltTraits Traits)? Find(string word) => Units.TryGetValue(word, out var found) ? found : null;

    /// <summary>The traits of a word that only qualifies a voltage ("working", "peak", "DC"), or null.</summary>
    public static VoltTraits? Qualifier(string word) => Qualifiers.TryGetValue(word, out var found) ? found : null;

    private static FrozenDictionary<string, (int, VoltTraits)> BuildUnits()
    {
        var words = new Dictionary<string, (int, VoltTraits)>(StringComparer.OrdinalIgnoreCase);
        void Add(int exponent, VoltTraits traits, string spellings)
        {
            foreach (var word in spellings.Split(' ')) words.Add(word, (exponent, traits));
        }
        Add(0, VoltTraits.None, "V VOLT VOLTS VLT VLTS VTS WV VW WVOLTS VWKG VWORKING WKGV VMAX VN VNOM");
        Add(0, VoltTraits.Dc, "VDC VDCW VDCWKG VDCWV WVDC WVD DCWV DCVW DCV VWDC VCC VOLTSDC VOLTDC VDCWORKING");
        Add(0, VoltTraits.Ac, "VAC VACW ACV WVAC ACWV VRMS VEFF VCA VACRMS VOLTSAC");
        Add(0, VoltTraits.Peak, "PV VP VPK VPEAK PVDC PEAKV SV VSURGE SURGEV VSP VPDC");
        Add(0, VoltTraits.Test, "VT TV VTEST TESTV VPR VDCT TVDC VDCTEST VTESTED");
        Add(3, VoltTraits.None, "KV KVOLT KVOLTS KVW WKV KILOVOLT KILOVOLTS");
        Add(3, VoltTraits.Dc, "KVDC KVDCW KVDCWV KVCC");
        Add(3, VoltTraits.Ac, "KVAC KVRMS");
        Add(3, VoltTraits.Peak, "KVP KVPK KVPEAK");
        Add(3, VoltTraits.Test, "KVT KVTEST");
        return words.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);
    }

    private static FrozenDictionary<string, VoltTraits> BuildQualifiers()
    {
        var words = new Dictionary<string, VoltTraits>(StringComparer.OrdinalIgnoreCase);
        void Add(VoltTraits traits, string spellings)
        {
            foreach (var word in spellings.Split(' ')) words.Add(word, traits);
        }
        Add(VoltTraits.None, "WORKING WORK WKG WKNG WKING WRKG RATED RATING NOM NOMINAL MAX CONT CONTINUOUS BETRIEB BETR SERVICE ARBEIT NENN NENNSP BETRSP BETRIEBSSP TS");
        Add(VoltTraits.Dc, "DC DCW DCWKG CC GS");
        Add(VoltTraits.Ac, "AC CA WS RMS EFF ACW");
        Add(VoltTraits.Peak, "PEAK PK SURGE CREST SPITZE");
        Add(VoltTraits.Test, "TEST TESTED TST PRUF PRÜF PRUEF ESSAI FLASH PROVA PRUFSP PRÜFSP PRUEFSP TE VOLTTEST PRUFSPANNUNG PRÜFSPANNUNG");
        return words.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);
    }
}

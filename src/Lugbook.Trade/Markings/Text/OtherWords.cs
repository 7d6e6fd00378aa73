using System.Collections.Frozen;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Words on parts and sheets that are neither unit nor volts: what the part is, where it sits, what is printed for decoration.</summary>
/// <remarks>Common practice, no source.</remarks>
internal static class OtherWords
{
    private static readonly FrozenDictionary<string, (PartKind Kind, string? Dielectric)> Kinds = BuildKinds();
    private static readonly FrozenSet<string> Idle = (
        "the of and or to in on at by is no with from for each only about approx ca circa tol tolerance type typ part pt style class cat series value val sec section sections "
        + "made usa england germany japan holland gmbh ltd inc corp co patent pat pend patents reg "
        + "cathode plate anode grid screen suppressor bypass by-pass coupling couple blocking filter smoothing reservoir decoupling decoupler bias load dropper dropping bleeder "
        + "avc agc tone volume vol bass treble contrast brightness hold height width linearity peaking antenna aerial osc oscillator det detector audio output input primary secondary "
        + "line mains supply heater filament voice takeoff take-off tertiary stopper feedback fb balance hum noise "
        + "sw cont center centre tapped adj adjustable insulated vitreous sleeved flexible cord taper log lin linear audio switch tap tapped ct same as like also marked reads label band body insulated ins non noninductive inductive bipolar polar np bp bip "
        + "axial radial dry wet plug vertical horizontal horiz vert tube valve chassis metal case cased round square large small big tiny twist lock outside foil outer end ground gnd "
        + "voltage voltages temp temperature rf if af lf hf vhf am fm lw mw sw ht lt eht hv agc1 plus minus nominal appr no. nr pcs pc. see text note values all resistors capacitors condensers unless otherwise specified noted watt. "
        + "black red neg negative common pos positive vor nach fest").Split(' ').ToFrozenSet(StringComparer.OrdinalIgnoreCase);

    /// <summary>What part this word names, and its dielectric if that is in it; null when it names none.</summary>
    public static (PartKind Kind, string? Dielectric)? Kind(string word) => Kinds.TryGetValue(word, out var found) ? found : null;

    /// <summary>A word that changes nothing?</summary>
    public static bool IsIdle(string word) => Idle.Contains(word);

    /// <summary>A word that names watts: 0 for W, −3 for mW; null otherwise.</summary>
    public static int? Watts(string word) => word.ToUpperInvariant() switch
    {
        "W" or "WATT" or "WATTS" or "WTT" or "WTTS" or "WT" or "WTS" or "WATTAGE" or "WA" => 0,
        "MW" or "MILLIWATT" or "MILLIWATTS" => -3,
        "KW" => 3,
        _ => null,
    };

    /// <summary>A word that names amperes, with its power of ten; null otherwise.</summary>
    public static int? Amperes(string word) => word.ToUpperInvariant() switch
    {
        "A" or "AMP" or "AMPS" or "AMPERE" or "AMPERES" or "ADC" or "AAC" => 0,
        "MA" or "MILLIAMP" or "MILLIAMPS" or "MILLIAMPERE" or "MILLIAMPERES" or "MADC" or "MILS" or "MAS" => -3,
        "µA" or "UA" or "MICROAMP" or "MICROAMPS" => -6,
        _ => null,
    };

    /// <summary>A word that names a frequency?</summary>
    public static bool IsHertz(string word) => word.ToUpperInvariant() is "HZ" or "KHZ" or "MHZ" or "CPS" or "CYCLE" or "CYCLES" or "CY" or "KC" or "KCS" or "MC" or "MCS"
        or "KCPS" or "PPS" or "HERTZ" or "KILOCYCLES" or "MEGACYCLES";

    /// <summary>A word that names per cent?</summary>
    public static bool IsPercent(string word) => word.ToUpperInvariant() is "PERCENT" or "PERCENTS" or "PCT" or "PC" or "PERC" or "PROZENT" or "PROCENT";

    private static FrozenDictionary<string, (PartKind, string?)> BuildKinds()
    {
        var words = new Dictionary<string, (PartKind, string?)>(StringComparer.OrdinalIgnoreCase);
        void Add(PartKind kind, string? dielectric, string spellings)
        {
            foreach (var word in spellings.Split(' ')) words[word] = (kind, dielectric);
        }
        Add(PartKind.Resistor, null, "RESISTOR RESISTORS RESISTANCE RES CARBON COMPOSITION COMP WIREWOUND WW WIRE WOUND WIDERSTAND CANDOHM CERMET METAL-FILM");
        Add(PartKind.Control, null, "CONTROL POT POTS POTENTIOMETER POTI RHEOSTAT REGLER");
        Add(PartKind.Paper, "paper", "PAPER WAX WAXED PAPIER PIO MP OIL OILED PETTED MOULDED MOLDED BATHTUB ROLLKONDENSATOR BECHER");
        Add(PartKind.Film, "film", "FILM FOLIE");
        foreach (var film in new[] { "polyester", "polypropylene", "polystyrene", "styrol", "mylar", "styroflex", "polycarbonate", "teflon", "PTFE", "MKT", "MKS", "MKP", "MKC", "MKH", "FKP", "FKC", "FKS", "FKT", "KT", "KS", "KP", "PETP", "PETF", "MKV", "MPP", "MMK", "MKPX" })
            words[film] = (PartKind.Film, film);
        Add(PartKind.Mica, "mica", "MICA GLIMMER MICAS");
        Add(PartKind.SilverMica, "mica", "SILVERED SILVER SM");
        Add(PartKind.Ceramic, "ceramic", "CERAMIC CER DISC DISK CERAMICON HIK HI-K CERAMICS KERAMIK KERKO");
        Add(PartKind.Electrolytic, null, "ELECTROLYTIC ELECTROLYTICS ELECT ELEC ELYT ELKO ELCO LYTIC ELECTRO CAN TANTALUM TANT TANTAL ALUMINIUM ALUMINUM");
        Add(PartKind.Capacitor, null, "CAPACITOR CAPACITORS CAP CAPS CONDENSER CONDENSERS COND KONDENSATOR KOND TUBULAR TUB");
        Add(PartKind.Trimmer, null, "TRIMMER TRIM PADDER PADDING TRIMMERS");
        Add(PartKind.VariableCapacitor, null, "VARIABLE TUNING GANG GANGED DREHKO DREHKONDENSATOR");
        Add(PartKind.Winding, null, "COIL CHOKE INDUCTOR INDUCTANCE WINDING REACTOR RFC DROSSEL SPULE TRANSFORMER TRAFO");
        return words.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);
    }
}

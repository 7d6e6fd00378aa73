using System.Collections.Frozen;
using System.Text.RegularExpressions;
using Lugbook.Trade.Parts;

namespace Lugbook.Store.Exchange;

/// <summary>Kinds of part as strangers' lists write them, beyond the spellings that <see cref="PartKinds"/> knows.</summary>
/// <remarks>Common practice in English, German, French, Dutch, Italian and Spanish; no source.</remarks>
internal static partial class KindWords
{
    private static readonly FrozenDictionary<string, PartKind> Spellings = Build(
        (PartKind.Resistor, "resistors|fixed resistor|carbon|carbon comp|carbon composition|carbon composition resistor|carbon comp resistor|composition|comp resistor|carbon film|wire wound|wirewound resistor|ww resistor|r fixed|widerstand|schichtwiderstand|kohleschicht|kohleschichtwiderstand|drahtwiderstand|festwiderstand|resistance|resistance carbone|weerstand|resistenza|resistore|resistencia"),
        (PartKind.Control, "controls|variable resistor|pots|potmeter|poti|drehwiderstand|regler|potentiometre|potenziometro|potenciometro|trimpot|preset|tone control|hum pot|vr"),
        (PartKind.Paper, "paper cap|paper caps|paper condenser|wax cap|waxed paper|wax paper cap|wax paper capacitor|paper in oil|oil paper|pio|bumblebee|moulded paper capacitor|molded paper capacitor|tubular paper|papier|papierkondensator|wickelkondensator|condensateur papier|papiercondensator|carta|papel"),
        (PartKind.Film, "film cap|plastic film|mylar|folie|folienkondensator|mkp|mkt|mks|fkp|polyester cap|poly|film plastique|plastico"),
        (PartKind.Mica, "mica cap|micas|mica condenser|glimmer|glimmerkondensator|condensateur mica|micacondensator|moulded mica|molded mica|postage stamp mica"),
        (PartKind.SilverMica, "sm|silver mica cap|silver mica capacitor|silvered mica capacitor|mica argente"),
        (PartKind.Ceramic, "ceramic cap|ceramic disc|ceramic disk|disk|disk ceramic|disc cap|keramik|keramikkondensator|kerko|scheibenkondensator|ceramique|keramisch|ceramico|ceramica|tubular ceramic|hi k|ceramics"),
        (PartKind.Electrolytic, "electrolytic cap|electrolytics|electro|filter cap|filter capacitor|filter condenser|can cap|el cap|e cap|elektrolyt|elektrolytkondensator|elko|chimique|electrochimique|condensateur chimique|elektrolytisch|elettrolitico|electrolitico|multi section can|cathode bypass electrolytic"),
        (PartKind.Capacitor, "capacitors|caps|condensers|kondensator|festkondensator|condensateur|condensator|condensatore|condensador"),
        (PartKind.Trimmer, "trimmer capacitor|trimmer cap|padder capacitor|compression trimmer|trimmkondensator|ajustable"),
        (PartKind.VariableCapacitor, "tuning cap|tuning condenser|variable cap|variable condenser|drehko|drehkondensator|cv|condensateur variable|afstemcondensator|variabile"),
        (PartKind.Winding, "windings|rf choke|rfc|inductance|transformer|output transformer|power transformer|mains transformer|if transformer|spule|drossel|trafo|transformator|ubertrager|bobine|self|transformateur|spoel|smoorspoel|bobina|trasformatore|transformador"),
        (PartKind.Valve, "valves|tubes|vacuum tube|electron tube|rohre|roehre|tube electronique|lampe radio|buis|radiobuis|valvola|valvula"),
        (PartKind.Fuse, "fuses|sicherung|fusible|zekering|fusibile"),
        (PartKind.Lamp, "dial light|pilot light|dial bulb|skalenlampe|lampe cadran|lampje|lampada|indicator lamp"),
        (PartKind.Switch, "switches|power switch|schalter|interrupteur|schakelaar|interruttore|interruptor"),
        (PartKind.Speaker, "speakers|lautsprecher|haut parleur|luidspreker|altoparlante|altavoz|ls"),
        (PartKind.SeleniumRectifier, "selenium rect|metal rectifier|selengleichrichter|selen|redresseur selenium"),
        (PartKind.CrystalDiode, "point contact diode|germaniumdiode|detector diode"),
        (PartKind.SiliconRectifier, "si diode|siliziumdiode|1n4007|rectifier diode"),
        (PartKind.Thermistor, "heissleiter|varite|thermistance|hot resistor"));

    private static FrozenDictionary<string, PartKind> Build(params (PartKind Kind, string Words)[] rows) =>
        rows.SelectMany(r => r.Words.Split('|').Select(w => KeyValuePair.Create(w, r.Kind)))
            .DistinctBy(p => p.Key).ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>The kind that these words mean, also where Trade does not know them; null when nobody does.</summary>
    public static PartKind? Of(string written)
    {
        if (PartKinds.Of(written) is not PartKind.Other and var known) return known;
        var normal = HeaderWords.Normal(written);
        if (PartKinds.Of(normal) is not PartKind.Other and var sameWords) return sameWords;
        if (Spellings.TryGetValue(normal, out var kind)) return kind;
        // "capacitor, paper", "cap (electrolytic)": the word that says most decides.
        foreach (var word in normal.Split(' '))
            if ((PartKinds.Of(word) is not PartKind.Other and var said ? said : Spellings.TryGetValue(word, out var foreign) ? foreign : (PartKind?)null) is { } one
                && one is not (PartKind.Capacitor or PartKind.Resistor) && word.Length > 2 && normal.Split(' ').Any(w => w is "cap" or "capacitor" or "condenser" or "c" or "kondensator" or "condensateur" or "res" or "resistor" or "r")) return one;
        return null;
    }

    /// <summary>The kind that a reference's letters suggest (IEEE 315 class letters, and what old sheets did); null when they do not.</summary>
    public static PartKind? FromReference(string reference) => Letters().Match(reference).Value.ToUpperInvariant() switch
    {
        "R" => PartKind.Resistor,
        "VR" or "RV" or "P" or "POT" => PartKind.Control,
        "C" => PartKind.Capacitor,
        "VC" or "CV" => PartKind.VariableCapacitor,
        "L" or "T" or "TR" or "CH" or "RFC" => PartKind.Winding,
        "V" => PartKind.Valve,
        "F" or "FU" => PartKind.Fuse,
        "S" or "SW" => PartKind.Switch,
        "LM" or "PL" or "LP" or "DS" or "LA" => PartKind.Lamp,
        "LS" or "SP" or "SPK" => PartKind.Speaker,
        "SR" or "SE" => PartKind.SeleniumRectifier,
        "D" => PartKind.CrystalDiode,
        _ => null,
    };

    /// <summary>Several references in one cell, as bills of materials write them: "R1, R2, R5" or "R1-R4"; one otherwise.</summary>
    public static IReadOnlyList<string> References(string cell)
    {
        var words = cell.Split([',', ';', ' ', '\n', '&'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        var all = new List<string>();
        foreach (var word in words)
        {
            if (Reference().IsMatch(word)) { all.Add(word); continue; }
            var range = Range().Match(word);
            if (!range.Success) return [cell];
            var (letters, last) = (range.Groups[1].Value, range.Groups[3].Value);
            if (last.Length > 0 && !last.Equals(letters, StringComparison.OrdinalIgnoreCase)) return [cell];
            var (from, to) = (int.Parse(range.Groups[2].ValueSpan, System.Globalization.CultureInfo.InvariantCulture), int.Parse(range.Groups[4].ValueSpan, System.Globalization.CultureInfo.InvariantCulture));
            if (to <= from || to - from > 200) return [cell];
            for (var n = from; n <= to; n++) all.Add($"{letters}{n.ToString(System.Globalization.CultureInfo.InvariantCulture)}");
        }
        return all.Count > 1 ? all : [cell];
    }

    [GeneratedRegex("^[A-Za-z]{1,3}(?=[0-9])")]
    private static partial Regex Letters();
    [GeneratedRegex("^[A-Za-z]{1,3}[0-9]{1,4}[A-Za-z]?$")]
    public static partial Regex Reference();
    [GeneratedRegex("^([A-Za-z]{1,3})([0-9]{1,4})[-–]([A-Za-z]{0,3})([0-9]{1,4})$")]
    private static partial Regex Range();
}

using System.Collections.Frozen;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Parts;

/// <summary>How people write kinds, and what each kind implies.</summary>
public static class PartKinds
{
    private static readonly FrozenDictionary<string, PartKind> Spellings = new Dictionary<string, PartKind>(StringComparer.OrdinalIgnoreCase)
    {
        ["resistor"] = PartKind.Resistor, ["res"] = PartKind.Resistor, ["r"] = PartKind.Resistor, ["power resistor"] = PartKind.Resistor,
        ["carbon resistor"] = PartKind.Resistor, ["wirewound"] = PartKind.Resistor, ["wire-wound resistor"] = PartKind.Resistor,
        ["control"] = PartKind.Control, ["potentiometer"] = PartKind.Control, ["pot"] = PartKind.Control, ["volume control"] = PartKind.Control, ["rheostat"] = PartKind.Control,
        ["paper"] = PartKind.Paper, ["paper capacitor"] = PartKind.Paper, ["wax paper"] = PartKind.Paper, ["moulded paper"] = PartKind.Paper, ["molded paper"] = PartKind.Paper, ["oil"] = PartKind.Paper, ["tubular"] = PartKind.Paper,
        ["film"] = PartKind.Film, ["film capacitor"] = PartKind.Film, ["polyester"] = PartKind.Film, ["polypropylene"] = PartKind.Film, ["polystyrene"] = PartKind.Film, ["styrol"] = PartKind.Film,
        ["mica"] = PartKind.Mica, ["mica capacitor"] = PartKind.Mica,
        ["silver mica"] = PartKind.SilverMica, ["silvered mica"] = PartKind.SilverMica,
        ["ceramic"] = PartKind.Ceramic, ["disc"] = PartKind.Ceramic, ["disc ceramic"] = PartKind.Ceramic, ["ceramic capacitor"] = PartKind.Ceramic,
        ["electrolytic"] = PartKind.Electrolytic, ["elyt"] = PartKind.Electrolytic, ["elco"] = PartKind.Electrolytic, ["lytic"] = PartKind.Electrolytic, ["electrolytic capacitor"] = PartKind.Electrolytic,
        ["capacitor"] = PartKind.Capacitor, ["cap"] = PartKind.Capacitor, ["condenser"] = PartKind.Capacitor, ["c"] = PartKind.Capacitor,
        ["trimmer"] = PartKind.Trimmer, ["padder"] = PartKind.Trimmer,
        ["variable capacitor"] = PartKind.VariableCapacitor, ["tuning capacitor"] = PartKind.VariableCapacitor, ["gang"] = PartKind.VariableCapacitor,
        ["glass"] = PartKind.Glass,
        ["winding"] = PartKind.Winding, ["coil"] = PartKind.Winding, ["choke"] = PartKind.Winding, ["inductor"] = PartKind.Winding, ["transformer winding"] = PartKind.Winding,
        ["valve"] = PartKind.Valve, ["tube"] = PartKind.Valve,
        ["selenium rectifier"] = PartKind.SeleniumRectifier, ["selenium"] = PartKind.SeleniumRectifier,
        ["selenium diode"] = PartKind.SeleniumDiode,
        ["crystal diode"] = PartKind.CrystalDiode, ["germanium diode"] = PartKind.CrystalDiode, ["diode"] = PartKind.CrystalDiode,
        ["silicon rectifier"] = PartKind.SiliconRectifier, ["silicon diode"] = PartKind.SiliconRectifier,
        ["fuse"] = PartKind.Fuse, ["lamp"] = PartKind.Lamp, ["pilot lamp"] = PartKind.Lamp, ["dial lamp"] = PartKind.Lamp, ["bulb"] = PartKind.Lamp,
        ["switch"] = PartKind.Switch, ["speaker"] = PartKind.Speaker, ["loudspeaker"] = PartKind.Speaker,
        ["thermistor"] = PartKind.Thermistor, ["ntc"] = PartKind.Thermistor,
        ["sub-unit"] = PartKind.SubUnit, ["sub unit"] = PartKind.SubUnit, ["subunit"] = PartKind.SubUnit,
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    /// <summary>The kind that this spelling means; <see cref="PartKind.Other"/> when it is not known.</summary>
    public static PartKind Of(string? written) =>
        written is not null && Spellings.TryGetValue(written.Trim().Replace('_', ' '), out var kind) ? kind : PartKind.Other;

    /// <summary>All spellings that are understood.</summary>
    public static IEnumerable<string> Known => Spellings.Keys;

    /// <summary>The usual spelling of a kind: how Lugbook writes it.</summary>
    public static string Spelling(PartKind kind) => kind switch
    {
        PartKind.SilverMica => "silver mica",
        PartKind.VariableCapacitor => "variable capacitor",
        PartKind.SeleniumRectifier => "selenium rectifier",
        PartKind.SeleniumDiode => "selenium diode",
        PartKind.CrystalDiode => "crystal diode",
        PartKind.SiliconRectifier => "silicon rectifier",
        PartKind.SubUnit => "sub-unit",
        _ => kind.ToString().ToLowerInvariant(),
    };

    /// <summary>A capacitor of fixed or variable value?</summary>
    public static bool IsCapacitor(this PartKind kind) => kind is PartKind.Paper or PartKind.Film or PartKind.Mica or PartKind.SilverMica
        or PartKind.Ceramic or PartKind.Electrolytic or PartKind.Capacitor or PartKind.Trimmer or PartKind.VariableCapacitor or PartKind.Glass;

    /// <summary>A capacitor of fixed value that today's makers sell?</summary>
    public static bool IsFixedCapacitor(this PartKind kind) =>
        kind.IsCapacitor() && kind is not (PartKind.Trimmer or PartKind.VariableCapacitor or PartKind.Glass);

    /// <summary>Something whose value is a DC resistance?</summary>
    public static bool IsResistive(this PartKind kind) => kind is PartKind.Resistor or PartKind.Control or PartKind.Winding
        or PartKind.Lamp or PartKind.Speaker or PartKind.Thermistor;

    /// <summary>A part that conducts one way?</summary>
    public static bool IsRectifier(this PartKind kind) => kind is PartKind.SeleniumRectifier or PartKind.SeleniumDiode
        or PartKind.CrystalDiode or PartKind.SiliconRectifier;

    /// <summary>The unit of this kind's value, or null when it has none.</summary>
    public static Unit? UnitOf(PartKind kind) =>
        kind.IsCapacitor() ? Unit.Farad : kind.IsResistive() ? Unit.Ohm : null;

    /// <summary>How many leads a part of this kind has at least: 3 for a control, none for a valve, 2 otherwise.</summary>
    public static int LeadsOf(PartKind kind) => kind switch { PartKind.Control => 3, PartKind.Valve => 0, _ => 2 };
}

namespace Lugbook.Trade.Parts;

/// <summary>What a part is, as far as Lugbook treats kinds differently; how it was written stays with the part.</summary>
public enum PartKind
{
    /// <summary>A kind that Lugbook does not know; it is kept and drawn, but not judged.</summary>
    Other,
    /// <summary>Fixed resistor, composition unless its note says otherwise.</summary>
    Resistor,
    /// <summary>Variable resistor with a slider: volume, tone, hold.</summary>
    Control,
    /// <summary>Paper capacitor, waxed, moulded or in a can.</summary>
    Paper,
    /// <summary>Plastic film capacitor.</summary>
    Film,
    /// <summary>Mica capacitor.</summary>
    Mica,
    /// <summary>Silvered mica, often a sheet in the foot of an IF can.</summary>
    SilverMica,
    /// <summary>Ceramic capacitor.</summary>
    Ceramic,
    /// <summary>Electrolytic capacitor: polarised.</summary>
    Electrolytic,
    /// <summary>A capacitor whose kind was not given.</summary>
    Capacitor,
    /// <summary>Adjustable capacitor, set once.</summary>
    Trimmer,
    /// <summary>Tuning capacitor.</summary>
    VariableCapacitor,
    /// <summary>Glass of a picture tube, seen as a capacitor.</summary>
    Glass,
    /// <summary>One winding of a coil, choke or transformer; its value is the DC resistance.</summary>
    Winding,
    /// <summary>A valve: it plugs into the socket of its own name.</summary>
    Valve,
    /// <summary>Selenium rectifier stack.</summary>
    SeleniumRectifier,
    /// <summary>Selenium signal diode.</summary>
    SeleniumDiode,
    /// <summary>Crystal diode.</summary>
    CrystalDiode,
    /// <summary>Silicon rectifier.</summary>
    SiliconRectifier,
    /// <summary>Fuse.</summary>
    Fuse,
    /// <summary>Dial or pilot lamp; its value is the hot resistance.</summary>
    Lamp,
    /// <summary>Switch.</summary>
    Switch,
    /// <summary>Loudspeaker; its value is the DC resistance of the voice coil.</summary>
    Speaker,
    /// <summary>Thermistor.</summary>
    Thermistor,
    /// <summary>A sealed part of the circuit, described only by what it looks like from its lugs.</summary>
    SubUnit,
}

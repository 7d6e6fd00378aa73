using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Choose;

/// <summary>Why nothing is chosen for other kinds of part.</summary>
internal static class OtherKinds
{
    public static string Reason(PartKind kind) => kind switch
    {
        PartKind.Control => "Not chosen here: clean and test it; it goes only when the track is worn, open or off by a third.",
        PartKind.Trimmer or PartKind.VariableCapacitor => "Not chosen here: it stays; clean it and leave its setting.",
        PartKind.Glass => "Not chosen here: it is the bulb of the picture tube.",
        PartKind.Winding => "Not chosen here: a winding is measured, and rewound or replaced by its own kind.",
        PartKind.Valve => "Not chosen here: a valve is tested in the set.",
        PartKind.SeleniumRectifier => "Not chosen here: silicon and a resistor usually take its place, sized from the voltages: see supply and line.",
        PartKind.SeleniumDiode or PartKind.CrystalDiode or PartKind.SiliconRectifier => "Not chosen here: test it; it goes only on evidence.",
        PartKind.Fuse => "Not chosen here: fit what the sheet names.",
        PartKind.Lamp => "Not chosen here: fit the same type; its current may matter to the set.",
        PartKind.Switch => "Not chosen here: clean and test it.",
        PartKind.Speaker => "Not chosen here: it stays unless it is open or torn.",
        PartKind.Thermistor => "Not chosen here: test it cold and warm.",
        PartKind.SubUnit => "Not chosen here: a sealed unit, described from outside only.",
        _ => "Not chosen here: this kind is not known. Correct the kind, or choose by hand.",
    };
}

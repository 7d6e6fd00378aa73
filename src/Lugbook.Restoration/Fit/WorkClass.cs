using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Fit;

/// <summary>How urgent is a position? What protects a life or the set comes first.</summary>
internal static class WorkClass
{
    /// <summary>Cannot be done yet.</summary>
    public const int Held = 9;

    public static int Of(Choice choice, HashSet<int> outputs, MapResult map) => choice.Role.Role switch
    {
        Role.AcrossLine or Role.LineToTouchable => 1,
        _ when choice.Requirement.SafetyClass != SafetyClass.None => 1,
        Role.Coupling when choice.Lugs.Any(l => map.NodeOf(l) is { } n && outputs.Contains(n.Index)) => 2,
        Role.Reservoir or Role.Filter or Role.Doubler => 3,
        Role.ScreenBypass or Role.ControlVoltageFilter or Role.Decoupling => 4,
        Role.Coupling or Role.PlateToPlate or Role.PlateBypass or Role.Boost => 5,
        Role.CathodeBypass => 6,
        Role.Tone => 7,
        _ => 8,
    };

    public static string Why(int rank) => rank switch
    {
        1 => "Line positions come first.",
        2 => "A leaky coupling ruins the output valve.",
        3 => "Reservoir and filters keep the supply safe.",
        4 => "Screens and control voltages.",
        5 => "Couplings and plates.",
        6 => "Cathodes.",
        7 => "Tone.",
        Held => "Held back: last, until it is settled.",
        _ => "The rest.",
    };

    /// <summary>Grids of valves whose plate feeds a winding directly and that have a screen or a cathode resistor of their own: the output stage.</summary>
    public static HashSet<int> OutputGrids(MapResult map)
    {
        var grids = new HashSet<int>();
        foreach (var valve in map.Nodes.SelectMany(n => n.Pins.Select(p => (Node: n, Pin: p))).GroupBy(p => p.Pin.Valve.Name, StringComparer.OrdinalIgnoreCase))
            if (valve.Any(p => p.Pin.Has(ElectrodeKind.Plate) && p.Node.Leads.Any(l => l.Part.Kind == Trade.Parts.PartKind.Winding && !IsSignalCan(map, l.Part.Group))))
                foreach (var (node, pin) in valve)
                    if (pin.Has(ElectrodeKind.ControlGrid)) grids.Add(node.Index);
        return grids;
    }

    private static bool IsSignalCan(MapResult map, string? group) => map.Book.Mounts.Named(group)?.Kind is Trade.Chassis.MountKind.IfCan or Trade.Chassis.MountKind.CoilForm;
}

namespace Lugbook.Trade.Valves;

/// <summary>What an electrode does, whatever its number.</summary>
public enum ElectrodeKind
{
    /// <summary>An electrode that none of the others names, such as a focus electrode.</summary>
    Other,
    /// <summary>Plate, or the anode grid of an oscillator.</summary>
    Plate,
    /// <summary>A grid that carries a signal or a bias.</summary>
    ControlGrid,
    /// <summary>Screen grid.</summary>
    Screen,
    /// <summary>Suppressor grid.</summary>
    Suppressor,
    /// <summary>Indirectly heated cathode.</summary>
    Cathode,
    /// <summary>Heater end.</summary>
    Heater,
    /// <summary>Tap or centre of a heater.</summary>
    HeaterTap,
    /// <summary>Filament: heater and cathode in one.</summary>
    Filament,
    /// <summary>Plate of a small diode.</summary>
    DiodePlate,
    /// <summary>Beam-forming plates.</summary>
    BeamPlates,
    /// <summary>Internal shield.</summary>
    Shield,
    /// <summary>Metal shell or base sleeve.</summary>
    Shell,
    /// <summary>No connection inside.</summary>
    NoConnection,
    /// <summary>Internal connection: not to be used.</summary>
    Internal,
    /// <summary>One end of a link inside the base.</summary>
    Jumper,
}

/// <summary>One electrode of a valve.</summary>
/// <param name="Kind">What it does.</param>
/// <param name="Section">Which section of a double valve ("1", "2", "t"); empty when all share it.</param>
/// <param name="Letters">The trade's letters as the handbook line writes them: "g2g4", "gt1".</param>
public readonly record struct Electrode(ElectrodeKind Kind, string Section, string Letters)
{
    /// <summary>In words: "grid 1", "plate of section 2".</summary>
    public string InWords => Kind switch
    {
        ElectrodeKind.Plate => "plate",
        ElectrodeKind.ControlGrid => "grid",
        ElectrodeKind.Screen => "screen",
        ElectrodeKind.Suppressor => "suppressor",
        ElectrodeKind.Cathode => "cathode",
        ElectrodeKind.Heater => "heater",
        ElectrodeKind.HeaterTap => "heater tap",
        ElectrodeKind.Filament => "filament",
        ElectrodeKind.DiodePlate => "diode plate",
        ElectrodeKind.BeamPlates => "beam plates",
        ElectrodeKind.Shield => "shield",
        ElectrodeKind.Shell => "shell",
        ElectrodeKind.NoConnection => "no connection",
        ElectrodeKind.Internal => "internal connection",
        ElectrodeKind.Jumper => "internal link",
        _ => $"electrode {Letters}",
    };
}

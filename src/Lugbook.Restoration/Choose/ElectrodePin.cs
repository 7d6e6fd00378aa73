using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Choose;

/// <summary>An electrode on a lug.</summary>
/// <param name="Valve">Name of the valve and of its socket.</param>
/// <param name="Type">Its type as marked, or null.</param>
/// <param name="Section">Section of a double valve; empty when all share it.</param>
/// <param name="Kind">What it does.</param>
/// <param name="Lug">The socket's lug.</param>
internal sealed record ElectrodePin(string Valve, string? Type, string Section, ElectrodeKind Kind, string Lug)
{
    public string Words => $"{(Kind == ElectrodeKind.ControlGrid ? "grid" : Kind == ElectrodeKind.DiodePlate ? "diode plate" : Kind.ToString().ToLowerInvariant())} of {Valve} ({Lug})";

    public bool IsHeater => Kind is ElectrodeKind.Heater or ElectrodeKind.HeaterTap or ElectrodeKind.Filament;

    /// <summary>All electrodes: as the map has them; of a socket whose valve is not entered, as its lugs say.</summary>
    public static ImmutableArray<ElectrodePin> All(MapResult map)
    {
        var pins = ImmutableArray.CreateBuilder<ElectrodePin>();
        var known = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var pin in map.Nodes.SelectMany(n => n.Pins))
        {
            known.Add(pin.Lug);
            foreach (var electrode in pin.Electrodes) Add(new(pin.Valve.Name, pin.Valve.Marked, electrode.Section, electrode.Kind, pin.Lug));
        }
        foreach (var lug in map.Book.Lugs)
            if (!known.Contains(lug.Name) && map.Book.Mounts.Named(lug.Mount)?.Kind.IsSocket() == true)
                foreach (var electrode in Lugbook.Trade.Valves.Electrodes.FromWords(lug.Function)) Add(new(lug.Mount, map.Book.Parts.Named(lug.Mount)?.Marked, electrode.Section, electrode.Kind, lug.Name));
        return pins.ToImmutable();

        void Add(ElectrodePin pin)
        {
            if (pin.Kind is not (ElectrodeKind.NoConnection or ElectrodeKind.Internal or ElectrodeKind.Shell or ElectrodeKind.Shield or ElectrodeKind.Jumper or ElectrodeKind.Other or ElectrodeKind.BeamPlates)) pins.Add(pin);
        }
    }
}

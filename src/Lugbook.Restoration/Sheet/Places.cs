using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Sheets;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Sheet;

/// <summary>A place where a restorer measures.</summary>
internal sealed record Place(string Lug, int Node, string What, string? Valve, bool IsHeater, bool IsContact, SheetReading? Chart);

/// <summary>Where a sheet has lines: every used pin of every valve, then the supply.</summary>
internal static class Places
{
    public static ImmutableArray<Place> Of(NetlistResult netlist)
    {
        var map = netlist.Map;
        var chart = map.Book.SheetReadings.DistinctBy(r => r.Name, StringComparer.OrdinalIgnoreCase).ToDictionary(r => r.Name, StringComparer.OrdinalIgnoreCase);
        var places = ImmutableArray.CreateBuilder<Place>();
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var valve in map.Book.Parts.Where(p => p.Kind == PartKind.Valve))
        {
            var pins = map.Nodes.SelectMany(n => n.Pins.Select(p => (Node: n, Pin: p))).Where(x => x.Pin.Valve.Name == valve.Name)
                .OrderBy(x => x.Pin.Pin ?? int.MaxValue).ThenBy(x => x.Pin.Lug, StringComparer.Ordinal);
            foreach (var (node, pin) in pins)
            {
                if (pin.Electrodes.All(e => e.Kind is ElectrodeKind.NoConnection or ElectrodeKind.Internal or ElectrodeKind.Jumper) && !chart.ContainsKey(pin.Lug)) continue;
                if (!seen.Add(pin.Lug)) continue;
                places.Add(new(pin.Lug, node.Index, Words(pin), valve.Name, pin.Has(ElectrodeKind.Heater) || pin.Has(ElectrodeKind.HeaterTap), pin.Has(ElectrodeKind.ControlGrid) || pin.Has(ElectrodeKind.DiodePlate), chart.GetValueOrDefault(pin.Lug)));
            }
        }
        foreach (var reading in map.Book.SheetReadings)
            if (map.NodeOf(reading.Name) is { } node && seen.Add(reading.Name)) places.Add(new(reading.Name, node.Index, $"{reading.Valve}, pin {reading.Pin}", reading.Valve, reading.IsAc, false, reading));
        var pinned = places.Select(p => p.Node).ToHashSet();
        foreach (var (node, what) in Supply(map))
            if (pinned.Add(node.Index)) places.Add(new(node.Lugs.FirstOrDefault() ?? node.Name, node.Index, what, null, false, false, null));
        return places.ToImmutable();
    }

    // A supply node is where the + of a large electrolytic stands.
    private static IEnumerable<(Node Node, string What)> Supply(MapResult map)
    {
        foreach (var part in map.Book.Parts.Where(p => p.Kind == PartKind.Electrolytic && p.RatedVolts is null or >= 100))
            if (map.NodeOf(part.PlusLug) is { } node && node.Index != map.Common.Node?.Index)
                yield return (node, string.Create(CultureInfo.InvariantCulture, $"supply at the + of {part.Name}"));
    }

    private static string Words(ValvePin pin)
    {
        var used = pin.Electrodes.Where(e => e.Kind is not (ElectrodeKind.Shell or ElectrodeKind.Shield or ElectrodeKind.BeamPlates)).ToArray();
        var words = (used.Length > 0 ? used : [.. pin.Electrodes]).Select(e => e.Section.Length > 0 ? $"{e.InWords} {e.Section switch { "t" => "of the triode", "h" => "of the heptode", var x => x.TrimStart('t') }}" : e.InWords).Distinct();
        return string.Join(", ", words);
    }
}

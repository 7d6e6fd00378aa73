using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;

namespace Lugbook.Output;

/// <summary>The JSON shape of a map.</summary>
internal static class MapShape
{
    public static object Of(MapResult map) => new
    {
        Book = map.Book.Name,
        map.Book.Facts.Title,
        Counts = new
        {
            Mounts = map.Book.Mounts.Count, Lugs = map.Book.Lugs.Count, Wires = map.Book.Wires.Count,
            Parts = map.Book.Parts.Count, Valves = map.Book.Parts.Count(p => p.Kind == PartKind.Valve), Nodes = map.Nodes.Length,
        },
        Chassis = Of(map.Chassis),
        Common = Of(map.Common),
        Earth = Of(map.Earth),
        LineNodes = map.LineNodes.Select(n => n.Name),
        Contradictions = map.Contradictions.Select(c => new { c.Rule, c.Weight, c.Place, c.Sentence, c.Remedy }),
        Nodes = map.Nodes.Select(n => new
        {
            n.Name,
            n.Lugs,
            Leads = n.Leads.Select(l => new { Part = l.Part.Name, Lead = l.Letter.ToString(), l.Lug }),
            Pins = n.Pins.Select(p => new { Valve = p.Valve.Name, p.Lug, p.Pin, p.Electrode }),
        }),
    };

    private static object Of(FoundNode found) => new { Node = found.Node?.Name, found.Evidence };
}

using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Map;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;

namespace Lugbook.Drawing;

/// <summary>What stands out: lugs, parts, wires and mounts by name.</summary>
internal sealed class Highlight
{
    private static readonly StringComparer Names = StringComparer.OrdinalIgnoreCase;
    public HashSet<string> Lugs { get; } = new(Names);
    public HashSet<string> Parts { get; } = new(Names);
    public HashSet<string> Wires { get; } = new(Names);
    public HashSet<string> Mounts { get; } = new(Names);
    public bool Any => Lugs.Count + Parts.Count + Wires.Count + Mounts.Count > 0;

    public static Highlight Of(Book book, MapResult? map, Places places, DrawingOptions options)
    {
        var h = new Highlight();
        if (options.Lug is { } lug && places.Find(lug) is { } found) h.Lugs.Add(found.Name);
        if (options.Part is { } part)
            foreach (var p in book.Parts.Where(p => Names.Equals(p.Name, part)))
            {
                h.Parts.Add(p.Name);
                foreach (var lead in p.Leads) h.Lugs.Add(lead.Lug);
            }
        if (options.Node is { } node)
        {
            var joined = Joined(map, node);
            if (joined is null && places.Find(node) is { } alone) joined = [alone.Name];
            if (joined is not null) h.AddNode(book, joined);
        }
        if (options.Stage is { } stage) h.AddStage(book, map, places, stage);
        return h;
    }

    private static List<string>? Joined(MapResult? map, string name)
    {
        if (map is null) return null;
        var node = map.NodeOf(name) ?? map.Nodes.FirstOrDefault(n => Names.Equals(n.Name, name));
        return node is null ? null : [.. node.Lugs];
    }

    private void AddNode(Book book, List<string> lugs)
    {
        Lugs.UnionWith(lugs);
        var set = new HashSet<string>(lugs, Names);
        foreach (var wire in book.Wires) if (set.Contains(wire.From) && set.Contains(wire.To)) Wires.Add(wire.Name);
        foreach (var p in book.Parts) if (p.Leads.Any(l => set.Contains(l.Lug))) Parts.Add(p.Name);
    }

    /// <summary>A valve and all around it: what hangs on its pins, or on what its pins are joined to, save on nodes that half the set shares.</summary>
    private void AddStage(Book book, MapResult? map, Places places, string stage)
    {
        var mount = places.Mounts.FirstOrDefault(m => Names.Equals(m.Name, stage));
        if (mount is null) return;
        Mounts.Add(mount.Name);
        var lugs = new HashSet<string>(mount.Lugs.Select(l => l.Name), Names);
        foreach (var pin in mount.Lugs)
            // Chassis, B- and supply rails are joined to far too much to belong to one stage; the pin itself still counts.
            if (map?.NodeOf(pin.Name) is { Leads.Length: <= 8 } node) lugs.UnionWith(node.Lugs);
        foreach (var p in book.Parts)
            if (Names.Equals(p.Name, stage) || p.Leads.Any(l => lugs.Contains(l.Lug)))
            {
                Parts.Add(p.Name);
                foreach (var lead in p.Leads) Lugs.Add(lead.Lug);
            }
        Lugs.UnionWith(lugs);
        foreach (Wire wire in book.Wires) if (lugs.Contains(wire.From) || lugs.Contains(wire.To)) Wires.Add(wire.Name);
    }
}

using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>Which heaters can carry current: those that lie on a loop with a source, the line or a transformer's winding.</summary>
/// <remarks>
/// Graph of everything of low resistance (heaters, windings, contacts, lamps, resistors up to 3.3 kΩ). Two edges lie on a common loop exactly when they
/// are in one biconnected component (Hopcroft and Tarjan, 1973); a heater is fed when its component holds a source edge.
/// </remarks>
internal sealed class HeaterLoops
{
    private const double LowOhms = 3300;

    private readonly List<(int A, int B, int Valve, bool Source, int Outlet)> _edges = [];
    private readonly List<int>[] _at;
    private readonly HashSet<int> _fed = [];
    private readonly HashSet<int> _uncertain = [];

    public HeaterLoops(RuleContext c)
    {
        var chart = c.Chart;
        var bodies = c.Book.Parts.Where(p => p.Kind == PartKind.Winding && p.Group is not null).CountBy(p => p.Group!, StringComparer.OrdinalIgnoreCase)
            .Where(b => b.Value > 1).Select(b => b.Key).ToHashSet(StringComparer.OrdinalIgnoreCase);
        foreach (var part in c.Book.Parts.Where(IsLow))
        {
            var nodes = part.Leads.Select(l => chart.NodeOf(l.Lug)).OfType<int>().ToArray();
            for (var i = 0; i + 1 < nodes.Length; i++)
                if (nodes[i] != nodes[i + 1])
                    _edges.Add((nodes[i], nodes[i + 1], -1, part.Kind == PartKind.Winding && part.Group is not null && bodies.Contains(part.Group), -1));
        }
        for (var v = 0; v < chart.Valves.Length; v++)
        {
            var pins = Ends(c, chart.Valves[v]);
            for (var i = 0; i + 1 < pins.Length; i++)
                if (pins[i] != pins[i + 1]) _edges.Add((pins[i], pins[i + 1], v, false, -1));
        }
        // The wall closes the loop between the blades; what leaves the book may close others.
        var blades = c.Map.LineWays.Where(w => w.Path == LinePath.Blade).Select(w => w.Node.Index).ToArray();
        for (var i = 1; i < blades.Length; i++) _edges.Add((blades[0], blades[i], -1, true, -1));
        HasSource = _edges.Any(e => e.Source);
        var outlets = Enumerable.Range(0, chart.Count).Where(n => !c.Ground.Contains(n) && c.LeavesTheBook(n) && !blades.Contains(n)).ToArray();
        foreach (var node in outlets)
            if (c.Common is { } common && common != node) _edges.Add((node, common, -1, false, 1));

        _at = [.. Enumerable.Range(0, chart.Count).Select(_ => new List<int>())];
        for (var e = 0; e < _edges.Count; e++)
        {
            _at[_edges[e].A].Add(e);
            _at[_edges[e].B].Add(e);
        }
        Components();
    }

    /// <summary>Is there any source in the book? Without one nothing is said.</summary>
    public bool HasSource { get; }

    /// <summary>Can the heater of this valve carry current? Null when its loop leaves the book.</summary>
    public bool? IsFed(int valve) => _fed.Contains(valve) ? true : _uncertain.Contains(valve) ? null : false;

    /// <summary>Heater nodes of a valve in the order of the current: end, tap, end.</summary>
    public static int[] Ends(RuleContext c, PluggedValve valve)
    {
        var ends = valve.With(ElectrodeKind.Heater, ElectrodeKind.Filament).Select(c.Node).ToList();
        var taps = valve.With(ElectrodeKind.HeaterTap).Select(c.Node).ToArray();
        if (taps.Length > 0 && ends.Count >= 2) ends.InsertRange(1, taps);
        return [.. ends];
    }

    private static bool IsLow(Part part) => part.Kind switch
    {
        PartKind.Resistor or PartKind.Control => part.Value is null or <= LowOhms,
        PartKind.SubUnit => part.Unit == Trade.Quantities.Unit.Ohm && part.Value is null or <= LowOhms,
        PartKind.Winding or PartKind.Lamp or PartKind.Fuse or PartKind.Switch or PartKind.Thermistor => true,
        _ => false,
    };

    /// <summary>Biconnected components by depth-first search without recursion; each is judged as it closes.</summary>
    private void Components()
    {
        var depth = new int[_at.Length];
        var low = new int[_at.Length];
        var open = new Stack<int>();
        var walk = new Stack<(int Node, int By, int Next)>();
        for (var root = 0; root < _at.Length; root++)
        {
            if (depth[root] > 0) continue;
            depth[root] = low[root] = 1;
            walk.Push((root, -1, 0));
            while (walk.TryPop(out var step))
            {
                var (node, by, next) = step;
                if (next < _at[node].Count)
                {
                    walk.Push((node, by, next + 1));
                    var e = _at[node][next];
                    if (e == by) continue;
                    var far = _edges[e].A == node ? _edges[e].B : _edges[e].A;
                    if (depth[far] == 0)
                    {
                        open.Push(e);
                        depth[far] = low[far] = depth[node] + 1;
                        walk.Push((far, e, 0));
                    }
                    else if (depth[far] < depth[node])
                    {
                        open.Push(e);
                        low[node] = Math.Min(low[node], depth[far]);
                    }
                    continue;
                }
                if (by < 0) continue;
                var parent = walk.Peek().Node;
                low[parent] = Math.Min(low[parent], low[node]);
                if (low[node] >= depth[parent]) Close(open, by);
            }
        }
    }

    private void Close(Stack<int> open, int last)
    {
        var members = new List<int>();
        int e;
        do members.Add(e = open.Pop()); while (e != last);
        if (members.Count < 2) return;
        var valves = members.Select(m => _edges[m].Valve).Where(v => v >= 0);
        if (members.Any(m => _edges[m].Source)) _fed.UnionWith(valves);
        else if (members.Any(m => _edges[m].Outlet > 0)) _uncertain.UnionWith(valves);
    }
}

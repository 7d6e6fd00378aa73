using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Choose;

/// <summary>What is joined to the line, what only hangs on it through the set's own resistances, and what a hand can touch.</summary>
/// <remarks>
/// "On the line": the blades, and what heaters and low resistances (windings that do not isolate, fuses, resistors up to 3.3 kΩ, sealed
/// units) join to them, never through a rectifier. "Live": everything with any DC path to the line that does not lead through what a hand touches; a current through a hand
/// needs no low resistance. Both err towards a safety class: an ordinary capacitor in such a place is the error that may not happen.
/// </remarks>
internal sealed partial class LineView
{
    private const double LowOhms = 3300;      // as the map counts what leads on
    private readonly CircuitView _view;
    private readonly HashSet<int> _known;
    private readonly HashSet<int> _entered;
    private readonly HashSet<int> _line;
    private readonly HashSet<int> _live;
    private readonly HashSet<int> _touchable;
    private readonly HashSet<int> _perhapsTouchable;
    private readonly Dictionary<int, int> _anchor = [];

    public LineView(CircuitView view)
    {
        _view = view;
        Known = !view.Map.LineNodes.IsEmpty;
        var heaters = HeaterNodes();
        var ways = view.Map.LineWays;
        // From the blades on everything is followed anew: the map also counts a chassis that only some ten thousand ohm join to the line,
        // and that one is still to be kept from it, by Y and not by X.
        _known = [.. ways.Any(w => w.Path == LinePath.Blade) ? ways.Where(w => w.Path == LinePath.Blade).Select(w => w.Node.Index) : view.Map.LineNodes.Select(n => n.Index)];
        _entered = [.. ways.IsEmpty ? _known : ways.Where(w => w.Path != LinePath.Rectifier).Select(w => w.Node.Index)];
        _line = Spread(_known, IsLow, heaters, []);
        // What a coil or a low resistance joins to chassis or aerial is as much within reach as they are. What is wired to the line is
        // left out: no capacitor can protect it.
        _touchable = Spread(new[] { Chassis(), Lugs(IsTouched) }.SelectMany(n => n).Where(n => !_line.Contains(n)), IsLow, [], _line);
        _live = Known ? Spread(_line, p => !p.Kind.IsCapacitor(), ValveNodes(), _touchable) : [];
        _perhapsTouchable = [.. Lugs(MayLeaveTheSet).Where(n => !_live.Contains(n))];
        if (Known) FindAnchors(LowNeighbours(heaters), heaters);
    }

    /// <summary>Does the map show anything joined to the line?</summary>
    public bool Known { get; }
    /// <summary>Is chassis or common joined to the line?</summary>
    public bool HasNoTransformer => IsJoined(_view.Map.Chassis.Node) || IsJoined(_view.Map.Common.Node);
    public bool IsOnLine(int node) => _line.Contains(node);
    /// <summary>Is it among the map's own line nodes, before any rectifier?</summary>
    public bool IsEnteredOnLine(int node) => _entered.Contains(node);
    public bool IsLive(int node) => _live.Contains(node);
    public bool IsTouchable(int node) => _touchable.Contains(node) || _perhapsTouchable.Contains(node);

    /// <summary>Can line voltage, or a part of it, stand between the two? Not when both hang from one point of the line, as a coil does.</summary>
    public bool IsAcrossLine(int a, int b) => a != b && _line.Contains(a) && _line.Contains(b) && _anchor[a] != _anchor[b];

    /// <summary>One end on the live side, the other where a hand reaches?</summary>
    public bool IsLineToTouchable(int a, int b) => Known && (Bridges(a, b) || Bridges(b, a));

    // Behind a terminal that a hand reaches, a tag of the aerial circuit is taken for live even when the book does not show how.
    private bool Bridges(int inside, int outside) => _live.Contains(inside) && IsTouchable(outside)
        || HasNoTransformer && _perhapsTouchable.Contains(inside) && _touchable.Contains(outside) && !IsChassis(outside);

    private bool IsJoined(Node? node) => node is not null && _line.Contains(node.Index);

    private bool IsChassis(int node) => node == _view.Map.Chassis.Node?.Index || node == _view.Map.Earth.Node?.Index;

    private static bool IsLow(Part part) => part.Kind switch
    {
        PartKind.Winding or PartKind.Fuse or PartKind.Switch or PartKind.Lamp or PartKind.Thermistor => true,
        PartKind.Resistor or PartKind.Control => part.Value is null or <= LowOhms,
        PartKind.SubUnit => part.Unit == Trade.Quantities.Unit.Ohm && part.Value <= LowOhms,
        _ => false,
    };

    private HashSet<int> Spread(IEnumerable<int> from, Func<Part, bool> through, List<ImmutableArray<int>> joined, HashSet<int> never)
    {
        var reached = new HashSet<int>(from);
        var queue = new Queue<int>(reached);
        void Reach(int node) { if (!never.Contains(node) && reached.Add(node)) queue.Enqueue(node); }
        while (queue.TryDequeue(out var node))
        {
            foreach (var branch in _view.At(node))
                if (through(branch.Part)) Reach(branch.To);
            foreach (var group in joined)
                if (group.Contains(node))
                    foreach (var other in group) Reach(other);
        }
        return reached;
    }

    private List<ImmutableArray<int>> HeaterNodes() => [.. _view.Pins.Where(p => p.IsHeater)
        .GroupBy(p => p.Valve, StringComparer.OrdinalIgnoreCase).Select(Nodes)];

    // A valve conducts between all its electrodes but the heater. Of a socket whose pins are not known every lug counts.
    private List<ImmutableArray<int>> ValveNodes()
    {
        var groups = _view.Pins.Where(p => !p.IsHeater || p.Kind == ElectrodeKind.Filament).GroupBy(p => p.Valve, StringComparer.OrdinalIgnoreCase).Select(Nodes).ToList();
        groups.AddRange(HeaterNodes());
        var known = _view.Pins.Select(p => p.Valve).ToHashSet(StringComparer.OrdinalIgnoreCase);
        foreach (var socket in _view.Map.Book.Mounts.Where(m => m.Kind.IsSocket() && !known.Contains(m.Name)))
            groups.Add([.. _view.Map.Book.Lugs.Where(l => string.Equals(l.Mount, socket.Name, StringComparison.OrdinalIgnoreCase))
                .Select(l => _view.NodeOf(l.Name)).OfType<int>().Distinct()]);
        return groups;
    }

    private ImmutableArray<int> Nodes(IEnumerable<ElectrodePin> pins) => [.. pins.Select(p => _view.NodeOf(p.Lug)).OfType<int>().Distinct()];

    private IEnumerable<int> Chassis() => new[] { _view.Map.Chassis.Node?.Index, _view.Map.Earth.Node?.Index }.OfType<int>();

    private IEnumerable<int> Lugs(Func<Lug, Mount?, bool> chosen) => _view.Map.Book.Lugs
        .Where(l => chosen(l, _view.Map.Book.Mounts.Named(l.Mount))).Select(l => _view.NodeOf(l.Name)).OfType<int>();

    private static bool IsTouched(Lug lug, Mount? mount) =>
        mount?.Kind is MountKind.ScrewStrip or MountKind.Jack or MountKind.EarthLug
        || Touch().IsMatch($"{lug.Function} {lug.Note}")
        || mount?.Kind == MountKind.Other && Outside().IsMatch($"{lug.Function} {lug.Note} {mount.KindAsWritten} {mount.Note} {lug.Mount}");

    // An aerial lead may leave from any tag; inside cans, sockets, coils and sealed units the word means the circuit.
    private static bool MayLeaveTheSet(Lug lug, Mount? mount) =>
        mount?.Kind is MountKind.TagStrip or MountKind.LoopPanel or null && Outside().IsMatch($"{lug.Function} {lug.Note}");

    /// <summary>
    /// Finds for each node on the line from which point of the path between the blades it hangs: itself when it lies on that path.
    /// A node lies on it when no single other node cuts it off from the blades; a heater node always counts as lying on it.
    /// </summary>
    private void FindAnchors(Dictionary<int, int[]> neighbours, List<ImmutableArray<int>> heaters)
    {
        var blades = _known;
        var onPath = new HashSet<int>(blades);
        if (blades.Count >= 2) onPath.UnionWith(_line.Where(v => !blades.Contains(v) && _line.All(cut => cut == v || ReachesBlade(v, cut, blades, neighbours))));
        else onPath.UnionWith(_entered);      // blades not entered: take every line node for what it may be
        onPath.UnionWith(heaters.SelectMany(h => h).Where(_line.Contains));

        foreach (var node in _line)
        {
            if (onPath.Contains(node)) { _anchor[node] = node; continue; }
            var edge = new HashSet<int>();
            var seen = new HashSet<int> { node };
            var queue = new Queue<int>(seen);
            while (queue.TryDequeue(out var here))
                foreach (var next in neighbours[here])
                    if (onPath.Contains(next)) edge.Add(next);
                    else if (seen.Add(next)) queue.Enqueue(next);
            _anchor[node] = edge.Count == 1 ? edge.First() : node;
        }
    }

    private static bool ReachesBlade(int from, int cut, HashSet<int> blades, Dictionary<int, int[]> neighbours)
    {
        var seen = new HashSet<int> { from, cut };
        var queue = new Queue<int>([from]);
        while (queue.TryDequeue(out var here))
            foreach (var next in neighbours[here])
            {
                if (!seen.Add(next)) continue;
                if (blades.Contains(next)) return true;
                queue.Enqueue(next);
            }
        return false;
    }

    private Dictionary<int, int[]> LowNeighbours(List<ImmutableArray<int>> heaters) => _line.ToDictionary(n => n, n =>
        _view.At(n).Where(b => IsLow(b.Part)).Select(b => b.To).Concat(heaters.Where(h => h.Contains(n)).SelectMany(h => h))
            .Where(to => to != n && _line.Contains(to)).Distinct().ToArray());

    [GeneratedRegex(@"\b(touch(es|ed|able)?|shaft|exposed)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Touch();

    [GeneratedRegex(@"\b(aerial|antenna|earth|ground|terminals?|binding posts?|pick-?up|phono\w*|head-?phones?|ear-?phones?)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Outside();
}

using System.Collections.Immutable;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Choose;

/// <summary>Valve sections that make a sawtooth or pulses by themselves: two that drive each other through capacitors, or one whose transformer drives its own grid.</summary>
/// <remarks>What sets their frequency must keep its value. A tuned coil in the loop makes a sine wave: that is another matter, and not found here.</remarks>
internal sealed class PulseGenerators
{
    private const int Steps = 4;
    private const int Reach = 5;
    private readonly Lazy<Dictionary<int, string>> _near;
    private readonly CircuitView _view;
    private readonly Dictionary<int, string> _grids = [];
    private readonly Dictionary<int, string> _plates = [];
    private readonly HashSet<string> _valves = new(StringComparer.OrdinalIgnoreCase);

    private sealed record Section(string Valve, string Name, ImmutableArray<int> Plates, ImmutableArray<int> Grids, ImmutableArray<int> Cathodes)
    {
        public string Words => Name.Length == 0 ? Valve : $"{Valve} section {Name}";
    }

    public PulseGenerators(CircuitView view)
    {
        _view = view;
        _near = new(FindNear);
        var sections = view.Pins.Where(p => !p.IsHeater && !view.IsRectifierValve(p.Valve)).GroupBy(p => (p.Valve, p.Section))
            .Select(g => new Section(g.Key.Valve, g.Key.Section, Nodes(g, ElectrodeKind.Plate), Nodes(g, ElectrodeKind.ControlGrid), Nodes(g.Concat(Shared(g.Key.Valve)), ElectrodeKind.Cathode)))
            .Where(s => s.Plates.Length > 0 && s.Grids.Length > 0).ToArray();
        var drives = sections.ToDictionary(s => s, s => sections.Where(t => t.Grids.Any(g => Driven(s).Contains(g))).ToHashSet());
        foreach (var s in sections)
        {
            foreach (var t in drives[s])
            {
                if (s == t) continue;
                var shared = s.Cathodes.Intersect(t.Cathodes).Any(k => !view.IsEarthy(k) && !view.At(k).Any(b => b.Part.Kind.IsFixedCapacitor() && b.Part.Value >= 1e-6 && view.IsEarthy(b.To)));
                // A phase splitter shares a cathode too, but its first plate drives an output valve besides.
                if (!drives[t].Contains(s) && !(shared && drives[s].Count == 1)) continue;
                Add(s, $"{s.Words} and {t.Words} drive each other");
                Add(t, $"{s.Words} and {t.Words} drive each other");
            }
            if (OwnTransformer(s) is { } transformer) Add(s, $"{transformer} drives {s.Words} from its own plate");
        }
    }

    /// <summary>The generator that has a grid on this node, in words; null when there is none.</summary>
    public string? OnGrid(int node) => _grids.GetValueOrDefault(node);

    /// <summary>The generator that has a plate on this node, in words.</summary>
    public string? OnPlate(int node) => _plates.GetValueOrDefault(node);

    /// <summary>Is the valve, or a section of it, part of a generator?</summary>
    public bool Drives(string valve) => _valves.Contains(valve);

    private void Add(Section section, string words)
    {
        _valves.Add(section.Valve);
        foreach (var g in section.Grids) _grids.TryAdd(g, words);
        foreach (var p in section.Plates) _plates.TryAdd(p, words);
    }

    private IEnumerable<ElectrodePin> Shared(string valve) => _view.Pins.Where(p => p.Valve == valve && p.Section.Length == 0);

    private ImmutableArray<int> Nodes(IEnumerable<ElectrodePin> pins, ElectrodeKind kind) =>
        [.. pins.Where(p => p.Kind == kind).Select(p => _view.NodeOf(p.Lug)).OfType<int>().Distinct().Where(n => !_view.IsEarthy(n))];

    /// <summary>Nodes that the plates' signal reaches through resistors and at least one capacitor.</summary>
    private HashSet<int> Driven(Section section)
    {
        var reached = new HashSet<int>();
        foreach (var plate in section.Plates)
        {
            var seen = new HashSet<(int Node, bool Blocked)> { (plate, false) };
            var queue = new Queue<(int Node, bool Blocked, int Steps)>([(plate, false, 0)]);
            while (queue.TryDequeue(out var here))
            {
                if (here.Blocked) reached.Add(here.Node);
                if (here.Steps == Steps || here.Node != plate && Stops(here.Node)) continue;
                foreach (var b in _view.At(here.Node))
                {
                    var capacitor = b.Part.Kind.IsFixedCapacitor();
                    var passes = capacitor || b.Part.Kind is PartKind.Resistor or PartKind.Control && b.Part.Value is null or <= 1e6 || here.Node == plate && b.Part.Kind == PartKind.Winding;
                    if (!passes || _view.IsEarthy(b.To) || _view.Supply.Contains(b.To)) continue;
                    var next = (b.To, here.Blocked || capacitor);
                    if (seen.Add(next)) queue.Enqueue((next.Item1, next.Item2, here.Steps + 1));
                }
            }
        }
        return reached;
    }

    // The next electrode is where a signal arrives; what lies behind it belongs to that stage.
    private bool Stops(int node) => _view.PinsAt(node).Any(p => p.Kind is ElectrodeKind.Plate or ElectrodeKind.ControlGrid or ElectrodeKind.Cathode or ElectrodeKind.Screen or ElectrodeKind.DiodePlate)
        || _view.At(node).Any(b => b.Part.Kind is PartKind.CrystalDiode or PartKind.SeleniumDiode);

    /// <summary>Does another stage's grid circuit begin here, behind a coupling capacitor?</summary>
    public bool IsNextStage(int node) => _view.Reach(node, 1, p => p.Kind == PartKind.Resistor).Where(r => !_view.IsEarthy(r.Node)).Any(r => _view.PinsAt(r.Node, ElectrodeKind.ControlGrid).Any() && !_grids.ContainsKey(r.Node));

    /// <summary>The generator whose time a part on this node helps to set: reached from its grid or plate through what charges and feeds it, not through another electrode.</summary>
    public string? Sets(int node) => _near.Value.GetValueOrDefault(node);

    private Dictionary<int, string> FindNear()
    {
        var near = new Dictionary<int, string>();
        foreach (var (start, words) in _grids.Concat(_plates))
        {
            var seen = new HashSet<int> { start };
            var queue = new Queue<(int Node, int Steps)>([(start, 0)]);
            while (queue.TryDequeue(out var here))
            {
                near.TryAdd(here.Node, words);
                if (here.Steps == Reach) continue;
                foreach (var b in _view.At(here.Node))
                    if ((b.Part.Kind.IsFixedCapacitor() && !IsNextStage(b.To) || b.Part.Kind is PartKind.Resistor or PartKind.Control || b.Part.Kind == PartKind.Winding && (_grids.ContainsKey(start) || here.Node == start))
                        && !_view.IsEarthy(b.To) && !_view.Supply.Contains(b.To) && !_view.IsBoosted(b.To) && !Stops(b.To) && seen.Add(b.To)) queue.Enqueue((b.To, here.Steps + 1));
            }
        }
        return near;
    }

    private string? OwnTransformer(Section section)
    {
        foreach (var plate in section.Plates)
            foreach (var own in _view.At(plate).Where(b => b.Part.Kind == PartKind.Winding && b.Part.Group is not null && !_view.IsTunedCoil(b.Part)))
                foreach (var grid in section.Grids)
                    if (_view.Reach(grid, 2, p => p.Kind.IsFixedCapacitor() || p.Kind == PartKind.Resistor).Where(r => !_view.IsEarthy(r.Node) && !_view.Supply.Contains(r.Node))
                        .Any(r => _view.At(r.Node).Any(b => b.Part.Kind == PartKind.Winding && b.Part.Id != own.Part.Id && string.Equals(b.Part.Group, own.Part.Group, StringComparison.OrdinalIgnoreCase))))
                        return own.Part.Group;
        return null;
    }
}

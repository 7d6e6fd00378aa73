using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Map.Rules;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Choose;

/// <summary>A part between two nodes, seen from the first.</summary>
internal readonly record struct Branch(Part Part, int From, int To);

/// <summary>Where a power rectifier delivers its plus.</summary>
internal sealed record RectifierOutput(string Name, string? Type, bool IsValve);

/// <summary>The map, seen as a circuit: neighbours, electrodes, common, supply.</summary>
internal sealed partial class CircuitView
{
    private readonly ImmutableArray<Branch>[] _branches;
    private readonly ILookup<int, ElectrodePin> _pins;
    private readonly Lazy<double?> _windingPeakVolts;
    private readonly Lazy<NegativeSide> _negative;
    private readonly ImmutableArray<IGrouping<string, ElectrodePin>> _regulators;

    public CircuitView(MapResult map, ImmutableArray<RectifierLimit> limits)
    {
        Map = map;
        _windingPeakVolts = new(FindWindingPeak);
        _branches = Branches(map);
        // A gas regulator amplifies nothing: its electrodes are those of a voltage, not of a stage.
        var valves = ElectrodePin.All(map).GroupBy(p => p.Valve, StringComparer.OrdinalIgnoreCase).ToLookup(v => IsRegulator([.. v]));
        _regulators = [.. valves[true]];
        Pins = [.. valves[false].SelectMany(v => v)];
        _pins = Pins.ToLookup(p => NodeOf(p.Lug) ?? -1);
        Rectifiers = FindRectifiers(limits);
        Supply = FindSupply();
        _negative = new(() => new(this));
        SupplyVolts = map.Book.Parts.Where(p => IsSupplyCapacitor(p) && p.RatedVolts >= 100).Max(p => p.RatedVolts);
    }

    public MapResult Map { get; }
    public ImmutableArray<ElectrodePin> Pins { get; }
    /// <summary>Nodes of rectifier outputs.</summary>
    public IReadOnlyDictionary<int, RectifierOutput> Rectifiers { get; }
    /// <summary>Nodes that carry supply: rectifier outputs, and what follows them with a reservoir or filter of its own.</summary>
    public IReadOnlySet<int> Supply { get; } = new HashSet<int>();
    /// <summary>Highest rating among the supply's capacitors, V: the maker's own idea of the highest voltage there; null when not known.</summary>
    public double? SupplyVolts { get; }

    /// <summary>What lies below common on purpose.</summary>
    public NegativeSide Negative => _negative.Value;

    /// <summary>Peak of the highest winding that feeds a plate of a rectifier, V: 1.414 times its marked volts; null when no such marking is entered.</summary>
    public double? WindingPeakVolts => _windingPeakVolts.Value;

    /// <summary>Does every rectifier charge on both half waves: plates of one valve, or dry rectifiers to one plus, on different nodes? False too when there is none.</summary>
    public bool IsFullWave => Rectifiers.Count > 0 && Rectifiers.Keys.All(output =>
        Pins.Where(p => IsRectifierValve(p.Valve) && p.Kind is ElectrodeKind.Plate or ElectrodeKind.DiodePlate && Rectifiers[output] is { IsValve: true } r && r.Name == p.Valve).Select(p => NodeOf(p.Lug)).OfType<int>()
            .Concat(Map.Book.Parts.Where(p => p.Kind is PartKind.SeleniumRectifier or PartKind.SiliconRectifier && NodeOf(p.PlusLug) == output).Select(p => NodeOf(p.MinusLug)).OfType<int>()).Distinct().Count() >= 2);

    private double? FindWindingPeak()
    {
        var plates = Pins.Where(p => p.Kind is ElectrodeKind.Plate or ElectrodeKind.DiodePlate && IsRectifierValve(p.Valve)).Select(p => NodeOf(p.Lug))
            .Concat(Map.Book.Parts.Where(p => p.Kind is PartKind.SeleniumRectifier or PartKind.SiliconRectifier).Select(p => NodeOf(p.MinusLug)));
        return plates.OfType<int>().Distinct().SelectMany(n => At(n)).Where(b => b.Part.Kind == PartKind.Winding)
            .Select(b => WindingVolts.Of(b.Part)).OfType<double>().Where(v => v >= 50).Select(v => (double?)(Math.Sqrt(2) * v)).Max();
    }

    public int? NodeOf(string? lug) => lug is not null && Map.NodeByLug.TryGetValue(lug, out var index) ? index : null;
    public IEnumerable<ElectrodePin> PinsAt(int node) => _pins[node];
    public IEnumerable<ElectrodePin> PinsAt(int node, ElectrodeKind kind) => _pins[node].Where(p => p.Kind == kind && !IsRectifierValve(p.Valve));
    public ImmutableArray<Branch> At(int node) => _branches[node];
    public bool IsEarthy(int node) => node == Map.Common.Node?.Index || node == Map.Chassis.Node?.Index;
    public string Name(int node) => Map.Nodes[node].Name;

    /// <summary>A screen with one resistor to it and nothing else that feeds: the screen's own node, however large its capacitor.</summary>
    public bool IsFedScreen(int node) => PinsAt(node, ElectrodeKind.Screen).Any()
        && At(node).Count(b => b.Part.Kind is PartKind.Resistor or PartKind.Winding && !IsEarthy(b.To)) == 1
        && At(node).Any(b => b.Part.Kind == PartKind.Resistor && !IsEarthy(b.To));

    /// <summary>Reached from a node within so many steps through parts of some kinds, not beyond common or supply; nearest first, with the parts on the way.</summary>
    public IEnumerable<(int Node, ImmutableArray<string> Through)> Reach(int start, int steps, Func<Part, bool> through)
    {
        var seen = new HashSet<int> { start };
        var queue = new Queue<(int Node, ImmutableArray<string> Through)>([(start, [])]);
        while (queue.TryDequeue(out var here))
        {
            yield return here;
            if (here.Through.Length == steps || (here.Node != start && (IsEarthy(here.Node) || Supply.Contains(here.Node)))) continue;
            foreach (var branch in At(here.Node))
                if (through(branch.Part) && seen.Add(branch.To)) queue.Enqueue((branch.To, here.Through.Add(branch.Part.Name)));
        }
    }

    /// <summary>Two leads on two known, different nodes?</summary>
    public (int A, int B)? Ends(Part part) => NodeOf(part.LeadA) is { } a && NodeOf(part.LeadB) is { } b ? (a, b) : null;

    private static ImmutableArray<Branch>[] Branches(MapResult map)
    {
        var at = map.Nodes.Select(_ => ImmutableArray.CreateBuilder<Branch>()).ToArray();
        foreach (var part in map.Book.Parts)
        {
            var nodes = part.Leads.Select(l => map.NodeByLug.TryGetValue(l.Lug, out var n) ? n : -1).ToArray();
            for (var i = 0; i < nodes.Length; i++)
                for (var j = 0; j < nodes.Length; j++)
                    if (i != j && nodes[i] >= 0 && nodes[j] >= 0 && nodes[i] != nodes[j]) at[nodes[i]].Add(new(part, nodes[i], nodes[j]));
        }
        return [.. at.Select(b => b.ToImmutable())];
    }

    private readonly HashSet<string> _rectifierValves = new(StringComparer.OrdinalIgnoreCase);
    public bool IsRectifierValve(string valve) => _rectifierValves.Contains(valve);

    private Dictionary<int, RectifierOutput> FindRectifiers(ImmutableArray<RectifierLimit> limits)
    {
        var outputs = new Dictionary<int, RectifierOutput>();
        foreach (var valve in Pins.GroupBy(p => p.Valve, StringComparer.OrdinalIgnoreCase))
        {
            if (!IsPowerRectifier([.. valve], limits)) continue;
            _rectifierValves.Add(valve.Key);
            // A valve heated directly gives its plus from the filament.
            var plus = valve.Any(p => p.Kind == ElectrodeKind.Cathode) ? ElectrodeKind.Cathode : ElectrodeKind.Filament;
            foreach (var pin in valve.Where(p => p.Kind == plus))
                if (NodeOf(pin.Lug) is { } node) outputs.TryAdd(node, new(valve.Key, pin.Type, true));
        }
        foreach (var part in Map.Book.Parts.Where(p => p.Kind is PartKind.SeleniumRectifier or PartKind.SiliconRectifier && !DeliversMinus(p)))
            if (NodeOf(part.PlusLug) is { } node) outputs.TryAdd(node, new(part.Name, part.Marked, false));
        return outputs;
    }

    private bool IsPowerRectifier(ImmutableArray<ElectrodePin> pins, ImmutableArray<RectifierLimit> limits)
    {
        if (pins.Any(p => !p.IsHeater && p.Kind is not (ElectrodeKind.Plate or ElectrodeKind.Cathode))) return false;
        var plates = pins.Where(p => p.Kind == ElectrodeKind.Plate).ToArray();
        if (plates.Length == 0) return false;
        if (Limit(limits, pins[0].Type) is { } limit) return limit.IsPowerRectifier;
        // Not in the table: only plates and a cathode, and a plate on the line or on a winding that belongs to no stage.
        return plates.Any(p => NodeOf(p.Lug) is { } n
            && (Map.LineNodes.Any(l => l.Index == n) || At(n).Any(b => b.Part.Kind == PartKind.Winding && !IsSignalWinding(b))));
    }

    // The plate winding of a power transformer goes to common or to another plate; that of a line output transformer has a valve with grids on it.
    private bool IsSignalWinding(Branch winding) => Reach(winding.From, 4, p => p.Kind == PartKind.Winding)
        .Any(r => !IsEarthy(r.Node) && _pins[r.Node].Any(p => p.Kind is ElectrodeKind.Plate && Pins.Any(q => q.Valve == p.Valve && q.Kind is ElectrodeKind.ControlGrid)));

    /// <summary>The limit of a valve type, whatever envelope letters it carries.</summary>
    public static RectifierLimit? Limit(ImmutableArray<RectifierLimit> limits, string? type) =>
        type is null ? null
        : limits.FirstOrDefault(l => string.Equals(l.Type, type.Trim(), StringComparison.OrdinalIgnoreCase))
            ?? limits.FirstOrDefault(l => Base(l.Type) == Base(type));

    private static string Base(string type) => TypeBase().Match(type.Trim().ToUpperInvariant()) is { Success: true } m ? m.Value : type.Trim().ToUpperInvariant();

    private HashSet<int> FindSupply()
    {
        var supply = new HashSet<int>();
        var queue = new Queue<int>(Rectifiers.Keys.Where(n => !IsEarthy(n)));
        while (queue.Count > 0)
        {
            while (queue.TryDequeue(out var node))
                if (supply.Add(node))
                    foreach (var branch in At(node).Where(b => Feeds(b.Part) && !IsEarthy(b.To) && !IsFedScreen(b.To) && (HasBig(b.To) || IsRegulated(b.To))))
                        queue.Enqueue(branch.To);
            foreach (var next in PassValves(supply)) queue.Enqueue(next);
        }
        return supply;
    }

    private static bool Feeds(Part part) => part.Kind is PartKind.Winding or PartKind.Fuse or PartKind.Switch or PartKind.Thermistor || part.Kind == PartKind.Resistor && part.Value is null or <= 470e3;

    private bool HasBig(int node) => At(node).Any(b => IsBig(b.Part) && IsEarthy(b.To));

    // Held by a gas regulator, or by several in a row, whose last cathode is on common.
    private bool IsRegulated(int node) => !IsEarthy(node) && _regulators.Any(v => v.Any(p => p.Kind == ElectrodeKind.Plate && NodeOf(p.Lug) == node)
        && v.Any(p => p.Kind == ElectrodeKind.Cathode && NodeOf(p.Lug) is { } k && k != node && (IsEarthy(k) || IsRegulated(k))));

    // A valve with its plate on the supply and a large capacitor on its cathode hands the supply on: a series regulator, or an output valve that carries the rest of the set.
    private int[] PassValves(HashSet<int> supply) => [.. Pins.Where(p => p.Kind == ElectrodeKind.Cathode && !IsRectifierValve(p.Valve))
        .Where(k => NodeOf(k.Lug) is { } node && !IsEarthy(node) && !supply.Contains(node) && HasBig(node)
            && Pins.Any(p => p.Valve == k.Valve && p.Section == k.Section && p.Kind == ElectrodeKind.Plate && NodeOf(p.Lug) is { } plate && Reach(plate, 1, q => q.Kind is PartKind.Winding || q.Kind == PartKind.Resistor && q.Value <= 1e3).Any(r => supply.Contains(r.Node))))
        .Select(k => NodeOf(k.Lug)!.Value).Distinct()];

    // Plate and cathode without a heater, and no winding or line to rectify: a glow between two electrodes.
    private bool IsRegulator(ImmutableArray<ElectrodePin> pins) =>
        pins.All(p => p.Kind is ElectrodeKind.Plate or ElectrodeKind.Cathode) && pins.DistinctBy(p => p.Kind).Count() == 2
        && pins.Select(p => NodeOf(p.Lug)).OfType<int>().All(n => !At(n).Any(b => b.Part.Kind == PartKind.Winding && !IsEarthy(n)) && Map.LineNodes.All(l => l.Index != n));

    /// <summary>Is a plate of a power rectifier on this node, or the minus of a dry one?</summary>
    public bool FeedsRectifier(int node) => Pins.Any(p => IsRectifierValve(p.Valve) && p.Kind is ElectrodeKind.Plate or ElectrodeKind.DiodePlate && IsRectifierValve(p.Valve) && NodeOf(p.Lug) == node)
        || At(node).Any(x => x.Part.Kind is PartKind.SeleniumRectifier or PartKind.SiliconRectifier && !DeliversMinus(x.Part) && NodeOf(x.Part.MinusLug) == node);

    /// <summary>A dry rectifier with its plus on a winding that goes to common, and its minus on none: what it charges lies below common.</summary>
    public bool DeliversMinus(Part part) => part.Kind is PartKind.SeleniumRectifier or PartKind.SiliconRectifier && NodeOf(part.PlusLug) is { } plus && NodeOf(part.MinusLug) is { } minus
        && !IsEarthy(plus) && !IsEarthy(minus) && At(plus).Any(x => x.Part.Kind == PartKind.Winding && IsEarthy(x.To)) && !At(minus).Any(x => x.Part.Kind == PartKind.Winding)
        && !At(plus).Any(x => IsBig(x.Part) && IsEarthy(x.To));

    /// <summary>The plate of a cathode follower on its way to the supply: the least resistance in its cathode is at least three times that in its plate, and no winding is there.</summary>
    public bool IsFollowerPlate(int node)
    {
        foreach (var plate in PinsAt(node, ElectrodeKind.Plate))
            foreach (var cathode in Pins.Where(p => p.Kind == ElectrodeKind.Cathode && p.Valve == plate.Valve && p.Section == plate.Section))
                if (NodeOf(cathode.Lug) is { } k && !IsEarthy(k) && At(node).Where(b => b.Part.Kind == PartKind.Resistor && Supply.Contains(b.To)).Select(b => b.Part.Value).FirstOrDefault() is { } feed
                    && At(k).Where(b => b.Part.Kind is PartKind.Resistor or PartKind.Control && !Supply.Contains(b.To)).Select(b => b.Part.Value).Min() >= 3 * feed && !At(node).Any(b => b.Part.Kind == PartKind.Winding)) return true;
        return false;
    }

    /// <summary>A coil sits on a form, in a can or on the loop; a transformer or a yoke does not.</summary>
    public bool IsTunedCoil(Part winding) => Map.Book.Mounts.Named(winding.Group)?.Kind is MountKind.IfCan or MountKind.CoilForm or MountKind.TuningGang or MountKind.LoopPanel
        || winding.Leads.Any(l => MountOf(l.Lug) is MountKind.IfCan or MountKind.CoilForm or MountKind.LoopPanel);

    public MountKind? MountOf(string lug) => Map.Book.Lugs.Named(lug) is { } l ? Map.Book.Mounts.Named(l.Mount)?.Kind : null;

    /// <summary>Does the node carry the boosted supply of a line output stage: a large capacitor and the line output transformer?</summary>
    public bool IsBoosted(int node) => !IsEarthy(node) && !Supply.Contains(node) && Map.Nodes[node].Lugs.Any(l => MountOf(l) == MountKind.Flyback)
        && At(node).Any(b => b.Part.Kind.IsFixedCapacitor() && b.Part.Value >= 10e-9 && (IsEarthy(b.To) || Supply.Contains(b.To) || Reach(b.To, 1, p => p.Kind == PartKind.Fuse).Any(r => Supply.Contains(r.Node))));

    /// <summary>Do pulses of a line output transformer stand on the node: a lug of it that is neither common, supply, boost nor a valve's?</summary>
    public bool IsPulsed(int node) => !IsEarthy(node) && !Supply.Contains(node) && !IsBoosted(node) && !PinsAt(node).Any() && Map.Nodes[node].Lugs.Any(l => MountOf(l) == MountKind.Flyback);

    /// <summary>A capacitor of the size that smooths a supply?</summary>
    public static bool IsBig(Part part) => part.Kind.IsFixedCapacitor() && part.Value >= 1e-6 * (1 - 1e-9) && part.RatedVolts is null or >= 100;

    private bool IsSupplyCapacitor(Part part) => IsBig(part) && Ends(part) is var (a, b) && (Supply.Contains(a) || Supply.Contains(b));

    // "5Y3GT" and "5Y3" are one type to us, and so are "EZ80" and "EZ80/6V4".
    [GeneratedRegex(@"^(\d+[A-Z]+\d+|[A-Z]+\d+)")]
    private static partial Regex TypeBase();
}

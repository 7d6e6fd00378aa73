using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Prove;

/// <summary>Every short of a set that would cost a life, a transformer or a rectifier.</summary>
internal sealed class ShortFinder
{
    /// <summary>A short is anything up to this, Ω: a flashed can or a drop of solder is none, a carbon track or a burnt insulation some (common practice, no source).</summary>
    public const double MostOhms = 10;
    // What counts as a supply, F and V; what leads the line on before anything limits it, Ω (common practice, no source).
    private const double LeastFarads = 1e-6, LeastVolts = 40, RatedVolts = 100, SurgeOhms = 100;

    private const string Itself = "its other end";

    private readonly SolveResult _solved;
    private readonly MapResult _map;
    private readonly ImmutableArray<Element> _elements;
    private readonly int _common;
    private readonly List<(Slip, ShortKind)> _found = [];
    private readonly HashSet<(int, int)> _pairs = [];

    private ShortFinder(SolveResult solved)
    {
        (_solved, _map, _elements, _common) = (solved, solved.Netlist.Map, solved.Netlist.Network!.Elements, solved.Netlist.Network.Reference);
    }

    /// <summary>All of them, the worst kind for the set first; each pair of nodes once.</summary>
    public static ImmutableArray<(Slip Slip, ShortKind Kind)> Of(SolveResult solved)
    {
        var finder = new ShortFinder(solved);
        finder.Find();
        return [.. finder._found];
    }

    private void Find()
    {
        var chassis = _map.Chassis.Node?.Index is { } c && c != _common ? c : (int?)null;
        var supplies = Supplies();
        foreach (var (node, words) in supplies) Add(ShortKind.Supply, node, _common, words, "common");
        foreach (var (node, words) in supplies) Add(ShortKind.Supply, node, chassis, words, "the chassis");
        Heaters(chassis, supplies);
        Line(chassis);
        Add(ShortKind.CommonToChassis, _common, chassis, "common", "the chassis");
    }

    /// <summary>Nodes that hold a supply, highest first, and the winding ends that feed them.</summary>
    private List<(int Node, string Words)> Supplies()
    {
        var found = new List<(int Node, double Volts, string Words)>();
        var cycle = _solved.Cycle;
        double Volts(int node) => cycle?.Nodes[node].Average ?? _solved.Point?.Volts[node] ?? 0;
        void Supply(int node, bool known)
        {
            if (node == _common || node >= _map.Nodes.Length || found.Exists(f => f.Node == node) || Math.Abs(Volts(node)) < LeastVolts && !known) return;
            found.Add((node, Math.Abs(Volts(node)), $"the supply{(Math.Abs(Volts(node)) < 1 ? "" : string.Create(CultureInfo.InvariantCulture, $" of {Volts(node):+0;-0} V"))}"));
        }
        foreach (var c in _elements.OfType<Capacitor>().Where(c => c.Farads >= LeastFarads * (1 - 1e-9)))
        {
            var part = PartOf(c);
            foreach (var node in new[] { c.A, c.B }) Supply(node, part?.Kind == PartKind.Electrolytic && (part.RatedVolts >= RatedVolts || part.RatedVolts is null && cycle is null));
        }
        // A directly heated rectifier's filament is the supply, both its ends.
        foreach (var f in HeatersOfValves()) if (found.Exists(x => x.Node == f.A || x.Node == f.B)) foreach (var node in new[] { f.A, f.B }) Supply(node, false);
        foreach (var d in _solved.Rectifiers.Select(r => _elements.FirstOrDefault(e => e.Name == r.Element)).OfType<Diode>()) Supply(d.Cathode, false);
        var feeding = new List<(int, string)>();
        if (cycle is not null)
        {
            foreach (var node in _elements.OfType<Transformer>().SelectMany(t => t.Windings).SelectMany(w => new[] { w.A, w.B }).Distinct())
                if (node != _common && node < _map.Nodes.Length && !_map.IsOnLine(_map.Nodes[node]) && !found.Exists(f => f.Node == node) && cycle.Nodes[node].RippleRms >= LeastVolts)
                    feeding.Add((node, string.Create(CultureInfo.InvariantCulture, $"the winding end of {cycle.Nodes[node].RippleRms:0} V rms")));
        }
        return [.. found.OrderByDescending(f => f.Volts).Select(f => (f.Node, f.Words)), .. feeding];
    }

    private void Heaters(int? chassis, List<(int Node, string Words)> supplies)
    {
        var supply = supplies.FirstOrDefault();
        Filament[] heaters = [.. HeatersOfValves().Where(f => !supplies.Exists(s => s.Node == f.A || s.Node == f.B))];
        int[] nodes = [.. heaters.SelectMany(f => new[] { f.A, f.B }).Distinct()];
        foreach (var node in nodes) Add(ShortKind.Heater, node, _common, "the heaters", "common");
        foreach (var node in nodes) Add(ShortKind.Heater, node, chassis, "the heaters", "the chassis");
        if (supply.Words is not null) foreach (var node in nodes) Add(ShortKind.Heater, node, supply.Node, "the heaters", supply.Words);
        // A winding with a tap is two: what counts is that one transformer feeds both ends of a heater.
        foreach (var h in heaters)
            if (_elements.OfType<Transformer>().Any(t => t.Windings.Any(w => w.A == h.A || w.B == h.A) && t.Windings.Any(w => w.A == h.B || w.B == h.B))) Add(ShortKind.Heater, h.A, h.B, "one end of a heater winding", Itself);
    }

    private IEnumerable<Filament> HeatersOfValves() => _elements.OfType<Filament>().Where(f => PartOf(f)?.Kind == PartKind.Valve);

    private void Line(int? chassis)
    {
        int[] blades = [.. _map.LineWays.Where(w => w.Path == LinePath.Blade).Select(w => w.Node.Index).Distinct()];
        var sides = blades.Select(Side).ToArray();
        var earth = _map.Earth.Node?.Index;
        foreach (var node in sides.SelectMany(s => s).Distinct().Order())
        {
            if (!_map.IsOnLine(_map.Nodes[_common])) Add(ShortKind.LineToMetal, node, _common, "the line", "common");
            if (chassis is { } metal && !_map.IsOnLine(_map.Nodes[metal])) Add(ShortKind.LineToMetal, node, metal, "the line", "the chassis");
            if (earth is { } e && !_map.IsOnLine(_map.Nodes[e])) Add(ShortKind.LineToMetal, node, e, "the line", "protective earth");
        }
        if (sides.Length != 2) return;
        foreach (var node in sides[0].Where(n => !sides[1].Contains(n))) Add(ShortKind.AcrossLine, node, blades[1], "one side of the line", "the other");
        foreach (var node in sides[1].Where(n => !sides[0].Contains(n))) Add(ShortKind.AcrossLine, node, blades[0], "one side of the line", "the other");
    }

    /// <summary>What is joined to a blade by switches, fuses, thermistors and surge resistors alone.</summary>
    private int[] Side(int blade)
    {
        var seen = new HashSet<int> { blade };
        var queue = new Queue<int>([blade]);
        while (queue.TryDequeue(out var at))
        {
            foreach (var (a, b) in _elements.Select(Leads))
            {
                if (a == at && b != at && b < _map.Nodes.Length && seen.Add(b)) queue.Enqueue(b);
                if (b == at && a != at && a < _map.Nodes.Length && seen.Add(a)) queue.Enqueue(a);
            }
        }
        return [.. seen.Order()];

        static (int, int) Leads(Element element) => element switch
        {
            Switch e => (e.A, e.B), Fuse e => (e.A, e.B), Thermistor e => (e.A, e.B), Resistor { Ohms: <= SurgeOhms } e => (e.A, e.B), _ => (-1, -1),
        };
    }

    private void Add(ShortKind kind, int from, int? onto, string what, string where)
    {
        if (onto is not { } to || from == to || from >= _map.Nodes.Length || to >= _map.Nodes.Length || !_pairs.Add((Math.Min(from, to), Math.Max(from, to)))) return;
        if (LugOf(_map, from) is not { } a || LugOf(_map, to) is not { } b) return;
        var sentence = kind == ShortKind.Heater && where == Itself ? $"a heater winding shorted, {a} to {b}" : $"{what} at {a} on {where} at {b}";
        _found.Add((new Slip
        {
            Id = $"short {a}={b}", Kind = SlipKind.Dangerous, Position = a, Lugs = [a, b], Sentence = sentence,
            LookAt = $"follow all that hangs on {a}, and all on {b}: nothing of the one touches the other, no solder, no clipping, no bare lead through a sleeve",
            Change = new() { Further = [new Resistor(Board.ShortName, from, to, MostOhms)] },
        }, kind));
    }

    private Part? PartOf(Element element) => _map.Book.Parts.Named(_solved.Netlist.Origins.FirstOrDefault(o => o.Element == element.Name)?.Position);

    /// <summary>A lug of a node that a probe reaches: of the chassis or a can, of a strip, anything.</summary>
    public static string? LugOf(MapResult map, int node) => map.Nodes[node].Lugs
        .OrderBy(l => map.Book.Mounts.Named(map.Book.Lugs.Named(l)?.Mount)?.Kind switch { MountKind.Can => 0, MountKind.TagStrip or MountKind.ScrewStrip => 1, MountKind.Chassis => 2, null => 9, _ => 3 })
        .ThenBy(l => l, NaturalOrder.Names).FirstOrDefault();
}

using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map;

/// <summary>Where direct current can go between nodes: through resistors, windings, contacts, diodes; not through capacitors.</summary>
/// <remarks>Switches count as closed in every position, controls as their whole track: a path may exist, which is what the rules ask.</remarks>
internal sealed class DcPaths
{
    /// <summary>One way from a node.</summary>
    /// <param name="To">The other node.</param>
    /// <param name="Part">The part, or the valve.</param>
    /// <param name="Ohms">Its resistance; null when unknown or not a resistance.</param>
    /// <param name="Backwards">True against a diode's arrow.</param>
    public readonly record struct Step(int To, Part Part, double? Ohms, bool Backwards);

    private readonly List<Step>[] _steps;
    private readonly List<Step>[] _valves;

    public DcPaths(Chart chart)
    {
        _steps = [.. Enumerable.Range(0, chart.Count).Select(_ => new List<Step>())];
        _valves = [.. Enumerable.Range(0, chart.Count).Select(_ => new List<Step>())];
        foreach (var part in chart.Book.Parts.Where(Conducts))
        {
            var nodes = part.Leads.Select(l => chart.NodeOf(l.Lug)).OfType<int>().Distinct().ToArray();
            foreach (var from in nodes)
                foreach (var to in nodes.Where(n => n != from))
                    _steps[from].Add(new(to, part, part.Kind.IsResistive() || part.Kind == PartKind.SubUnit ? part.Value : null,
                        part.Kind.IsRectifier() && chart.NodeOf(part.PlusLug) == from));
        }
        foreach (var valve in chart.Valves)
        {
            var filament = Nodes(chart, valve, ElectrodeKind.Filament);
            foreach (var from in filament)
                foreach (var to in filament.Where(n => n != from)) _steps[from].Add(new(to, valve.Part, null, false));
            foreach (var from in Nodes(chart, valve, ElectrodeKind.Plate))
                foreach (var to in Nodes(chart, valve, ElectrodeKind.Cathode, ElectrodeKind.Filament).Where(n => n != from))
                    _valves[from].Add(new(to, valve.Part, null, false));
        }
    }

    /// <summary>All ways from a node, valves not counted.</summary>
    public IReadOnlyList<Step> From(int node) => _steps[node];

    /// <summary>Nodes that can be reached; a stop is reached but not passed.</summary>
    /// <param name="starts">Where to begin; a stop among them is passed.</param>
    /// <param name="stops">Nodes that end a way.</param>
    /// <param name="forwards">True to obey the arrows of diodes and to go through valves from plate to cathode.</param>
    public HashSet<int> Reach(IEnumerable<int> starts, IReadOnlySet<int> stops, bool forwards = false)
    {
        var begun = starts.ToHashSet();
        var reached = new HashSet<int>(begun);
        var queue = new Queue<int>(begun);
        while (queue.TryDequeue(out var node))
        {
            if (stops.Contains(node) && !begun.Contains(node)) continue;
            foreach (var step in _steps[node])
                if (!(forwards && step.Backwards) && reached.Add(step.To)) queue.Enqueue(step.To);
            if (!forwards) continue;
            foreach (var step in _valves[node])
                if (reached.Add(step.To)) queue.Enqueue(step.To);
        }
        return reached;
    }

    private static int[] Nodes(Chart chart, PluggedValve valve, params ElectrodeKind[] kinds) =>
        [.. valve.With(kinds).Select(p => chart.NodeByLug[p.Lug]).Distinct()];

    private static bool Conducts(Part part) => part.Kind switch
    {
        PartKind.Resistor or PartKind.Control or PartKind.Winding or PartKind.Lamp or PartKind.Fuse or PartKind.Switch
            or PartKind.Speaker or PartKind.Thermistor => true,
        PartKind.SubUnit => part.Unit != Trade.Quantities.Unit.Farad,
        PartKind.Other => true,
        var kind => kind.IsRectifier(),
    };
}

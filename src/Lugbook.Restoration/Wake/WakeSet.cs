using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Wake;

/// <summary>How a set is joined to the line in one step.</summary>
/// <param name="LampWatts">Lamp in series, W at the line's volts; null for none.</param>
/// <param name="LineShare">Volts over today's line.</param>
/// <param name="Out">Valves that are out.</param>
internal sealed record Hookup(double? LampWatts, double LineShare, ImmutableArray<string> Out);

/// <summary>The set, with what is watched while it wakes.</summary>
internal sealed class WakeSet
{
    public const string Lamp = "limiter lamp";
    private const string Behind = "line behind the lamp";
    // A lamp's cold resistance is a twelfth to a sixteenth of its hot one: reference table of power supply checks, section 6.
    private const double LampColdShare = 1.0 / 14;
    private const double LeastFarads = 1e-6, LeastVolts = 40;
    private const int MostSupplies = 4;
    // Against 128 steps the expected values move by less than half a per cent (docs/wake.md).
    private static readonly PoweredOptions Steps = new() { StepsPerCycle = 64 };

    private readonly Network _network;
    private readonly Mains _line;

    public WakeSet(SolveResult solved, double? lineVolts)
    {
        Solved = solved;
        var warm = Balancing.Carried(solved.Netlist.Network!, solved.Direct!, solved.Netlist.Balances);
        _line = warm.Elements.OfType<Mains>().First();
        LineVolts = lineVolts ?? _line.VoltsRms;
        _line = _line with { VoltsRms = LineVolts };
        _network = warm.With(_line);
        Supplies = FindSupplies();
        Watched =
        [
            new("line-a", "current from the line", "A", true, null),
            new("set-v", "volts at the set's plug", "V", true, LugOf(_line.A)),
            .. Supplies.Select(s => new Watched(s.Lug, $"supply at {s.Lug}", "V", false, s.Lug)),
        ];
    }

    public SolveResult Solved { get; }
    public double LineVolts { get; }
    public Mains Line => _line;
    /// <summary>The set on its line, warm.</summary>
    public Network Network => _network;
    public ImmutableArray<Watched> Watched { get; }
    /// <summary>Nodes whose direct volts are watched, the highest first.</summary>
    public ImmutableArray<(int Node, string Lug, double Volts)> Supplies { get; }
    /// <summary>Diodes that the line drives.</summary>
    public IEnumerable<Diode> Rectifiers => Solved.Rectifiers.Select(r => (Diode)_network.Elements.First(e => e.Name == r.Element));

    /// <summary>The part that an element belongs to.</summary>
    public string PositionOf(string element) => Solved.Netlist.Origins.FirstOrDefault(o => o.Element == element)?.Position ?? element;

    /// <summary>Valves that pass the line's rectified current.</summary>
    public ImmutableArray<string> RectifierValves =>
        [.. Rectifiers.Where(d => d.Law.NeedsHeat).Select(d => PositionOf(d.Name)).Where(p => Solved.Netlist.Map.Book.Parts.Named(p)?.Kind == PartKind.Valve).Distinct()];

    /// <summary>Valves that may be pulled without others going dark.</summary>
    public bool CanPull(string valve) => HeaterStrings.Dark(Solved, valve).Count == 1;

    public ImmutableArray<string> Valves => [.. Solved.Netlist.Map.Book.Parts.Where(p => p.Kind == PartKind.Valve && Solved.Netlist.ElementsOf(p.Name).Any()).Select(p => p.Name)];

    /// <summary>A network hooked up as a step says.</summary>
    public Network Hooked(Network set, Hookup how)
    {
        var pulled = how.Out.SelectMany(Solved.Netlist.ElementsOf).ToHashSet(StringComparer.Ordinal);
        var elements = set.Elements.Where(e => !pulled.Contains(e.Name)).ToList();
        var at = elements.FindIndex(e => e is Mains);
        var line = (Mains)elements[at];
        var volts = line.VoltsRms * how.LineShare;
        if (how.LampWatts is not { } watts)
        {
            elements[at] = line with { VoltsRms = volts };
            return new(set.NodeNames, set.Reference, elements);
        }
        var inner = set.NodeCount;
        elements[at] = line with { A = inner, VoltsRms = volts };
        elements.Add(new Filament(Lamp, inner, line.A, LineVolts, watts / LineVolts, LampColdShare, 0));
        return new([.. set.NodeNames, Behind], set.Reference, elements);
    }

    /// <summary>The state that lasts; null when it does not settle.</summary>
    public WarmedState? Settled(Network hooked, Hookup how, WarmedState? near = null)
    {
        try { return Warmed.Of(hooked, HeatersIn(hooked, how), Steps, near); }
        catch (UnsolvableException) { return null; }
    }

    /// <summary>The warming from cold; empty when a moment does not settle.</summary>
    public ImmutableArray<WarmingMoment> Warming(Network hooked, Hookup how, CancellationToken stop)
    {
        try { return Circuit.Warming.Of(hooked, HeatersIn(hooked, how), Circuit.Warming.UsualSeconds, Steps, stop); }
        catch (UnsolvableException) { return []; }
    }

    private ImmutableDictionary<string, string> HeatersIn(Network hooked, Hookup how)
    {
        var there = hooked.Elements.Select(e => e.Name).ToHashSet(StringComparer.Ordinal);
        // The netlist names the heater by the valve's part; each of its systems is heated by it.
        return Solved.Netlist.Valves.Where(v => there.Contains(v.Element) && Solved.Netlist.Heaters.TryGetValue(v.Valve, out var f) && there.Contains(f))
            .ToImmutableDictionary(v => v.Element, v => Solved.Netlist.Heaters[v.Valve]);
    }

    /// <summary>What the meters would show, in the order of <see cref="Watched"/>.</summary>
    public ImmutableArray<double> Shown(SupplyState cycle) =>
    [
        cycle.Currents.GetValueOrDefault(_line.Name)?.Rms ?? 0,
        Rms(cycle, _line.A, _line.B),
        .. Supplies.Select(s => cycle.Nodes[s.Node].Average),
    ];

    /// <summary>Volts of the lamp over its rated ones.</summary>
    public static double LampShare(SupplyState cycle, Network hooked) =>
        hooked.Elements.FirstOrDefault(e => e.Name == Lamp) is Filament f ? Rms(cycle, f.A, f.B) / f.RatedVolts : 0;

    private static double Rms(SupplyState cycle, int a, int b)
    {
        double sum = 0;
        var (seconds, volts) = (cycle.Cycle.Seconds, cycle.Cycle.Volts);
        for (var k = 1; k < volts.Length; k++) sum += Math.Pow(volts[k][a] - volts[k][b], 2) * (seconds[k] - seconds[k - 1]);
        return Math.Sqrt(sum / (seconds[^1] - seconds[0]));
    }

    /// <summary>Where reservoirs and filters stand: the highest voltages first.</summary>
    private ImmutableArray<(int, string, double)> FindSupplies()
    {
        var cycle = Solved.Cycle!;
        var found = new List<(int Node, string Lug, double Volts)>();
        foreach (var c in _network.Elements.OfType<Capacitor>().Where(c => c.Farads >= LeastFarads))
            foreach (var node in new[] { c.A, c.B })
                if (node != _network.Reference && Math.Abs(cycle.Nodes[node].Average) >= LeastVolts && !found.Exists(f => f.Node == node) && LugOf(node, c.Name) is { } lug)
                    found.Add((node, lug, cycle.Nodes[node].Average));
        return [.. found.OrderByDescending(f => Math.Abs(f.Volts)).Take(MostSupplies)];
    }

    /// <summary>A lug of a node that a probe reaches: of the capacitor itself, else of a strip, a can, anything.</summary>
    public string? LugOf(int node, string? capacitor = null)
    {
        var map = Solved.Netlist.Map;
        if (node >= map.Nodes.Length) return null;
        var lugs = map.Nodes[node].Lugs;
        var part = capacitor is null ? null : map.Book.Parts.Named(PositionOf(capacitor));
        if (part?.Leads.Select(l => l.Lug).FirstOrDefault(l => map.NodeOf(l)?.Index == node) is { } own) return own;
        return lugs.OrderBy(l => Rank(map.Book.Mounts.Named(map.Book.Lugs.Named(l)?.Mount)?.Kind)).ThenBy(l => l, StringComparer.OrdinalIgnoreCase).FirstOrDefault();
    }

    private static int Rank(MountKind? kind) => kind switch { MountKind.Can => 0, MountKind.TagStrip or MountKind.ScrewStrip => 1, null => 9, _ => 2 };
}

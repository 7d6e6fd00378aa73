using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Powering;

/// <summary>Makes a direct-current law of what a rectifier did over a cycle.</summary>
internal static class Averaging
{
    private const double MoreShare = 0.1;
    // Below this the rectifier of a loaded supply conducts for most of the half-cycle: a choke follows.
    private const double ChokePeakOverMean = 4;

    /// <summary>Does the node stand nearly still over a cycle?</summary>
    public static bool IsDirect(CycleVolts node) => node.RipplePeakToPeak < 0.2 * Math.Max(Math.Abs(node.Average), 5);

    /// <summary>The network with a tenth more drawn behind each rectifier; null when none of them alternates.</summary>
    public static Network? MoreLoad(Network reduced, SupplyState cycle)
    {
        var drains = new List<Element>();
        foreach (var d in Alternating(reduced, cycle))
        {
            var extra = MoreShare * Math.Max(cycle.Currents[d.Name].Average, 1e-6);
            if (Still(reduced, cycle, d.Cathode) is { } plus) drains.Add(new CurrentDrain($"{d.Name} more", plus, reduced.Reference, extra));
            else if (Still(reduced, cycle, d.Anode) is { } minus) drains.Add(new CurrentDrain($"{d.Name} more", reduced.Reference, minus, extra));
        }
        return drains.Count == 0 ? null : reduced.Adding(drains);
    }

    /// <summary>The first node behind one, through coils, small resistances and further rectifiers, that stands still at a voltage of its own.</summary>
    private static int? Still(Network reduced, SupplyState cycle, int from)
    {
        var seen = new HashSet<int> { from };
        var queue = new Queue<int>([from]);
        while (queue.TryDequeue(out var node))
        {
            if (node == reduced.Reference) continue;
            if (IsDirect(cycle.Nodes[node]) && Math.Abs(cycle.Nodes[node].Average) > 2) return node;
            foreach (var (a, b) in reduced.Elements.Select(Leads).OfType<(int, int)>())
            {
                if (a == node && seen.Add(b)) queue.Enqueue(b);
                if (b == node && seen.Add(a)) queue.Enqueue(a);
            }
        }
        return null;
    }

    private static (int A, int B)? Leads(Element element) => element switch
    {
        Inductor e => (e.A, e.B),
        Resistor { Ohms: <= 5e3 } e => (e.A, e.B),
        Fuse e => (e.A, e.B),
        Diode e => (e.Anode, e.Cathode),
        _ => null,
    };

    /// <summary>The network for direct current.</summary>
    public static (Network Direct, ImmutableArray<AveragedRectifier> Rectifiers) Of(
        Network network, SupplyState cycle, SupplyState? more, IReadOnlyDictionary<string, double> lifts)
    {
        var averaged = Alternating(network, cycle).Select(d => Average(d, cycle, more ?? cycle, lifts[d.Name])).ToDictionary(a => a.Diode.Name, StringComparer.Ordinal);
        var names = network.NodeNames.ToList();
        var elements = new List<Element>();
        var list = ImmutableArray.CreateBuilder<AveragedRectifier>();
        foreach (var element in network.Elements)
        {
            if (!averaged.TryGetValue(element.Name, out var a))
            {
                elements.Add(element);
                continue;
            }
            var inner = names.Count;
            names.Add($"{element.Name} lifted");
            var source = $"{element.Name} lift";
            elements.Add(new Battery(source, inner, a.Diode.Anode, a.Lift, 1e-2));
            elements.Add(a.Diode with { Anode = inner, Law = a.Law });
            list.Add(new(element.Name, source, a.Lift, cycle.Currents[element.Name].Average));
        }
        return (new(names, network.Reference, elements), list.ToImmutable());
    }

    private static IEnumerable<Diode> Alternating(Network network, SupplyState cycle) => network.Elements.OfType<Diode>()
        .Where(d => Across(d, cycle).Max(Math.Abs) > 1 && Across(d, cycle).Max() - Across(d, cycle).Min() > 2);

    private static double[] Across(Diode d, SupplyState cycle) => [.. cycle.Cycle.Volts.Skip(1).Select(v => v[d.Anode] - v[d.Cathode])];

    private static (Diode Diode, double Lift, DiodeLaw Law) Average(Diode d, SupplyState cycle, SupplyState more, double peak)
    {
        var (mean, current) = (Across(d, cycle).Average(), cycle.Currents[d.Name].Average);
        var (mean2, current2) = (Across(d, more).Average(), more.Currents[d.Name].Average);
        // A rectifier that passes next to nothing: a law that would let a microampere through a volt below the peak.
        if (!(current > 1e-7)) return (d, peak, new(1e-6, 1.5, 0, Width(peak), double.PositiveInfinity));
        var choke = cycle.Currents[d.Name].Peak < ChokePeakOverMean * current && current2 > current && mean2 > mean;
        if (choke)
        {
            var ohms = (mean2 - mean) / (current2 - current);
            var lift = current * ohms - mean;
            return (d, lift, new(1 / ohms, 1, 0, Width(lift)));
        }
        // What is left below the peak drives the current: the lower the mean across the rectifier, the nearer the reservoir is to the peak.
        var room = Math.Max(peak + mean, 0.02 * peak);
        var room2 = Math.Max(peak + mean2, 0.02 * peak);
        var exponent = current2 > current && room2 > room ? Math.Clamp(Math.Log(current2 / current) / Math.Log(room2 / room), 1, 3) : 1.5;
        return (d, room - mean, new(current / Math.Pow(room, exponent), exponent, 0, Width(peak)));
    }

    private static double Width(double lift) => Math.Max(1e-3 * lift, 1e-2);
}

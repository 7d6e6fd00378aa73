using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;

namespace Lugbook.Restoration.Wake;

/// <summary>How long charge stays after switch-off.</summary>
internal static class Draining
{
    private const double LeastJoules = 0.01, Touch = 60, Solder = 5;

    /// <summary>Every store above 60 V or a hundredth of a joule.</summary>
    /// <remarks>Cathodes cold, which keeps charge longest; the start is the higher of the running volts and those of a rectifier that nothing loads.</remarks>
    public static ImmutableArray<StoreDrained> Of(WakeSet set, double? bleeder, CancellationToken stop)
    {
        var cycle = set.Solved.Cycle!;
        var (network, stores) = (set.Network, ImmutableArray.CreateBuilder<StoreDrained>());
        var start = network.Elements.OfType<Capacitor>().ToImmutableDictionary(c => c.Name, c => cycle.Nodes[c.A].Average - cycle.Nodes[c.B].Average);
        foreach (var c in network.Elements.OfType<Capacitor>().Where(c => Joules(c, start[c.Name]) >= LeastJoules && Math.Abs(start[c.Name]) >= Solder).OrderByDescending(c => Joules(c, start[c.Name])))
        {
            stop.ThrowIfCancellationRequested();
            var hot = Hot(network, c, cycle);
            if (set.LugOf(hot, c.Name) is not { } lug) continue;
            var (below60, path) = Time(network, hot, start, Touch);
            var (below5, _) = Time(network, hot, start, Solder);
            var (volts, ohms) = (Math.Abs(start[c.Name]), bleeder);
            double? withBleeder = ohms is { } r ? Time(network.Adding(new Resistor("bleeder", hot, network.Reference, r)), hot, start, Solder).Seconds : null;
            stores.Add(new(set.PositionOf(c.Name), lug, volts, Joules(c, volts), below60, below5, path, withBleeder, ohms is { } b ? volts * volts / b : null));
        }
        return stores.ToImmutable();
    }

    private static double Joules(Capacitor c, double volts) => c.Farads * volts * volts / 2;

    private static int Hot(Network network, Capacitor c, SupplyState cycle) =>
        c.A == network.Reference ? c.B : c.B == network.Reference ? c.A : Math.Abs(cycle.Nodes[c.A].Average) >= Math.Abs(cycle.Nodes[c.B].Average) ? c.A : c.B;

    private static (double? Seconds, string Path) Time(Network network, int node, ImmutableDictionary<string, double> start, double below)
    {
        try
        {
            var drained = Discharge.Of(network, [node], new() { CapacitorVolts = start, BelowVolts = below, ValvesCold = true });
            var all = drained.Joules.Sum(j => j.Joules);
            string[] through = [.. drained.Joules.Where(j => j.Joules > 0.15 * all).Take(3).Select(j => j.Element)];
            return (drained.Seconds[node], drained.Seconds[node] is null ? "never by itself: nothing drains it while the valves are cold" : through.Length == 0 ? "leakage alone" : $"through {string.Join(", ", through)}");
        }
        catch (UnsolvableException)
        {
            return (null, "not computed: the discharge does not settle; count on never");
        }
    }
}

using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Trade.Meters;

namespace Lugbook.Restoration.Sheet;

/// <summary>Ohms to common with the set unplugged, switched off, discharged and cold.</summary>
internal sealed class OhmsColumn
{
    private readonly NetlistResult _netlist;
    private readonly Network _cold;
    private readonly double _testVolts;
    private readonly HashSet<string> _rectifiers;
    private const double RectifierShare = 0.1, RectifierFactor = 20;
    private readonly Dictionary<int, (OhmsReading, double, double)?> _known;

    public OhmsColumn(NetlistResult netlist, Meter meter, IEnumerable<int> nodes)
    {
        _netlist = netlist;
        _testVolts = meter.OhmsTestVolts;
        _cold = ColdSet.Of(netlist);
        _rectifiers = [.. _cold.Elements.OfType<Diode>().Select(d => d.Name)];
        // Every node is a solution of its own: all cores.
        _known = nodes.Distinct().AsParallel().Select(n => (Node: n, Found: Find(n))).ToDictionary(f => f.Node, f => f.Found);
    }

    /// <summary>Reading and its spread, Ω; null where the cold set does not settle.</summary>
    public (OhmsReading Reading, double Low, double High)? At(int node) => _known[node];

    private (OhmsReading, double, double)? Find(int node)
    {
        if (node == _cold.Reference) return (new(0, 0, 0), 0, 0);
        try
        {
            var reading = Ohms.Between(_cold, node, _cold.Reference, _testVolts);
            if (!double.IsFinite(reading.Ohms)) return (reading, double.PositiveInfinity, double.PositiveInfinity);
            // Independent parts: their deviations add as squares; the sum of uniform spreads is near normal, 1.96/√3 of the half-widths for 95 of 100.
            double below = 0, above = 0;
            // What a dry rectifier shows at a fraction of a volt differs from piece to piece by more than a decade (common practice, no source).
            var shares = OhmsShares.Of(reading.Ohms, _cold, node, _cold.Reference, _testVolts).Shares;
            if (shares.Where(s => _rectifiers.Contains(s.Element)).Sum(s => s.Ohms) > RectifierShare * reading.Ohms)
                return (reading, reading.Ohms / RectifierFactor, reading.Ohms * RectifierFactor);
            foreach (var (element, share) in shares)
            {
                var (low, high) = Range(element);
                below += Math.Pow(share * low, 2);
                above += Math.Pow(share * high, 2);
            }
            const double normal = 1.96 / 1.7320508;
            return (reading, Math.Max(reading.Ohms - normal * Math.Sqrt(below), 0), reading.Ohms + normal * Math.Sqrt(above));
        }
        catch (UnsolvableException)
        {
            return null;
        }
    }

    private (double Low, double High) Range(string element) =>
        _netlist.Spreads.FirstOrDefault(s => s.Element == element && s is { Parameter: Parameter.Ohms, Cause: SpreadCause.Tolerance }) is { } s
            ? (1 - s.Low / s.Nominal, s.High / s.Nominal - 1) : (0.1, 0.1);
}

/// <summary>The set as an ohmmeter finds it.</summary>
internal static class ColdSet
{
    /// <summary>Line switches off, nothing that only warm valves make.</summary>
    public static Network Of(NetlistResult netlist)
    {
        var network = netlist.Network!;
        var line = netlist.Map.LineWays.Where(w => w.Path is LinePath.Blade or LinePath.Conductor).Select(w => w.Node.Index).ToHashSet();
        return new(network.NodeNames, network.Reference, network.Elements
            .Where(e => !netlist.WarmOnly.Contains(e.Name) && e is not (CurrentDrain or Declared or Battery))
            .Select(e => e is Switch s && (line.Contains(s.A) || line.Contains(s.B)) ? s with { Closed = false } : e));
    }
}

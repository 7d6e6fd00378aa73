using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Map.Rules;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Netlist;

/// <summary>Windings: those of a power transformer coupled by their marked volts, all others by themselves.</summary>
/// <remarks>
/// Only the power transformer moves direct volts by its coupling, through the rectifier. Its inductance is not marked anywhere: a magnetising current of 6 VA and a leakage of
/// 4e-4 are taken (common practice, no source); neither moves a voltage by 1 %. Windings of one body that share a lug are taken as in series, each going on where the other ends.
/// </remarks>
internal static class WindingElements
{
    private const double MagnetisingVoltAmperes = 6;
    private const double Coupling = 0.9998;
    private const double LeastOhms = 1e-3;

    public static void Add(NetBuilder net, double lineVolts, double hertz)
    {
        var windings = net.Map.Book.Parts.Where(p => p.Kind == PartKind.Winding).ToArray();
        var done = new HashSet<Part>();
        foreach (var body in windings.Where(w => w.Group is not null).GroupBy(w => w.Group!, StringComparer.OrdinalIgnoreCase))
            if (Power(net, [.. body], lineVolts, hertz) is { } coupled)
            {
                done.UnionWith(coupled.Select(c => c.Part));
                AddPower(net, body.Key, coupled, lineVolts, hertz);
            }
        foreach (var winding in windings.Where(w => !done.Contains(w))) Single(net, winding);
    }

    /// <summary>The windings whose volts are known, when one of them stands across the line; else null.</summary>
    private static List<(Part Part, int A, int B, double Volts)>? Power(NetBuilder net, Part[] body, double lineVolts, double hertz)
    {
        var ends = body.Select(w => (Part: w, A: net.Node(w.LeadA), B: net.Node(w.LeadB))).Where(w => w.A is not null && w.B is not null && w.A != w.B).ToArray();
        var primaries = ends.Where(w => OnLine(net, w.A!.Value) && OnLine(net, w.B!.Value)).Select(w => w.Part).ToHashSet();
        if (primaries.Count == 0 || body.Length < 2) return null;
        var coupled = new List<(Part, int, int, double)>();
        foreach (var (part, a, b) in ends)
        {
            var volts = WindingVolts.Of(part) ?? (primaries.Contains(part) && primaries.Count == 1 ? lineVolts : Charted(net, a!.Value, b!.Value));
            if (volts is { } v and > 0) coupled.Add((part, a!.Value, b!.Value, v));
            else net.Unknown(part.Name, $"{part.Name}'s volts are neither marked nor on the chart, so what it feeds cannot be told: write them into its marking (\"300 V half\").");
        }
        return coupled.Count >= 2 && coupled.Any(c => primaries.Contains(c.Item1)) ? coupled : null;
    }

    private static bool OnLine(NetBuilder net, int node) => net.Map.LineWays.Any(w => w.Node.Index == node && w.Path is LinePath.Blade or LinePath.Conductor);

    // The sheet's alternating volts from one end to common, where the other end is common.
    private static double? Charted(NetBuilder net, int a, int b)
    {
        var common = net.Map.Common.Node?.Index;
        var far = a == common ? b : b == common ? a : -1;
        return far < 0 ? null : net.Map.Book.SheetReadings.Where(r => r is { IsAc: true, Volts: > 0 } && net.Node(r.Name) == far).Select(r => r.Volts).FirstOrDefault();
    }

    private static void AddPower(NetBuilder net, string body, List<(Part Part, int A, int B, double Volts)> windings, double lineVolts, double hertz)
    {
        var turned = Turned(windings);
        var primary = windings.First(w => OnLine(net, w.A) && OnLine(net, w.B));
        var henries = lineVolts * lineVolts / (2 * Math.PI * hertz * MagnetisingVoltAmperes) * Math.Pow(primary.Volts / lineVolts, 2);
        net.Add(new Transformer(body,
            [.. windings.Select((w, k) => new WindingOf(turned[k] ? w.B : w.A, turned[k] ? w.A : w.B, henries * Math.Pow(w.Volts / primary.Volts, 2), Ohms(w.Part, w.Volts)))], Coupling), body, "power transformer");
        foreach (var (part, _, _, _) in windings)
        {
            net.Origins.Add(new(body, part.Name, "winding"));
            if (part.Value is null) net.Unknown(part.Name, $"{part.Name}'s resistance is not entered: an ohm for every 3 V is taken above 50 V, 20 mΩ a volt below.");
        }
    }

    /// <summary>Which windings have their start at lead b, so that those which share a lug go on from each other.</summary>
    private static bool[] Turned(List<(Part Part, int A, int B, double Volts)> windings)
    {
        var turned = new bool[windings.Count];
        var seen = new bool[windings.Count];
        for (var first = 0; first < windings.Count; first++)
        {
            if (seen[first]) continue;
            var queue = new Queue<int>([first]);
            seen[first] = true;
            while (queue.TryDequeue(out var k))
            {
                var (start, end) = turned[k] ? (windings[k].B, windings[k].A) : (windings[k].A, windings[k].B);
                for (var j = 0; j < windings.Count; j++)
                {
                    if (seen[j]) continue;
                    var (a, b) = (windings[j].A, windings[j].B);
                    if (a != end && b != end && a != start && b != start || !Continues(windings, k, j)) continue;
                    turned[j] = b == end || a == start;
                    seen[j] = true;
                    queue.Enqueue(j);
                }
            }
        }
        return turned;
    }

    /// <summary>Halves of one voltage, or two that alone meet at a lug; windings that only share the chassis are no halves of each other.</summary>
    private static bool Continues(List<(Part Part, int A, int B, double Volts)> windings, int k, int j)
    {
        if (Math.Abs(windings[k].Volts / windings[j].Volts - 1) < 0.15) return true;
        bool At(int w, int node) => windings[w].A == node || windings[w].B == node;
        return new[] { windings[k].A, windings[k].B }.Where(n => At(j, n)).Any(n => Enumerable.Range(0, windings.Count).Count(w => At(w, n)) == 2);
    }

    private static double Ohms(Part part, double volts) => Math.Max(part.Value ?? (volts > 50 ? volts / 3 : 0.02 * volts), LeastOhms);

    private static void Single(NetBuilder net, Part winding)
    {
        if (net.Ends(winding) is not var (a, b) || a == b) return;
        var ohms = winding.Value is { } v and > 0 ? v : 10;
        // Iron holds about 40 mH an ohm, a coil of a few turns about 50 µH an ohm; common practice, no source. Only readings of capacitance feel it.
        var henries = Words.Henries(winding) ?? ohms * (Words.IsIron(winding) ? 0.04 : 50e-6);
        var name = net.Add(new Inductor(winding.Name, a, b, henries, Math.Max(ohms, LeastOhms)), winding.Name);
        if (winding.Value is null)
        {
            net.Guess(name, Parameter.Ohms, ohms, 0.1, 1000);
            net.Unknown(winding.Name, $"{winding.Name}'s resistance is not entered: anything from 0.1 Ω to 1 kΩ is allowed for.", name);
        }
        else net.Tolerance(name, winding, ohms);
    }
}

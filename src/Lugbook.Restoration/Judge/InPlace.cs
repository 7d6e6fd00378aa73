using System.Collections.Concurrent;
using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Sheet;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Judge;

/// <summary>What lies in parallel with a part where it sits, set cold.</summary>
/// <param name="Low">Lowest resistance of all other paths with every part within its tolerance, Ω; infinite without a path.</param>
/// <param name="High">Highest.</param>
/// <param name="Seconds">Until a reading across the part stands, s.</param>
/// <param name="Leakers">Paper and electrolytic capacitors beside it: if one leaks, the paths are lower.</param>
/// <param name="HasRectifier">A dry rectifier is among the paths: they differ with the polarity.</param>
/// <param name="Paths">The parts of the other paths that count, most first.</param>
internal sealed record Rest(double Low, double High, double Seconds, ImmutableArray<string> Leakers, bool HasRectifier, ImmutableArray<string> Paths)
{
    /// <summary>Nothing lies in parallel.</summary>
    public static Rest None { get; } = new(double.PositiveInfinity, double.PositiveInfinity, 0, [], false, []);
}

/// <summary>Computes what lies in parallel, part by part, when asked.</summary>
internal sealed class InPlace
{
    private readonly NetlistResult _netlist;
    private readonly Network _cold, _low, _high;
    private readonly double _testVolts;
    private readonly ConcurrentDictionary<(string Part, string? Without), Rest?> _known = new();
    private readonly ConcurrentDictionary<(string Part, double Hertz, string? Without), RestAt?> _knownAt = new();

    public InPlace(NetlistResult netlist, double testVolts)
    {
        _netlist = netlist;
        _testVolts = testVolts;
        _cold = ColdSet.Of(netlist);
        // Resistance between two nodes rises with every resistance in a network (Rayleigh's monotonicity law), so the ends of all tolerances are the ends of the whole.
        _low = All(s => s.Low);
        _high = All(s => s.High);
    }

    /// <summary>Volts of the ohmmeter, V.</summary>
    public double OhmsTestVolts => _testVolts;

    private Network All(Func<Spread, double> end)
    {
        var at = _netlist.Spreads.Where(s => s.Parameter == Parameter.Ohms && s.Cause is SpreadCause.Tolerance or SpreadCause.Setting or SpreadCause.Unknown).DistinctBy(s => s.Element).ToDictionary(s => s.Element, end, StringComparer.Ordinal);
        return new(_cold.NodeNames, _cold.Reference, _cold.Elements.Select(e => at.TryGetValue(e.Name, out var ohms) ? e switch { Resistor r => r with { Ohms = ohms }, Inductor l => l with { Ohms = ohms }, _ => e } : e));
    }

    /// <summary>What lies in parallel with a part of two leads; null where a lead is on no known lug, or both on one node.</summary>
    public Rest? Of(Part part) => Without(part, null);

    /// <summary>The same with a lead of another part lifted.</summary>
    public Rest? Without(Part part, string? other) => _known.GetOrAdd((part.Name, other), key =>
    {
        try
        {
            return Find(part, key.Without);
        }
        catch (UnsolvableException)
        {
            // Then nothing is told of it in place.
            return null;
        }
    });

    /// <summary>What lies in parallel with a capacitor at a frequency, with a lead of another part lifted or not; null as in <see cref="Of"/>.</summary>
    public RestAt? At(Part part, double hertz, string? without = null) => _knownAt.GetOrAdd((part.Name, hertz, without), key => RestAt.Of(_netlist, _cold, part, key.Hertz, key.Without));

    private Rest? Find(Part part, string? without)
    {
        var map = _netlist.Map;
        if (map.NodeOf(part.LeadA) is not { } a || map.NodeOf(part.LeadB) is not { } b || a.Index == b.Index) return null;
        var gone = _netlist.ElementsOf(part.Name).Concat(without is null ? [] : _netlist.ElementsOf(without)).ToHashSet(StringComparer.Ordinal);
        Network Less(Network network) => new(network.NodeNames, network.Reference, network.Elements.Where(e => !gone.Contains(e.Name)));
        var rest = Less(_cold);
        var low = Ohms.Between(Less(_low), a.Index, b.Index, _testVolts);
        var high = Ohms.Between(Less(_high), a.Index, b.Index, _testVolts);
        var shares = double.IsFinite(high.Ohms) ? OhmsShares.Between(rest, a.Index, b.Index, _testVolts).Shares : [];
        var rectifiers = rest.Elements.OfType<Diode>().Select(d => d.Name).ToHashSet(StringComparer.Ordinal);
        var dry = shares.Any(s => rectifiers.Contains(s.Element) && s.Ohms > 0.05 * high.Ohms);
        var (lowest, highest) = (Math.Min(low.Ohms, low.ReversedOhms), Math.Max(high.Ohms, high.ReversedOhms));
        // What a dry rectifier passes at a fraction of a volt differs from piece to piece by a decade and more.
        if (dry) (lowest, highest) = (lowest / 10, double.PositiveInfinity);
        var seconds = Ohms.Between(_cold, a.Index, b.Index, _testVolts).SettlingSeconds;
        // A part that moves the rest by less than a fiftieth frees nothing when it is lifted.
        ImmutableArray<string> paths = [.. shares.Where(s => Math.Abs(s.Ohms) > 0.02 * high.Ohms).Select(s => _netlist.Origins.FirstOrDefault(o => o.Element == s.Element)?.Position).OfType<string>().Distinct().Take(LeadChoice.MostTried)];
        return new(lowest, highest, seconds, Leakers(part, a, b, gone), dry, paths);
    }

    // Paper and electrolytics beside the part which, leaking as much as the part itself conducts, would be felt: the usual culprits of a reading that is too low.
    private ImmutableArray<string> Leakers(Part part, Node a, Node b, HashSet<string> gone)
    {
        if (part.Value is not { } ohms || ohms <= 0) return [];
        var found = new List<string>();
        foreach (var other in a.Leads.Concat(b.Leads).Select(l => l.Part).Where(p => p != part && p.Kind is PartKind.Paper or PartKind.Electrolytic).Distinct())
        {
            if (found.Count == 6) continue;
            var leaking = _netlist.ElementsOf(other.Name).ToHashSet(StringComparer.Ordinal);
            var network = new Network(_cold.NodeNames, _cold.Reference, _cold.Elements.Where(e => !gone.Contains(e.Name)).Select(e => e is Capacitor c && leaking.Contains(c.Name) ? c with { LeakOhms = ohms } : e));
            if (Ohms.Between(network, a.Index, b.Index, _testVolts).Ohms < 5 * ohms) found.Add(other.Name);
        }
        return [.. found.Order(NaturalOrder.Names)];
    }
}

using System.Globalization;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map;

/// <summary>Which node is the common negative, to which the sheet's voltages are measured?</summary>
/// <remarks>
/// The book's own word (<c>CommonLug</c>) stands. Otherwise each node collects evidence: 3 for the negative lead of a supply electrolytic
/// (100 V or more), 1 for that of a smaller one, 1½ for each high-voltage winding of a rectifier that ends there (less than a cathode bus: with back bias the tap is more negative than common), 2 for a cathode, 1 for a
/// cathode that returns through a resistor of at most 10 kΩ, 1 for a grid leak, ½ for a heater end, ¼ for a bypass capacitor. The node with
/// most wins. The weights are judgement, not measurement; what matters is that no single slip outvotes the rest.
/// </remarks>
internal static class CommonFinder
{
    public sealed record Finding(int? Node, string Evidence, int? RunnerUp);

    private enum Reason { SupplyMinus, SmallMinus, CentreTap, Cathode, CathodeResistor, GridLeak, Heater, Bypass }

    public static Finding Find(Chart chart, int? chassis)
    {
        if (chart.Book.Facts.CommonLug is { Length: > 0 } given && chart.NodeOf(given) is { } said)
            return new(said, $"The book says that {given} is common.", null);

        var votes = new List<(int Node, Reason Reason, string Who)>();
        Electrolytics(chart, votes);
        CentreTaps(chart, votes);
        Electrodes(chart, chassis, votes);
        Bypasses(chart, votes);

        var ranked = votes.GroupBy(v => v.Node)
            .Select(g => (Node: g.Key, Score: g.Sum(v => Weight(v.Reason)), Votes: g.ToArray()))
            .Where(r => r.Votes.Any(v => v.Reason is not (Reason.Heater or Reason.Bypass)))
            .OrderByDescending(r => r.Score).ThenByDescending(r => r.Node == chassis).ThenBy(r => chart.BestLug(r.Node), NaturalOrder.Names).ToArray();
        if (ranked.Length == 0)
            return new(null, "Nothing in the book tells which node is common: enter the supply electrolytics and the valves, or name a lug as common.", null);
        var best = ranked[0];
        int? rival = ranked.Length > 1 && ranked[1].Score > 0.6 * best.Score ? ranked[1].Node : null;
        var sentence = $"Here meet {Sentence(best.Votes)}.";
        if (rival is { } other) sentence += $" Not certain: {chart.BestLug(other)} collects nearly as much; name the common lug in the book's facts.";
        return new(best.Node, sentence, rival);
    }

    private static double Weight(Reason reason) => reason switch
    {
        Reason.SupplyMinus => 3,
        Reason.CentreTap => 1.5,
        Reason.Cathode => 2,
        Reason.SmallMinus or Reason.CathodeResistor or Reason.GridLeak => 1,
        Reason.Heater => 0.5,
        _ => 0.25,
    };

    private static string Sentence((int Node, Reason Reason, string Who)[] votes)
    {
        var parts = new List<string>();
        foreach (var group in votes.GroupBy(v => v.Reason).OrderBy(g => g.Key))
        {
            var names = group.Select(v => v.Who).Distinct(StringComparer.OrdinalIgnoreCase).Order(NaturalOrder.Names).ToArray();
            var list = names.Length <= 4 ? string.Join(", ", names) : $"{string.Join(", ", names.Take(3))} and {(names.Length - 3).ToString(CultureInfo.InvariantCulture)} more";
            var one = names.Length == 1;
            parts.Add(group.Key switch
            {
                Reason.SupplyMinus => $"the negative {(one ? "lead of the supply electrolytic" : "leads of the supply electrolytics")} {list}",
                Reason.SmallMinus => $"the negative of {list}",
                Reason.CentreTap => $"the centre tap of the high-voltage winding ({list})",
                Reason.Cathode => $"the {(one ? "cathode" : "cathodes")} of {list}",
                Reason.CathodeResistor => $"the cathode {(one ? "resistor" : "resistors")} {list}",
                Reason.GridLeak => $"the grid {(one ? "leak" : "leaks")} {list}",
                Reason.Heater => $"the heater return of {list}",
                _ => $"{names.Length.ToString(CultureInfo.InvariantCulture)} bypass {(one ? "capacitor" : "capacitors")}",
            });
        }
        return parts.Count == 1 ? parts[0] : $"{string.Join(", ", parts.SkipLast(1))} and {parts[^1]}";
    }

    private static void Electrolytics(Chart chart, List<(int, Reason, string)> votes)
    {
        foreach (var part in chart.Book.Parts.Where(p => p.Kind == PartKind.Electrolytic))
            if (chart.NodeOf(part.MinusLug) is { } minus && chart.NodeOf(part.PlusLug) != minus)
                votes.Add((minus, part.RatedVolts is null or >= 100 ? Reason.SupplyMinus : Reason.SmallMinus, part.Name));
    }

    /// <summary>Two windings of one body that each feed a plate of a rectifier and meet in one node.</summary>
    private static void CentreTaps(Chart chart, List<(int, Reason, string)> votes)
    {
        var plates = RectifierPlates(chart);
        var windings = chart.Book.Parts.Where(p => p.Kind == PartKind.Winding && p.Group is not null)
            .Select(p => (Part: p, Ends: chart.Ends(p))).Where(w => w.Ends is not null)
            .Select(w => (w.Part, w.Ends!.Value.A, w.Ends.Value.B)).ToArray();
        foreach (var body in windings.GroupBy(w => w.Part.Group!, StringComparer.OrdinalIgnoreCase))
        {
            var returns = body.Where(w => plates.Contains(w.A) != plates.Contains(w.B))
                .Select(w => (w.Part, Far: plates.Contains(w.A) ? w.B : w.A)).GroupBy(w => w.Far).Where(g => g.Count() >= 2);
            foreach (var tap in returns)
                foreach (var (part, far) in tap) votes.Add((far, Reason.CentreTap, part.Name));
        }
    }

    internal static HashSet<int> RectifierPlates(Chart chart)
    {
        var plates = new HashSet<int>();
        foreach (var valve in chart.Valves.Where(v => v.Type?.Class == "rectifier"))
            foreach (var pin in valve.With(ElectrodeKind.Plate))
                plates.Add(chart.NodeByLug[pin.Lug]);
        foreach (var part in chart.Book.Parts.Where(p => p.Kind is PartKind.SeleniumRectifier or PartKind.SiliconRectifier))
            if (chart.NodeOf(part.MinusLug) is { } anode) plates.Add(anode);
        return plates;
    }

    private static void Electrodes(Chart chart, int? chassis, List<(int, Reason, string)> votes)
    {
        foreach (var valve in chart.Valves.Where(v => v.Type?.Class is not ("rectifier" or "damper" or "regulator")))
        {
            foreach (var node in valve.With(ElectrodeKind.Cathode).Select(p => chart.NodeByLug[p.Lug]).Distinct())
            {
                votes.Add((node, Reason.Cathode, valve.Part.Name));
                // Where many cathodes meet is a bus; a resistor from there makes bias for the whole set (back bias) and is no cathode resistor.
                if (node == chassis || chart.PinsOf[node].Count(p => p.Has(ElectrodeKind.Cathode)) > 2) continue;
                foreach (var (part, far) in ResistorsFrom(chart, node))
                    if (part.Value is <= 10_000) votes.Add((far, Reason.CathodeResistor, part.Name));
            }
            foreach (var node in valve.With(ElectrodeKind.ControlGrid).Select(p => chart.NodeByLug[p.Lug]).Distinct())
                foreach (var (part, far) in ResistorsFrom(chart, node))
                    if (part.Value is >= 10_000) votes.Add((far, Reason.GridLeak, part.Name));
            foreach (var node in valve.With(ElectrodeKind.Heater).Select(p => chart.NodeByLug[p.Lug]).Distinct())
                votes.Add((node, Reason.Heater, valve.Part.Name));
        }
    }

    private static IEnumerable<(Part Part, int Far)> ResistorsFrom(Chart chart, int node) =>
        from lead in chart.LeadsOf[node]
        where lead.Part.Kind == PartKind.Resistor && lead.Letter is 'a' or 'b'
        let far = chart.NodeOf(lead.Letter == 'a' ? lead.Part.LeadB : lead.Part.LeadA)
        where far is not null && far != node
        select (lead.Part, far.Value);

    private static void Bypasses(Chart chart, List<(int, Reason, string)> votes)
    {
        foreach (var part in chart.Book.Parts.Where(p => p.Kind.IsFixedCapacitor() && p.Kind != PartKind.Electrolytic && p.Value is >= 1e-9))
            if (chart.Ends(part) is { } ends && ends.A != ends.B)
            {
                votes.Add((ends.A, Reason.Bypass, part.Name));
                votes.Add((ends.B, Reason.Bypass, part.Name));
            }
    }
}

using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map;

/// <summary>B+1, B+2, …: the nodes with a supply electrolytic to common, in the order of the resistance between them and the rectifier.</summary>
/// <remarks>
/// Followed from the rectifier's output through fixed resistors, windings, fuses and switches, never through common or a valve.
/// A node that only one valve's screen or cathode uses is that electrode's bypass and not a rail.
/// </remarks>
internal static class SupplyRails
{
    /// <summary>Nodes where a rectifier delivers: cathode or filament of a rectifier valve, cathode of a stack.</summary>
    public static IReadOnlyList<int> Outputs(Chart chart)
    {
        var outputs = new List<int>();
        foreach (var valve in chart.Valves.Where(v => v.Type?.Class == "rectifier"))
            outputs.AddRange(valve.With(ElectrodeKind.Cathode, ElectrodeKind.Filament).Select(p => chart.NodeByLug[p.Lug]));
        foreach (var part in chart.Book.Parts.Where(p => p.Kind is PartKind.SeleniumRectifier or PartKind.SiliconRectifier))
            if (chart.NodeOf(part.PlusLug) is { } plus) outputs.Add(plus);
        return [.. outputs.Distinct()];
    }

    public static IReadOnlyList<int> Find(Chart chart, int? common)
    {
        if (common is null) return [];
        var rails = chart.Book.Parts.Where(p => p.Kind == PartKind.Electrolytic && p.RatedVolts is null or >= 50 && chart.NodeOf(p.MinusLug) == common)
            .Select(p => chart.NodeOf(p.PlusLug)).OfType<int>().Where(n => n != common).ToHashSet();
        var ohms = OhmsFromRectifier(chart, common.Value);
        return [.. rails.Where(n => ohms.ContainsKey(n) && !IsOneElectrode(chart, n, ohms))
            .OrderBy(n => ohms[n]).ThenBy(chart.BestLug, NaturalOrder.Names)];
    }

    private static bool IsOneElectrode(Chart chart, int node, Dictionary<int, double> ohms)
    {
        if (ohms[node] == 0) return false;
        var feeds = chart.LeadsOf[node].Count(l => !l.Part.Kind.IsCapacitor());
        var electrodes = chart.PinsOf[node].Where(p => p.Has(ElectrodeKind.Screen) || p.Has(ElectrodeKind.Cathode)).ToArray();
        return electrodes.Length == 1 && feeds <= 1 || electrodes.Any(p => p.Has(ElectrodeKind.Cathode) && chart.Valves.First(v => v.Part == p.Valve).Type?.Class is not ("rectifier" or "damper"));
    }

    private static Dictionary<int, double> OhmsFromRectifier(Chart chart, int common)
    {
        var best = new Dictionary<int, double>();
        var queue = new PriorityQueue<int, double>();
        foreach (var output in Outputs(chart).Where(n => n != common && IsReservoir(chart, n, common))) queue.Enqueue(output, 0);
        while (queue.TryDequeue(out var node, out var ohms))
        {
            if (!best.TryAdd(node, ohms) || node == common) continue;
            foreach (var lead in chart.LeadsOf[node])
            {
                if (lead.Part.Kind is not (PartKind.Resistor or PartKind.Winding or PartKind.Fuse or PartKind.Switch or PartKind.Thermistor)) continue;
                if (chart.Ends(lead.Part) is not { } ends) continue;
                var far = lead.Letter == 'a' ? ends.B : ends.A;
                if (far != common && !best.ContainsKey(far)) queue.Enqueue(far, ohms + (lead.Part.Value ?? 0));
            }
        }
        return best;
    }

    /// <summary>An output counts where something smooths it; the junction of a doubler's two stacks does not.</summary>
    private static bool IsReservoir(Chart chart, int node, int common) =>
        chart.LeadsOf[node].Any(l => l.Part.Kind.IsFixedCapacitor() && chart.Ends(l.Part) is { } e && (e.A == common || e.B == common))
        || !chart.Book.Parts.Any(p => p.Kind is PartKind.SeleniumRectifier or PartKind.SiliconRectifier && chart.NodeOf(p.MinusLug) == node);
}

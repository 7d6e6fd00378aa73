using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map;

/// <summary>Which nodes are joined to the line?</summary>
/// <remarks>
/// Start: the blades of the line cord (every lug of it that is not the earth conductor; without a line cord the ends of line-cord wires,
/// and without those the ends of a winding that calls itself a power primary). From there, step by step:
/// <list type="bullet">
/// <item>switches, fuses, lamps and thermistors always lead on;</item>
/// <item>heaters and filaments lead from pin to pin of one valve;</item>
/// <item>windings (primary, autotransformer, line choke), resistors and controls up to 1 kΩ (ballast, surge resistor), and to a heater up to
/// 3.3 kΩ (dropper) lead on from any line node that is neither common nor chassis: from common onwards everything else in the set begins;</item>
/// <item>a transformer's other windings do not lead on, because they share no lug with the primary; where they do, it is an autotransformer;</item>
/// <item>a rectifier that stands on a line node adds its other side, and from there only further rectifiers lead on;</item>
/// <item>the chassis is joined to the line by any contact or winding, or a resistor up to 1 kΩ, from any line node, common included.</item>
/// </list>
/// Capacitors never lead on, nor do higher resistances: where they stand between the line and the chassis or the earth they are listed as isolations
/// (a rule says so when one is below 100 kΩ). A resistance that is not entered does not lead on: to call the chassis live on a guess would ask for the
/// wrong safety class there. Limits: leakage is not seen,
/// and everything that conducts to B+ or common is as dangerous as the line even where it is not listed here.
/// </remarks>
internal static class LineFinder
{
    private const double DropperOhms = 3300;
    private const double ConductorOhms = 1000;

    public sealed record Found(int Node, LinePath Path, string Evidence);

    public static IReadOnlyList<Found> Find(Chart chart, int? common, int? chassis, int? earth)
    {
        var found = new Dictionary<int, Found>();
        var queue = new Queue<int>();
        void Add(int node, LinePath path, string evidence)
        {
            if (node == earth || !found.TryAdd(node, new(node, path, evidence))) return;
            queue.Enqueue(node);
        }
        foreach (var (node, evidence) in Blades(chart)) Add(node, LinePath.Blade, evidence);

        while (queue.TryDequeue(out var node))
        {
            var from = found[node];
            var behind = from.Path == LinePath.Rectifier;
            var begins = node == common || node == chassis;
            foreach (var lead in chart.LeadsOf[node])
                foreach (var far in FarEnds(chart, lead))
                {
                    if (far == node) continue;
                    var sentence = $"joined to {chart.BestLug(node)} through {lead.Part.Name}";
                    if (IsRectifier(lead.Part.Kind)) Add(far, LinePath.Rectifier, sentence);
                    else if (behind) continue;
                    else if (far == chassis ? ConductsToMetal(lead.Part) : LeadsOn(chart, lead.Part, far, begins))
                        Add(far, Worse(from.Path, LinePath.Conductor), sentence);
                }
            foreach (var pin in chart.PinsOf[node])
            {
                var valve = chart.Valves.First(v => v.Part == pin.Valve);
                if (!behind && IsHeater(pin))
                    foreach (var other in valve.Pins.Where(IsHeater))
                        Add(chart.NodeByLug[other.Lug], LinePath.Heaters, $"joined to {chart.BestLug(node)} through the heater of {valve.Part.Name}");
                // A common node feeds a rectifier's plate only in a doubler or a bridge, whose other half stands on the line anyway.
                if (valve.Type?.Class == "rectifier" && !begins && pin.Has(ElectrodeKind.Plate))
                    foreach (var other in valve.With(ElectrodeKind.Cathode, ElectrodeKind.Filament))
                        Add(chart.NodeByLug[other.Lug], LinePath.Rectifier, $"behind the rectifier {valve.Part.Name}");
            }
        }
        return [.. found.Values.OrderBy(f => f.Node)];
    }

    /// <summary>Parts that alone stand between the line and the chassis or the earth.</summary>
    public static IEnumerable<(Part Part, int Line, int Far)> Isolations(Chart chart, IReadOnlyList<Found> line, int? chassis, int? earth)
    {
        var on = line.Select(f => f.Node).ToHashSet();
        foreach (var part in chart.Book.Parts.Where(p => p.Kind.IsCapacitor() || p.Kind == PartKind.Resistor))
            if (chart.Ends(part) is { } ends && on.Contains(ends.A) != on.Contains(ends.B))
            {
                var (near, far) = on.Contains(ends.A) ? (ends.A, ends.B) : (ends.B, ends.A);
                if (far == chassis || far == earth) yield return (part, near, far);
            }
    }

    private static IEnumerable<(int Node, string Evidence)> Blades(Chart chart)
    {
        var blades = chart.Book.Lugs.Where(l => chart.MountOf(l.Name)?.Kind == MountKind.LineCord && !ChassisFinder.IsEarth(l)).ToArray();
        if (blades.Length > 0) return blades.Select(l => (chart.NodeByLug[l.Name], $"{l.Name} is a blade of the line cord"));
        var wires = chart.Book.Wires.Where(w => w.Kind == WireKind.LineCord && w.Colour?.Contains("green", StringComparison.OrdinalIgnoreCase) != true)
            .SelectMany(w => new[] { chart.NodeOf(w.From), chart.NodeOf(w.To) }).OfType<int>().ToArray();
        if (wires.Length > 0) return wires.Select(n => (n, "a conductor of the line cord ends here"));
        return chart.Book.Parts.Where(IsPowerPrimary).SelectMany(p => p.Leads.Select(l => (Part: p, Node: chart.NodeOf(l.Lug))))
            .Where(l => l.Node is not null).Select(l => (l.Node!.Value, $"the power primary {l.Part.Name} ends here"));
    }

    private static bool IsPowerPrimary(Part part)
    {
        var words = $"{part.Marked} {part.Note}".ToLowerInvariant();
        return part.Kind == PartKind.Winding && words.Contains("primary") && (words.Contains("power") || words.Contains("mains") || words.Contains("line"))
            && !words.Contains("output");
    }

    private static IEnumerable<int> FarEnds(Chart chart, PartLead lead) =>
        lead.Part.Leads.Where(l => l.Letter != lead.Letter).Select(l => chart.NodeOf(l.Lug)).OfType<int>();

    private static bool LeadsOn(Chart chart, Part part, int far, bool fromCommon) => part.Kind switch
    {
        PartKind.Switch or PartKind.Fuse or PartKind.Lamp or PartKind.Thermistor => true,
        PartKind.Winding => !fromCommon,
        PartKind.Resistor or PartKind.Control => !fromCommon && (part.Value is <= ConductorOhms || part.Value is <= DropperOhms && chart.PinsOf[far].Any(IsHeater)),
        _ => false,
    };

    private static bool ConductsToMetal(Part part) => part.Kind switch
    {
        PartKind.Switch or PartKind.Fuse or PartKind.Lamp or PartKind.Thermistor or PartKind.Winding => true,
        PartKind.Resistor or PartKind.Control => part.Value is <= ConductorOhms,
        _ => false,
    };

    private static bool IsRectifier(PartKind kind) => kind is PartKind.SeleniumRectifier or PartKind.SiliconRectifier;

    private static bool IsHeater(ValvePin pin) => pin.Has(ElectrodeKind.Heater) || pin.Has(ElectrodeKind.HeaterTap) || pin.Has(ElectrodeKind.Filament);

    private static LinePath Worse(LinePath a, LinePath b) => a > b ? a : b;
}

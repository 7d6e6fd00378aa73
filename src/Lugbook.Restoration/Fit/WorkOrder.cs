using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Fit;

/// <summary>A position in the order of the work.</summary>
internal sealed record Turn(Choice Choice, string Why);

/// <summary>In which order? A stated heuristic, not an optimum.</summary>
internal static class WorkOrder
{
    public const string Rule = "What protects a life or the set comes first (line positions, couplings to output grids, reservoir and filters, screens and control voltages, plates, cathodes, tone, the rest); "
        + "among equals the next is the one that shares most lugs with the step before, then the same mount, then the order of the book; sections of one can follow each other. "
        + "One position at a time, so that no two are open at once. It is a rule of thumb, not an optimum.";

    public static ImmutableArray<Turn> Of(MapResult map, IReadOnlyList<Choice> work)
    {
        var outputs = OutputGrids(map);
        var ranked = work.Select((c, i) => (Choice: c, Rank: Rank(c, outputs, map), Place: i)).ToArray();
        // A can is taken in hand once: at the turn of its most urgent section.
        var byBody = ranked.GroupBy(r => Body(r.Choice) ?? $"#{r.Place}", StringComparer.OrdinalIgnoreCase)
            .Select(g => (Members: g.OrderBy(m => m.Place).ToArray(), Rank: g.Min(m => m.Rank), Place: g.Min(m => m.Place))).ToList();
        var turns = ImmutableArray.CreateBuilder<Turn>(work.Count);
        Choice? last = null;
        while (byBody.Count > 0)
        {
            var next = byBody.OrderBy(b => b.Rank).ThenByDescending(b => b.Members.Max(m => Shared(m.Choice, last)))
                .ThenByDescending(b => b.Members.Any(m => SameMount(map, m.Choice, last))).ThenBy(b => b.Place).First();
            byBody.Remove(next);
            foreach (var member in next.Members)
            {
                turns.Add(new(member.Choice, Why(next.Rank, member.Choice, last)));
                last = member.Choice;
            }
        }
        return turns.ToImmutable();
    }

    private static string? Body(Choice choice) => choice.Group is { } group && choice.Requirement.Polarity is not null ? group : null;

    private static int Rank(Choice choice, HashSet<int> outputs, MapResult map) => choice.Role.Role switch
    {
        Role.AcrossLine or Role.LineToTouchable => 1,
        _ when choice.Requirement.SafetyClass != Lugbook.Trade.Markings.SafetyClass.None => 1,
        Role.Coupling when choice.Lugs.Any(l => map.NodeOf(l) is { } n && outputs.Contains(n.Index)) => 2,
        Role.Reservoir or Role.Filter or Role.Doubler => 3,
        Role.ScreenBypass or Role.ControlVoltageFilter or Role.Decoupling => 4,
        Role.Coupling or Role.PlateToPlate or Role.PlateBypass or Role.Boost => 5,
        Role.CathodeBypass => 6,
        Role.Tone => 7,
        _ => 8,
    };

    private static string Why(int rank, Choice choice, Choice? last)
    {
        var why = rank switch
        {
            1 => "Line positions come first.",
            2 => "A leaky coupling ruins the output valve.",
            3 => "Reservoir and filters keep the supply safe.",
            4 => "Screens and control voltages.",
            5 => "Couplings and plates.",
            6 => "Cathodes.",
            7 => "Tone.",
            _ => "The rest.",
        };
        return last is not null && Shared(choice, last) > 0 ? $"{why} Shares a lug with {last.Position}." : why;
    }

    private static int Shared(Choice choice, Choice? last) => last is null ? 0 : choice.Lugs.Intersect(last.Lugs, StringComparer.OrdinalIgnoreCase).Count();

    private static bool SameMount(MapResult map, Choice choice, Choice? last) =>
        last is not null && choice.Lugs.Select(l => map.Book.Lugs.Named(l)?.Mount).OfType<string>()
            .Intersect(last.Lugs.Select(l => map.Book.Lugs.Named(l)?.Mount).OfType<string>(), StringComparer.OrdinalIgnoreCase).Any();

    /// <summary>Grids of valves whose plate feeds a winding directly and that have a screen or a cathode resistor of their own: the output stage.</summary>
    private static HashSet<int> OutputGrids(MapResult map)
    {
        var grids = new HashSet<int>();
        foreach (var valve in map.Nodes.SelectMany(n => n.Pins.Select(p => (Node: n, Pin: p))).GroupBy(p => p.Pin.Valve.Name, StringComparer.OrdinalIgnoreCase))
            if (valve.Any(p => p.Pin.Has(ElectrodeKind.Plate) && p.Node.Leads.Any(l => l.Part.Kind == Trade.Parts.PartKind.Winding && !IsSignalCan(map, l.Part.Group))))
                foreach (var (node, pin) in valve)
                    if (pin.Has(ElectrodeKind.ControlGrid)) grids.Add(node.Index);
        return grids;
    }

    private static bool IsSignalCan(MapResult map, string? group) => map.Book.Mounts.Named(group)?.Kind is Trade.Chassis.MountKind.IfCan or Trade.Chassis.MountKind.CoilForm;
}

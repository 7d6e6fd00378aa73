using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>Every plate and screen needs a way from a supply; no grid stands on one.</summary>
/// <remarks>
/// Ways go through resistors, windings, contacts and, from plate to cathode, through other valves (cascode, damper); never through common.
/// Not judged when the book has no supply; not for rectifiers, dampers and regulators, a triode strapped as a diode, or an electrode with nothing soldered to its section.
/// </remarks>
internal static class SupplyRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        if (c.Common is null || c.Supplies.Count == 0) yield break;
        foreach (var valve in c.Chart.Valves.Where(c.IsWired))
        {
            if (valve.Type?.Class is "rectifier" or "damper" or "regulator") continue;
            foreach (var pin in valve.With(ElectrodeKind.Plate, ElectrodeKind.Screen).Where(p => IsJudged(c, valve, p)).DistinctBy(c.Node))
            {
                var node = c.Node(pin);
                if (c.Supplied.Contains(node)) continue;
                var what = pin.Has(ElectrodeKind.Plate) ? "plate" : "screen";
                var leaves = c.Paths.Reach([node], c.Ground).Any(n => !c.Ground.Contains(n) && c.LeavesTheBook(n));
                yield return new($"{what}-without-supply", leaves ? Weight.Doubt : Weight.Contradiction, pin.Lug,
                    $"The {what} of {valve.Part.Name} at {pin.Lug} has no DC way from a supply{(c.Ground.Contains(node) ? $"; it is on {c.CommonWords}" : "")}.",
                    $"Look for the {(what == "plate" ? "plate load" : "screen resistor")} and on which lugs its leads are.");
            }
            foreach (var pin in valve.With(ElectrodeKind.ControlGrid).Where(p => c.Rails.Contains(c.Node(p))).DistinctBy(c.Node))
                yield return new("grid-on-supply", Weight.Contradiction, pin.Lug,
                    $"The grid of {valve.Part.Name} at {pin.Lug} is on {c.Name(c.Node(pin))}, a supply.", "Look which wire on that lug belongs elsewhere: with power the valve would be destroyed.");
        }
    }

    private static bool IsJudged(RuleContext c, PluggedValve valve, ValvePin pin)
    {
        var node = c.Node(pin);
        var section = pin.Electrodes.First(e => e.Kind is ElectrodeKind.Plate or ElectrodeKind.Screen).Section;
        var own = valve.Pins.Where(p => p.Electrodes.Any(e => (e.Section == section || e.Section.Length == 0) && e.Kind is ElectrodeKind.ControlGrid or ElectrodeKind.Cathode)).ToArray();
        // A section strapped as a diode has its plate on its grid; an unused one has everything on common or on nothing.
        if (own.Any(p => p.Has(ElectrodeKind.ControlGrid) && c.Node(p) == node)) return false;
        if (pin.Has(ElectrodeKind.Plate) && c.Ground.Contains(node) && own.Where(p => p.Has(ElectrodeKind.ControlGrid)).All(p => c.Ground.Contains(c.Node(p)) || !c.IsUsed(p.Lug))) return false;
        return c.IsUsed(pin.Lug) || own.Any(p => c.IsUsed(p.Lug) && !c.Ground.Contains(c.Node(p)));
    }
}

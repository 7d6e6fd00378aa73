using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>Every grid, cathode and diode needs a way for direct current to common.</summary>
/// <remarks>
/// A grid may also return to its own cathode, to a supply (direct coupling) or to a declared voltage; a cathode also to another valve's plate below it.
/// When the chassis is not common, a way that ends at the chassis is no return. Where the way leaves the book (jack, screw, unknown part) the weight is a doubt.
/// A valve with nothing soldered to it, and a section with nothing soldered to it, are not judged.
/// </remarks>
internal static class ReturnRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        if (c.Common is not { } common) yield break;
        foreach (var valve in c.Chart.Valves.Where(c.IsWired))
        {
            var cathodes = valve.With(ElectrodeKind.Cathode, ElectrodeKind.Filament).Select(c.Node).ToHashSet();
            foreach (var pin in valve.With(ElectrodeKind.ControlGrid).Where(p => SectionIsUsed(c, valve, p) && !IsSecondPin(c, valve, p)).DistinctBy(c.Node))
            {
                var reached = c.Paths.Reach([c.Node(pin)], c.Ground);
                var declared = c.Book.Declared.Any(d => c.Chart.NodeOf(d.Name) is { } n && reached.Contains(n));
                if (reached.Contains(common) || reached.Overlaps(cathodes) || reached.Overlaps(c.Supplies) || declared) continue;
                yield return new("grid-without-return", Judge(c, reached), pin.Lug,
                    $"The grid of {valve.Part.Name} at {pin.Lug} has no DC way to {c.CommonWords} or to its cathode{ByChassis(c, reached)}: it would charge up and the valve would not hold its bias.",
                    "Look for the grid leak, or for the lead of it that is on the wrong lug.");
            }
            if (valve.Type?.Class is "rectifier" or "damper" or "regulator") continue;
            foreach (var pin in valve.With(ElectrodeKind.Cathode).Where(p => SectionIsUsed(c, valve, p)).DistinctBy(c.Node))
            {
                var reached = c.Paths.Reach([c.Node(pin)], c.Ground);
                if (reached.Contains(common) || OtherPlates(c, valve).Any(reached.Contains)) continue;
                var diode = IsDiodeCathode(valve, pin);
                if (diode && valve.With(ElectrodeKind.DiodePlate).Any(d => reached.Contains(c.Node(d)))) continue;
                yield return new("cathode-without-return", diode ? Weight.Doubt : Judge(c, reached), pin.Lug,
                    $"The cathode of {valve.Part.Name} at {pin.Lug} has no DC way to {c.CommonWords}{ByChassis(c, reached)}: no current can flow in the valve.",
                    "Look for the cathode resistor or the wire to common, and on which lugs its ends are.");
            }
            foreach (var pin in valve.With(ElectrodeKind.DiodePlate).Where(p => c.IsUsed(p.Lug)).DistinctBy(c.Node))
            {
                var reached = c.Paths.Reach([c.Node(pin)], c.Ground);
                if (reached.Contains(common) || reached.Overlaps(cathodes) || reached.Overlaps(c.Supplies)) continue;
                // Two diodes of a ratio detector return through each other.
                if (valve.With(ElectrodeKind.DiodePlate).Any(o => c.Node(o) != c.Node(pin) && reached.Contains(c.Node(o)))) continue;
                yield return new("diode-without-return", Weight.Doubt, pin.Lug,
                    $"The diode plate of {valve.Part.Name} at {pin.Lug} has no DC way to {c.CommonWords}{ByChassis(c, reached)}.", "Look for the diode's load resistor.");
            }
        }
    }

    private static string ByChassis(RuleContext c, HashSet<int> reached) =>
        c.Chassis is { } chassis && chassis != c.Common && reached.Contains(chassis) ? " (its way ends at the chassis, which is another node)" : "";

    private static Weight Judge(RuleContext c, HashSet<int> reached) =>
        reached.Any(n => !c.Ground.Contains(n) && c.LeavesTheBook(n)) ? Weight.Doubt : Weight.Contradiction;

    /// <summary>Plates that may carry this cathode's current further: those of other valves and of this valve's other section.</summary>
    private static IEnumerable<int> OtherPlates(RuleContext c, PluggedValve valve)
    {
        var cathodes = valve.With(ElectrodeKind.Cathode).ToArray();
        return c.Chart.Valves.SelectMany(v => v.With(ElectrodeKind.Plate)
            .Where(p => v != valve || cathodes.Length > 1 && !cathodes.All(k => SameSection(k, p))).Select(c.Node));
    }

    /// <summary>A cathode that serves diode plates only: in a ratio detector it returns through the other diode.</summary>
    private static bool IsDiodeCathode(PluggedValve valve, ValvePin cathode) =>
        valve.With(ElectrodeKind.DiodePlate).Any(d => SameSection(d, cathode)) && !valve.With(ElectrodeKind.Plate, ElectrodeKind.ControlGrid).Any(p => SameSection(p, cathode));

    /// <summary>A bare pin of an electrode that the base brings out twice: the valve joins it to the pin that is used.</summary>
    private static bool IsSecondPin(RuleContext c, PluggedValve valve, ValvePin pin) => !c.IsUsed(pin.Lug)
        && valve.Pins.Any(o => o.Lug != pin.Lug && c.IsUsed(o.Lug) && o.Electrodes.Any(x => pin.Electrodes.Any(y => x == y)));

    private static bool SameSection(ValvePin a, ValvePin b) => a.Electrodes.Any(x => b.Electrodes.Any(y => x.Section == y.Section));

    /// <summary>Is anything soldered to a pin of this electrode's section, heaters apart?</summary>
    private static bool SectionIsUsed(RuleContext c, PluggedValve valve, ValvePin pin) =>
        valve.Pins.Any(p => c.IsUsed(p.Lug) && p.Electrodes.Any(e => e.Kind is ElectrodeKind.Plate or ElectrodeKind.ControlGrid or ElectrodeKind.Cathode
            && pin.Electrodes.Any(o => o.Section == e.Section || o.Section.Length == 0 && e.Section.Length == 0)));
}

using System.Globalization;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>Heaters: fed, not shorted, not on a signal electrode, and alike where they share current or voltage.</summary>
/// <remarks>
/// As built and not reported: a rectifier's plate or lamp tap on its own heater, a rectifier's or damper's cathode on its heater, a heater on common
/// where cathodes and grounded grids meet, a heater on its own cathode, halves of a 12.6 V heater in parallel with the tap as the other end.
/// </remarks>
internal static class HeaterRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        var loops = new HeaterLoops(c);
        for (var i = 0; i < c.Chart.Valves.Length; i++)
        {
            var valve = c.Chart.Valves[i];
            var ends = HeaterLoops.Ends(c, valve);
            if (ends.Length < 2 || !c.IsWired(valve)) continue;
            var pins = valve.With(ElectrodeKind.Heater, ElectrodeKind.Filament, ElectrodeKind.HeaterTap).ToArray();
            var lugs = string.Join(" and ", pins.Select(p => p.Lug).Order(NaturalOrder.Names));
            if (ends.Distinct().Count() == 1)
                yield return new("heater-shorted", Weight.Contradiction, valve.Part.Name, $"All heater pins of {valve.Part.Name} ({lugs}) are on one node: its heater is shorted.", "Look which wire between them belongs elsewhere.");
            else if (loops.HasSource && loops.IsFed(i) == false)
                yield return new("heater-without-supply", Weight.Contradiction, valve.Part.Name,
                    $"The heater of {valve.Part.Name} ({lugs}) is on no closed way from the line or a heater winding: it would stay cold.",
                    pins.FirstOrDefault(p => !c.IsUsed(p.Lug)) is { } open ? $"Nothing is entered on {open.Lug}: look for the heater wire there." : "Follow its two heater wires to the next heaters and look where the chain is broken.");
        }
        foreach (var found in OnSignalElectrodes(c).Concat(Series(c)).Concat(Parallel(c))) yield return found;
    }

    private static IEnumerable<Contradiction> OnSignalElectrodes(RuleContext c)
    {
        foreach (var pin in c.Chart.Valves.SelectMany(v => v.With(ElectrodeKind.Heater, ElectrodeKind.Filament, ElectrodeKind.HeaterTap)))
        {
            var node = c.Node(pin);
            // A heater with a winding of its own may stand on its own cathode, to spare the insulation between them, and so on whatever that cathode feeds.
            if (c.Ground.Contains(node) || pin.Has(ElectrodeKind.Heater) && c.Chart.PinsOf[node].Any(p => p.Valve == pin.Valve && p.Has(ElectrodeKind.Cathode))) continue;
            foreach (var other in c.Chart.PinsOf[node])
            {
                var valve = c.Chart.Valves.First(v => v.Part == other.Valve);
                var rectifies = valve.Type?.Class is "rectifier" or "damper" or "diode";
                var kind = other.Electrodes.Select(e => e.Kind).FirstOrDefault(k => k is ElectrodeKind.Plate or ElectrodeKind.Screen or ElectrodeKind.ControlGrid);
                if (kind == ElectrodeKind.Other || kind == ElectrodeKind.Plate && rectifies) continue;
                // A filament valve's own grid may sit on its filament; a picture tube's anode is fed by its rectifier's filament.
                if (pin.Has(ElectrodeKind.Filament) && (pin.Valve == other.Valve && kind == ElectrodeKind.ControlGrid || IsRectifier(c, pin.Valve))) continue;
                var what = other.Electrodes.First(e => e.Kind == kind).InWords;
                yield return new($"heater-on-{what.Replace(' ', '-')}", Weight.Contradiction, pin.Lug,
                    $"The heater pin {pin.Lug} of {pin.Valve.Name} is joined to {other.Lug}, the {what} of {other.Valve.Name}.", "Look which wire or lead on these lugs belongs elsewhere.");
            }
            if (pin.Has(ElectrodeKind.Heater) && c.Rails.Contains(node) && !IsRectifier(c, pin.Valve))
                yield return new("heater-on-supply", Weight.Contradiction, pin.Lug, $"The heater pin {pin.Lug} of {pin.Valve.Name} is on {c.Name(node)}.", "Look which wire on this lug belongs elsewhere.");
        }
    }

    private static bool IsRectifier(RuleContext c, Part valve) => c.Chart.Valves.First(v => v.Part == valve).Type?.Class is "rectifier" or "damper";

    /// <summary>Two heaters alone on a node share one current.</summary>
    private static IEnumerable<Contradiction> Series(RuleContext c)
    {
        for (var node = 0; node < c.Chart.Count; node++)
        {
            if (c.Ground.Contains(node) || c.LeavesTheBook(node)) continue;
            var heaters = c.Chart.Valves.Where(v => v.With(ElectrodeKind.Heater).Any(p => c.Node(p) == node)).ToArray();
            if (heaters.Length != 2 || heaters.Any(v => Draw(c, v) is null) || c.Chart.PinsOf[node].Any(p => p.Has(ElectrodeKind.HeaterTap))) continue;
            if (c.Chart.LeadsOf[node].Any(l => !l.Part.Kind.IsCapacitor() && !(l.Part.Kind == PartKind.Resistor && l.Part.Value > 3300))) continue;
            var (a, b) = (Draw(c, heaters[0])!.Value, Draw(c, heaters[1])!.Value);
            if (a.Ends.SetEquals(b.Ends) || Math.Abs(a.Amperes - b.Amperes) <= 0.06 * Math.Max(a.Amperes, b.Amperes)) continue;
            yield return new("series-heaters-differ", Weight.Contradiction, c.Chart.BestLug(node),
                $"The heaters of {Words(heaters[0])} and {Words(heaters[1])} are in series at {c.Chart.BestLug(node)} but take {Text(a.Amperes)} A and {Text(b.Amperes)} A.",
                "Look at the type in each socket: one of them is not the type for this string, or a shunt resistor is not entered.");
        }
    }

    /// <summary>Two heaters across the same two nodes share one voltage; so does a winding marked with its volts.</summary>
    private static IEnumerable<Contradiction> Parallel(RuleContext c)
    {
        var heaters = c.Chart.Valves.Select(v => (Valve: v, Draw: Draw(c, v))).Where(h => h.Draw is not null && h.Draw.Value.Ends.Count == 2).ToArray();
        foreach (var across in heaters.GroupBy(h => string.Join('-', h.Draw!.Value.Ends.Order())))
        {
            var usual = across.GroupBy(h => h.Draw!.Value.Volts).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).First();
            foreach (var odd in across.Where(h => Math.Abs(h.Draw!.Value.Volts - usual.Key) > 0.1 * usual.Key))
                yield return new("parallel-heaters-differ", Weight.Contradiction, odd.Valve.Part.Name,
                    $"The heater of {Words(odd.Valve)} wants {Text(odd.Draw!.Value.Volts)} V but is across the same two nodes as {Words(usual.First().Valve)} with {Text(usual.Key)} V.",
                    "Look at the type in the socket and at how its heater pins are joined.");
            var ends = across.First().Draw!.Value.Ends;
            foreach (var winding in c.Book.Parts.Where(p => p.Kind == PartKind.Winding && c.Chart.Ends(p) is { } e && e.A != e.B && ends.Contains(e.A) && ends.Contains(e.B)))
                if (WindingVolts.Of(winding) is { } volts && Math.Abs(volts - usual.Key) > 0.2 * usual.Key)
                    yield return new("heater-winding-differs", Weight.Doubt, winding.Name,
                        $"{winding.Name} is marked {Text(volts)} V, but the heater of {Words(usual.First().Valve)} across it wants {Text(usual.Key)} V.", "Look at the marking, the type and the lugs.");
        }
    }

    /// <summary>What the heater takes as it is wired: a tapped one with both ends joined has its halves in parallel.</summary>
    private static (HashSet<int> Ends, double Volts, double Amperes)? Draw(RuleContext c, PluggedValve valve)
    {
        if (valve.Type is not { HeaterVolts: { } volts, HeaterAmperes: { } amperes }) return null;
        var ends = valve.With(ElectrodeKind.Heater, ElectrodeKind.Filament).Select(c.Node).ToHashSet();
        if (ends.Count == 2) return (ends, volts, amperes);
        var centre = valve.Pins.Where(p => p.Electrodes.Any(e => e.Letters == "hct")).Select(c.Node).FirstOrDefault(-1);
        if (ends.Count != 1 || centre < 0 || ends.Contains(centre)) return null;
        ends.Add(centre);
        return (ends, volts / 2, amperes * 2);
    }

    private static string Words(PluggedValve valve) => $"{valve.Part.Name} ({valve.Part.Marked})";
    private static string Text(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}

using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>A foot taken for earth: what goes to the chassis where common is another node; feet whose bond is not entered.</summary>
/// <remarks>
/// To the chassis belong, and are not reported: tuning capacitors and frames, parts from common or the line (they are the isolation), from earth, from an aerial.
/// </remarks>
internal static class FootRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        foreach (var lug in c.Book.Lugs.Where(IsFoot))
            if (c.Chassis is { } metal && c.Chart.NodeByLug[lug.Name] != metal && c.IsSoldered(lug.Name) && c.Chart.NodeByLug[lug.Name] != c.Common)
                yield return new("foot-without-bond", Weight.Doubt, lug.Name, $"{lug.Name} is a mounting foot with leads on it, but no bond joins it to the chassis in the book.", "If it touches bare metal, enter a wire of the kind 'bond' from it to the chassis; if it is insulated, say so in its function.");
        if (c.Common is not { } common || c.Chassis is not { } chassis || common == chassis) yield break;

        var feet = c.Chart.LugsOf[chassis].Where(l => c.Chart.MountOf(l)?.Kind is MountKind.TagStrip or MountKind.EarthLug || c.Book.Lugs.Named(l) is { } row && IsFoot(row)).Order(NaturalOrder.Names).ToArray();
        foreach (var foot in feet)
            yield return new("foot-is-not-common", Weight.Remark, foot, $"{foot} looks like an earth, but it is the chassis, and the chassis is not {c.CommonWords} in this set.", $"Take {c.CommonWords} for the meter's black lead and for replacement parts, not this foot.");
        foreach (var lead in c.Chart.LeadsOf[chassis].Where(l => IsSuspect(c, l, common)))
        {
            var other = lead.Letter == 'a' ? lead.Part.LeadB : lead.Part.LeadA;
            yield return new("foot-taken-for-earth", Weight.Doubt, lead.Part.Name,
                $"{lead.Part.Name} goes from {other} to {lead.Lug}, which is the chassis; the chassis is not {c.CommonWords} in this set.",
                $"Look whether it belongs on {c.CommonWords}; a foot beside it was probably taken for earth.");
        }
        foreach (var pin in c.Chart.PinsOf[chassis].Where(p => p.Electrodes.Any(e => e.Kind is Trade.Valves.ElectrodeKind.Cathode or Trade.Valves.ElectrodeKind.Heater)))
            yield return new("electrode-on-chassis", Weight.Doubt, pin.Lug, $"{pin.Lug} of {pin.Valve.Name} is on the chassis; the chassis is not {c.CommonWords} in this set.", "Look whether its wire belongs on common.");
    }

    private static bool IsSuspect(RuleContext c, PartLead lead, int common)
    {
        if (lead.Part.Kind is not PartKind.Resistor && !lead.Part.Kind.IsFixedCapacitor()) return false;
        if (c.Chart.NodeOf(lead.Letter == 'a' ? lead.Part.LeadB : lead.Part.LeadA) is not { } far) return false;
        if (far == common || far == c.Chassis || c.Map.IsOnLine(c.Map.Nodes[far]) || far == c.Map.Earth.Node?.Index) return false;
        if (c.LeavesTheBook(far) || c.Chart.LugsOf[far].Any(l => c.Chart.MountOf(l)?.Kind is MountKind.LoopPanel or MountKind.TuningGang)) return false;
        var aerial = c.Chart.LugsOf[far].Select(c.Book.Lugs.Named).Any(l => $"{l?.Function} {l?.Note}" is var w
            && (w.Contains("aerial", StringComparison.OrdinalIgnoreCase) || w.Contains("antenna", StringComparison.OrdinalIgnoreCase)));
        return !aerial;
    }

    private static bool IsFoot(Lug lug) =>
        lug.Function is { } words && words.Contains("foot", StringComparison.OrdinalIgnoreCase) && !words.Contains("insulat", StringComparison.OrdinalIgnoreCase);
}

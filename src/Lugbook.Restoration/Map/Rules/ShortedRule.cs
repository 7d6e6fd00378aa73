using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>A part with both leads on one node does nothing. A control's slider strapped to one end is as built.</summary>
internal static class ShortedRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        foreach (var part in c.Book.Parts)
        {
            if (part.LeadA is null || part.LeadB is null || c.Chart.Ends(part) is not { } ends || ends.A != ends.B) continue;
            var place = $"{part.LeadA} and {part.LeadB}";
            var byBond = c.Map.JoinedByBondsOnly(part.LeadA, part.LeadB);
            var how = RuleContext.Same(part.LeadA, part.LeadB) ? $"Both leads of {part.Name} are on {part.LeadA}"
                : byBond ? $"Both leads of {part.Name} ({place}) are on one node, by bonds to the metal"
                : $"Both leads of {part.Name} ({place}) are on one node, joined by wires";
            yield return part.Kind switch
            {
                PartKind.Control when c.Chart.NodeOf(part.LeadC) is { } slider && slider != ends.A =>
                    new("control-ends-joined", Weight.Doubt, part.Name, $"{how}: only the slider's place matters then.", "Look whether one end belongs elsewhere."),
                PartKind.Switch or PartKind.Fuse =>
                    new("bridged", Weight.Doubt, part.Name, $"{how}: the {PartKinds.Spelling(part.Kind)} is bridged and cannot do its work.", "Look for a strap from a former repair; a bridged fuse or switch is a danger before power."),
                _ => new("part-shorted", Weight.Contradiction, part.Name, $"{how}: it is shorted and does nothing.",
                    byBond ? "Look whether the foot really touches the metal, and on which lug the lead is." : "Look on which lugs its leads and the wires there really are."),
            };
        }
    }
}

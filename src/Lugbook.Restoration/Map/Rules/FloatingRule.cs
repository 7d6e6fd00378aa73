using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>A node that a single lead makes: that lead goes nowhere.</summary>
/// <remarks>
/// Not meant: blades, jacks, screws, speaker tags and other ways out of the set; free ends of controls and free taps of windings (a remark at most).
/// </remarks>
internal static class FloatingRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        for (var node = 0; node < c.Chart.Count; node++)
        {
            if (c.Chart.LeadsOf[node] is not [var lead] || c.Ground.Contains(node)) continue;
            if (c.Chart.PinsOf[node].Any(IsInUse) || LeadsOut(c, node) || lead.Part.Leads.Length < 2) continue;
            var part = lead.Part;
            var weight = part.Kind switch
            {
                PartKind.Resistor => Weight.Contradiction,
                PartKind.Control or PartKind.Winding or PartKind.Switch or PartKind.SubUnit or PartKind.Other => Weight.Remark,
                var kind when kind.IsFixedCapacitor() => Weight.Contradiction,
                _ => Weight.Doubt,
            };
            // A tap that nothing uses is as built; a winding whose whole end hangs is not.
            if (part.Kind == PartKind.Winding && !ShareANode(c, part)) weight = Weight.Doubt;
            var wired = c.Chart.LugsOf[node].Length > 1;
            yield return new("floating-node", weight, lead.Lug,
                wired ? $"Lead {lead.Letter} of {part.Name} on {lead.Lug} meets only wires that lead to nothing else ({string.Join(", ", c.Chart.LugsOf[node].Take(4))})."
                      : $"Lead {lead.Letter} of {part.Name} is alone on {lead.Lug}: nothing else is soldered there.",
                "Look for the lead or wire that is missing there, or for the lug on which this lead really is.");
        }
    }

    /// <summary>An electrode that does something, so that a lead on its pin is not alone.</summary>
    public static bool IsInUse(ValvePin pin) =>
        pin.Electrodes.Any(e => e.Kind is not (ElectrodeKind.NoConnection or ElectrodeKind.Internal or ElectrodeKind.Shell));

    private static bool ShareANode(RuleContext c, Part winding) =>
        c.Book.Parts.Any(p => p.Kind == PartKind.Winding && p.Id != winding.Id && RuleContext.Same(p.Group, winding.Group));

    private static bool LeadsOut(RuleContext c, int node) =>
        c.LeavesTheBook(node) || c.Chart.LugsOf[node].Any(l =>
            c.Chart.MountOf(l)?.Kind is MountKind.Speaker or MountKind.LoopPanel
            || Words(c.Book.Lugs.Named(l)));

    private static bool Words(Lug? lug)
    {
        var words = $"{lug?.Function} {lug?.Note}";
        return words.Contains("aerial", StringComparison.OrdinalIgnoreCase) || words.Contains("antenna", StringComparison.OrdinalIgnoreCase)
            || words.Contains("battery", StringComparison.OrdinalIgnoreCase);
    }
}

using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>Leads on no lug, parts with too few leads, parts of unknown kind.</summary>
internal static class LeadsRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        var hasLeads = c.Book.Parts.Any(p => p.Leads.Length > 0);
        foreach (var part in c.Book.Parts)
        {
            foreach (var found in UnknownLugs(c, part)) yield return found;
            if (part.Kind == PartKind.Other)
                yield return new("unknown-kind", Weight.Remark, part.Name, $"{part.Name} is a '{part.KindAsWritten}', a kind that Lugbook does not know: it is kept and drawn, but not judged.",
                    "Write a usual kind, such as resistor, paper, mica, ceramic, electrolytic, winding, control or valve.");
            if (part.Kind is PartKind.Valve or PartKind.Other) continue;
            if (TooFew(part, hasLeads) is { } few) yield return few;
        }
        if (c.Book.Lugs.Count == 0 && hasLeads)
            yield return new("no-lugs-entered", Weight.Remark, "lugs", "Parts have leads on lugs, but no lug is entered.", "Add the mounts; a template gives a strip or a socket its lugs.");
    }

    private static IEnumerable<Contradiction> UnknownLugs(RuleContext c, Part part)
    {
        if (c.Book.Lugs.Count == 0) yield break;
        foreach (var lead in part.Leads)
            if (c.Book.Lugs.Named(lead.Lug.Trim()) is null)
                yield return new("lead-on-no-lug", Weight.Contradiction, part.Name,
                    $"Lead {lead.Letter} of {part.Name} is on {lead.Lug}, but there is no lug {lead.Lug}.",
                    Nearest(c, lead.Lug) is { } near ? $"Did you mean {near}? Otherwise add the lug to its mount." : "Correct the lug's name, or add the lug to its mount.");
    }

    private static string? Nearest(RuleContext c, string lug)
    {
        var plain = Plain(lug);
        return c.Book.Lugs.FirstOrDefault(l => Plain(l.Name) == plain)?.Name;
        static string Plain(string name) => name.Replace("-", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal).Replace(".", "", StringComparison.Ordinal).ToUpperInvariant();
    }

    private static Contradiction? TooFew(Part part, bool othersHaveLeads)
    {
        var entered = part.Leads.Length;
        if (entered == 0)
            return othersHaveLeads
                ? new("no-leads", Weight.Remark, part.Name, $"No lead of {part.Name} is on a lug yet.", "Enter its lugs when you reach it; until then it is in no computation.")
                : null;
        if (entered == 1)
            return new("one-lead-part", Weight.Contradiction, part.Name,
                $"{part.Name} has one lead only, on {part.Leads[0].Lug}.", "Enter the lug of its other lead.");
        if (part.Kind == PartKind.Control && entered < 3 && !part.KindAsWritten.Contains("rheostat", StringComparison.OrdinalIgnoreCase))
            return part.LeadC is null
                ? new("control-without-wiper", Weight.Contradiction, part.Name, $"The control {part.Name} has no wiper: lead c is on no lug.", "Enter the lug of its slider as lead c.")
                : new("control-without-end", Weight.Doubt, part.Name, $"One end of the control {part.Name} is on no lug.", "Enter the end's lug, even when nothing else is soldered there; or call the kind a rheostat.");
        return null;
    }
}

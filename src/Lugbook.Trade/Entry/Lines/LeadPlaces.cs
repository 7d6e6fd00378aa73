using System.Globalization;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>A part with its leads put on lugs.</summary>
/// <param name="Part">The part.</param>
/// <param name="Waits">True when which lead was meant must be asked first.</param>
internal sealed record LeadPlaces(Part Part, bool Waits)
{
    /// <summary>Puts the leads of a note on their lugs; null when they do not fit, and then the note complains.</summary>
    public static LeadPlaces? Put(Part draft, Part? existing, List<LeadMention> mentions, BenchNote note, LugNames lugs, EntryContext context)
    {
        var placed = Merged(mentions);
        if (draft.Kind == PartKind.Valve)
        {
            if (placed.Count == 0) return new(draft, false);
            note.Complain(placed[0].At, $"a valve has no leads: {draft.Name} plugs into the socket {draft.Name}", "Leave the lugs out, or enter the part that is soldered there.");
            return null;
        }
        if (placed.Count == 0) return new(existing is null && context.Mode == EntryMode.Normal ? OnOwnMount(draft, note, lugs, context.Book) : draft, false);
        if (note.Moves && existing is not null) return Move(draft, existing, placed, note);
        return Fill(draft, existing, placed, note, lugs);
    }

    /// <summary>"R4-2 … wiper 2": a lug named twice is one lead.</summary>
    private static List<LeadMention> Merged(List<LeadMention> mentions)
    {
        var merged = new List<LeadMention>();
        foreach (var mention in mentions)
        {
            var twin = merged.FirstOrDefault(m => Same(m.Lug, mention.Lug));
            if (twin is not null && (twin.Role == LeadRole.None) != (mention.Role == LeadRole.None))
                twin.Role = twin.Role == LeadRole.None ? mention.Role : twin.Role;
            else merged.Add(mention);
        }
        return merged;
    }

    private static LeadPlaces? Fill(Part draft, Part? existing, List<LeadMention> mentions, BenchNote note, LugNames lugs)
    {
        var most = Math.Max(2, PartKinds.LeadsOf(draft.Kind));
        var part = draft;
        foreach (var pair in mentions.GroupBy(m => m.Lug, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1))
        {
            note.Complain(pair.Last().At, $"two leads on {pair.Key}", "A part with both leads on one lug does nothing: look again at the lugs.");
            return null;
        }
        if (draft.Kind == PartKind.Control && mentions.Count == 3 && mentions.All(m => m.Role != LeadRole.Wiper) && mentions.All(m => m.Role == LeadRole.None))
        {
            var wiper = mentions.FirstOrDefault(m => lugs.Exact(m.Lug)?.Function?.Contains("wiper", StringComparison.OrdinalIgnoreCase) == true)
                ?? mentions.FirstOrDefault(m => m.No == 2 && Same(m.Mount, draft.Name)) ?? mentions[2];
            wiper.Role = LeadRole.Wiper;
            note.Assumed.Add($"{wiper.Lug} is the wiper");
        }
        if (note.Forces && existing is { Leads.Length: 2 } && mentions.Count == 2 && mentions.All(m => m.Role == LeadRole.None) && most == 2)
            return new(part with { LeadA = mentions[0].Lug, LeadB = mentions[1].Lug }, false);
        var fresh = mentions.Where(m => !(existing is not null && existing.Leads.Any(l => Same(l.Lug, m.Lug) && Fits(l.Letter, m.Role)))).ToList();
        foreach (var mention in fresh.Where(m => m.Role is LeadRole.A or LeadRole.B or LeadRole.Wiper).Concat(fresh.Where(m => m.Role is LeadRole.None or LeadRole.Plus or LeadRole.Minus)))
        {
            var letter = mention.Role switch
            {
                LeadRole.A => 'a',
                LeadRole.B => 'b',
                LeadRole.Wiper => 'c',
                LeadRole.Plus when part.PlusLead is { } p => p,
                LeadRole.Minus when part.PlusLead is { } p => p == 'a' ? 'b' : 'a',
                _ => part.LeadA is null ? 'a' : part.LeadB is null ? 'b' : 'c',
            };
            if (letter == 'c' && most < 3)
            {
                note.Complain(mention.At, part.Leads.Length >= 2 ? $"{part.Name} has its leads on {part.LeadA} and {part.LeadB} already" : $"{part.Name} has no third lead",
                    existing is null ? "Write two lugs to a part." : $"To move a lead write: moved {part.Name} a {mention.Lug}.");
                return null;
            }
            var had = Get(part, letter);
            if (had is not null && !Same(had, mention.Lug) && !note.Forces)
            {
                note.Complain(mention.At, $"lead {letter} of {part.Name} is on {had} already", $"To move it write: moved {part.Name} {letter} {mention.Lug}.");
                return null;
            }
            part = Set(part, letter, mention.Lug);
        }
        return WithPlus(part, mentions, note) is { } done ? new(done, false) : null;
    }

    private static bool Fits(char letter, LeadRole role) => role switch { LeadRole.A => letter == 'a', LeadRole.B => letter == 'b', LeadRole.Wiper => letter == 'c', _ => true };

    private static Part? WithPlus(Part part, List<LeadMention> mentions, BenchNote note)
    {
        foreach (var mention in mentions.Where(m => m.Role is LeadRole.Plus or LeadRole.Minus))
        {
            var lead = part.Leads.FirstOrDefault(l => Same(l.Lug, mention.Lug));
            var plus = (mention.Role == LeadRole.Plus) == (lead.Letter == 'a') ? 'a' : 'b';
            if (part.PlusLead is { } had && had != plus && !note.Forces)
            {
                note.Complain(mention.At, $"{part.Name} has its {(part.Kind.IsRectifier() ? "cathode" : "+ lead")} on {part.PlusLug ?? "the other lead"}", $"To change it write: change {part.Name} plus {(mention.Role == LeadRole.Plus ? mention.Lug : "…")}.");
                return null;
            }
            part = part with { PlusLead = plus };
        }
        return part;
    }

    /// <summary>"moved C7 a V3-5", "moved C7 from V3-6 to V3-5", "moved C7 to V3-5".</summary>
    private static LeadPlaces? Move(Part draft, Part existing, List<LeadMention> mentions, BenchNote note)
    {
        var part = draft;
        var from = mentions.FirstOrDefault(m => m.IsFrom)
            ?? (mentions.Count == 2 && mentions.All(m => m.Role == LeadRole.None) && existing.Leads.Any(l => Same(l.Lug, mentions[0].Lug)) ? mentions[0] : null);
        if (from is not null)
        {
            var lead = existing.Leads.FirstOrDefault(l => Same(l.Lug, from.Lug));
            var to = mentions.Where(m => m != from).ToArray();
            if (lead.Lug is null) note.Complain(from.At, $"no lead of {existing.Name} is on {from.Lug}", $"Its leads are on {string.Join(" and ", existing.Leads.Select(l => l.Lug))}.");
            else if (to.Length != 1) note.Complain(from.At, "where does the lead go?", $"Write: moved {existing.Name} from {from.Lug} to V3-5.");
            else return new(Set(part, lead.Letter, to[0].Lug), false);
            return null;
        }
        var named = mentions.Where(m => m.Role != LeadRole.None).ToArray();
        foreach (var mention in named)
        {
            var letter = mention.Role switch
            {
                LeadRole.A => 'a',
                LeadRole.B => 'b',
                LeadRole.Wiper => 'c',
                _ when existing.PlusLead is { } plus => (mention.Role == LeadRole.Plus) == (plus == 'a') ? 'a' : 'b',
                _ => '?',
            };
            if (letter == '?' || (letter == 'c' && existing.Kind != PartKind.Control))
            {
                note.Complain(mention.At, $"{existing.Name} has no such lead", $"Name the lead by its letter: moved {existing.Name} a {mention.Lug}.");
                return null;
            }
            part = Set(part, letter, mention.Lug);
        }
        var rest = mentions.Where(m => m.Role == LeadRole.None).ToArray();
        if (rest.Length == 0) return new(part, false);
        if (rest.Length == 1 && named.Length == 0)
        {
            var sameMount = existing.Leads.Where(l => Same(NewMounts.MountOf(l.Lug), rest[0].Mount)).ToArray();
            if (existing.Leads.Length == 1 || sameMount.Length == 1)
            {
                var lead = existing.Leads.Length == 1 ? existing.Leads[0] : sameMount[0];
                note.Assumed.Add($"lead {lead.Letter} moves from {lead.Lug}");
                return new(Set(part, lead.Letter, rest[0].Lug), false);
            }
            note.Complain(rest[0].At, $"which lead of {existing.Name} moves there?", $"Write: moved {existing.Name} a {rest[0].Lug}, or b; lead a is on {existing.LeadA ?? "no lug"}, lead b on {existing.LeadB ?? "no lug"}.");
            return null;
        }
        if (rest.Length == 2 && named.Length == 0 && existing.Kind != PartKind.Control) return new(part with { LeadA = rest[0].Lug, LeadB = rest[1].Lug }, false);
        note.Complain(rest[0].At, "which lead moves where?", $"Write each lead's letter: moved {existing.Name} a {rest[0].Lug}.");
        return null;
    }

    /// <summary>A control, switch, fuse or the like whose mount has its own name and just as many lugs: it is on them.</summary>
    private static Part OnOwnMount(Part draft, BenchNote note, LugNames lugs, Book book)
    {
        if (draft.Kind is not (PartKind.Control or PartKind.Switch or PartKind.Fuse or PartKind.Lamp or PartKind.Speaker or PartKind.SeleniumRectifier) || book.Mounts.Named(draft.Name) is not { } mount) return draft;
        var own = lugs.Of(mount).OrderBy(l => l.No).ToArray();
        if (own.Length != PartKinds.LeadsOf(draft.Kind)) return draft;
        note.Assumed.Add($"its leads are on its own lugs {own[0].Name} to {own[^1].No?.ToString(CultureInfo.InvariantCulture) ?? own[^1].Name}");
        return draft.Kind == PartKind.Control
            ? draft with { LeadA = own[0].Name, LeadB = own[2].Name, LeadC = own[1].Name }
            : draft with { LeadA = own[0].Name, LeadB = own[1].Name };
    }

    private static string? Get(Part part, char letter) => letter switch { 'a' => part.LeadA, 'b' => part.LeadB, _ => part.LeadC };

    private static Part Set(Part part, char letter, string lug) => letter switch
    {
        'a' => part with { LeadA = lug },
        'b' => part with { LeadB = lug },
        _ => part with { LeadC = lug },
    };

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}

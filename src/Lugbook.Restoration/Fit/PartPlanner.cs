using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Fit;

/// <summary>Forms each new part: which lead first, sleeves, bends, lengths, the marked end.</summary>
internal sealed class PartPlanner(MapResult map, Bench bench, ClearanceFinder clearance, MarkedEnd marked, FitRules rules)
{
    public PartPlan Plan(Choice choice, Part part, double? span)
    {
        var body = NewBody.Of(choice);
        var section = choice.Group is not null && part.Kind == PartKind.Electrolytic;
        var order = Turns(part, out var first);
        var formed = !section && span is > 0 and { } apart && body is not null ? LeadForming.Of(apart, body) : ((Mounting Mounting, LeadForming.Lead Short, LeadForming.Lead Long)?)null;
        // The long lead of a part on end goes where the voltage is less: the second one, unless volts say otherwise.
        var longLead = formed is { Mounting: Mounting.Standing } && part.Leads.Length == 2 ? clearance.Higher(part.Leads[0].Lug, part.Leads[1].Lug) == part.Leads[0].Lug ? 'b' : clearance.Higher(part.Leads[0].Lug, part.Leads[1].Lug) is null ? order[^1] : 'a' : '-';
        return new()
        {
            Mounting = formed?.Mounting ?? Mounting.Unknown,
            Sentence = section ? "A section of a can: the new part stands beneath, in the emptied can, or in a new can; cut the old section off its lug, never leave it in parallel."
                : formed is { } f ? LeadForming.Words(f.Mounting, span!.Value, body!)
                : span is null ? "Hold the new part against the lugs before bending: their distance is not in the book."
                : $"The lugs are {Show.Number(span.Value)} mm apart in plan; the size of the new body is not known: hold it against them before bending.",
            BodyMm = body is null || section ? null : Math.Round(body.Length, 1),
            LeadDiameterMm = section ? null : body?.Lead,
            Leads = [.. part.Leads.Select(l => OfLead(choice, l, order.IndexOf(l.Letter) + 1, body, section ? null : formed is { } g ? l.Letter == longLead ? g.Long : g.Short : null))],
            First = first,
            MarkedEnd = choice.Requirement.Polarity is null ? marked.Of(choice) : null,
        };
    }

    private LeadPlan OfLead(Choice choice, Lead lead, int turn, NewBody? body, LeadForming.Lead? formed)
    {
        var near = clearance.Of(choice.PartId, lead.Letter);
        var length = formed is { } f ? Math.Round(f.Length, 1) : (double?)null;
        var wrap = LeadForming.Wrap(bench.Verdict(lead.Lug), body?.Lead ?? 0.8);
        var (sleeve, why) = near is not null ? (Sleeve(length, near), near.Sentence)
            : clearance.Knows(choice.PartId) ? (0.0, "No sleeve: no bare metal of another node lies near it in plan.")
            : ((double?)rules.SleeveMm, "Sleeve it before bending: where it runs is not known from the book.");
        return new() { Letter = lead.Letter, Lug = lead.Lug, Turn = turn, SleeveMm = sleeve, SleeveWhy = why, LengthMm = length, WrapMm = wrap, CutMm = length is { } l ? Math.Round(l + wrap, 0, MidpointRounding.AwayFromZero) : null, BendsMm = formed is { } g ? [.. g.Bends.Select(b => Math.Round(b, 1))] : [] };
    }

    private static double? Sleeve(double? length, LeadClearance near) => Math.Ceiling(length ?? near.PlanMm);

    // The one that is reached easily, is insulated and has nothing near that suffers from heat: it holds the part while the other is done quickly.
    private List<char> Turns(Part part, out string why)
    {
        (Lead Lead, (int Hot, int Over, int Bonded, int Ends) Score)[] leads = [.. part.Leads.Select(l => (l, (bench.HeatSensitive(l.Lug).Length, bench.Over(l.Lug, part.Id).Length, Bonded(l.Lug) ? 1 : 0, bench.Ends(l.Lug))))];
        var ordered = leads.OrderBy(l => l.Score).ThenBy(l => l.Lead.Letter).ToArray();
        var (a, b) = (ordered[0], ordered.Length > 1 ? ordered[1] : ordered[0]);
        why = ordered.Length < 2 || a.Score == b.Score ? $"Either lead first; by custom {a.Lead.Letter} at {a.Lead.Lug}."
            : a.Score.Hot != b.Score.Hot ? $"First {a.Lead.Letter} at {a.Lead.Lug}: beside {b.Lead.Lug} more suffers from heat, so that joint comes last and quickly."
            : a.Score.Over != b.Score.Over ? $"First {a.Lead.Letter} at {a.Lead.Lug}: it is reached freely, over {b.Lead.Lug} lies {Show.List(bench.Over(b.Lead.Lug, part.Id))}."
            : a.Score.Bonded != b.Score.Bonded ? $"First {a.Lead.Letter} at {a.Lead.Lug}: it is insulated; {b.Lead.Lug} is joined to the chassis and drinks heat."
            : $"First {a.Lead.Letter} at {a.Lead.Lug}: fewer ends are on it ({a.Score.Ends} against {b.Score.Ends}).";
        return [.. ordered.Select(o => o.Lead.Letter)];
    }

    private bool Bonded(string lug) => map.NodeOf(lug) is { } node && node.Index == map.Chassis.Node?.Index;
}

using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order;

namespace Lugbook.Restoration.Fit;

/// <summary>What the work that is left uses up, by rules of thumb and counted lengths.</summary>
internal static class Materials
{
    private const double Waste = 1.1;

    public static ImmutableArray<Consumable> Of(ImmutableArray<FitStep> steps, ImmutableArray<LugSheet> lugs, IReadOnlyList<Choice> work, FitRules rules)
    {
        FitStep[] left = [.. steps.Where(s => !s.Done)];
        if (left.Length == 0) return [];
        var open = left.Select(s => s.Number).ToHashSet();
        LeadPlan[] leads = [.. left.SelectMany(s => s.Plan.Leads)];
        var sleeved = leads.Where(l => l.SleeveMm is > 0).ToArray();
        var cleared = lugs.Where(l => l.Verdict == LugVerdict.ClearToBareMetal && l.Steps.Any(open.Contains)).ToArray();
        var heavy = cleared.Count(l => l.Ends >= rules.CrowdedFrom);
        var parts = left.Select(s => s.PartId).ToHashSet();
        var sections = work.Count(c => parts.Contains(c.PartId) && c.Group is not null && c.Requirement.Polarity is not null);
        var list = ImmutableArray.CreateBuilder<Consumable>();
        void Metres(string what, double mm, string reason)
        {
            if (mm > 0) list.Add(new(what, Math.Ceiling(mm / 100 - 1e-9) / 10, "m", reason));
        }
        Metres("sleeve, two or three diameters", sleeved.Sum(l => l.SleeveMm!.Value) * Waste,
            $"{N(sleeved.Length)} of {N(leads.Length)} leads, each by its length or {N(rules.SleeveMm)} mm where that is not known, and a tenth for waste.");
        Metres("solder, resin cored", leads.Length * rules.SolderMm, $"{N(leads.Length)} joints at {N(rules.SolderMm)} mm; common practice, no source.");
        Metres("desoldering braid", heavy * rules.BraidMm + (cleared.Length - heavy) * rules.LightBraidMm,
            $"{N(heavy)} lugs to be cleared with {N(rules.CrowdedFrom)} ends or more at {N(rules.BraidMm)} mm, {N(cleared.Length - heavy)} others at {N(rules.LightBraidMm)} mm; common practice, no source.");
        Metres("hook-up wire, insulated for the set's voltage", sections * rules.WireMm, $"{N(sections)} can sections built anew at {N(rules.WireMm)} mm; common practice, no source.");
        return list.ToImmutable();
    }

    private static string N(double number) => Show.Number(number);
}

using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Fit;

/// <summary>Writes the steps. A joint on a cleared lug is soldered once, when the last new lead has come.</summary>
internal static class StepWriter
{
    public static ImmutableArray<FitStep> Write(MapResult map, Bench bench, ImmutableArray<Turn> order, PartPlanner planner, FitRules rules)
    {
        var steps = ImmutableArray.CreateBuilder<FitStep>(order.Length);
        for (var i = 0; i < order.Length; i++) steps.Add(Step(map, bench, order, i, planner, rules));
        return steps.ToImmutable();
    }

    private static FitStep Step(MapResult map, Bench bench, ImmutableArray<Turn> order, int index, PartPlanner planner, FitRules rules)
    {
        var choice = order[index].Choice;
        var part = map.Book.Parts.ById(choice.PartId)!;
        var span = Span(map, part);
        var plan = planner.Plan(choice, part, span);
        var together = order.Where((t, i) => i != index && t.Round == order[index].Round).Select(t => t.Choice.Position).ToImmutableArray();
        return new()
        {
            Number = index + 1,
            PartId = choice.PartId,
            Position = choice.Position,
            Old = Describe(part),
            New = choice.New,
            Turn = order[index].Why,
            Off = [.. part.Leads.Select(l => new LeadWork(l.Letter, l.Lug, bench.Verdict(l.Lug), OffHow(bench, order, index, l, rules)))],
            On = [.. part.Leads.OrderBy(l => plan.Leads.FirstOrDefault(p => p.Letter == l.Letter)?.Turn ?? 9).Select(l => new LeadWork(l.Letter, l.Lug, bench.Verdict(l.Lug), OnHow(bench, order, index, l, part)))],
            SpanMm = span,
            Forming = FormingWords.Of(plan),
            Plan = plan,
            Round = order[index].Round,
            Together = together,
            Polarity = choice.Requirement.Polarity?.Sentence,
            Alike = Alike(order, index, map),
            Open = choice.New is null ? $"No part is chosen yet: do not open this position. {choice.Explanation}" : choice.Question,
            Cautions = StepCautions(bench, choice, part),
            Done = choice.Done,
        };
    }

    private static string OffHow(Bench bench, ImmutableArray<Turn> order, int index, Lead lead, FitRules rules)
    {
        if (bench.Verdict(lead.Lug) == LugVerdict.SpliceOntoShortTails) return $"Cut it off and leave {Show.Number(rules.TailMm)} mm.";
        return Others(bench, order, lead.Lug, index, later: true) is { Length: > 0 } later
            ? $"Unsolder it; {Show.List(later)} {(later.Length == 1 ? "leaves" : "leave")} this lug in a later step."
            : "Unsolder it; it is the last old lead here: clear the lug to bare metal.";
    }

    private static string OnHow(Bench bench, ImmutableArray<Turn> order, int index, Lead lead, Part part)
    {
        var sign = part.PlusLead is { } plus && part.Kind == PartKind.Electrolytic ? plus == lead.Letter ? "Plus lead. " : "Minus lead. " : "";
        if (bench.Verdict(lead.Lug) == LugVerdict.SpliceOntoShortTails) return $"{sign}Splice onto the tail and solder.";
        if (Others(bench, order, lead.Lug, index, later: true) is { Length: > 0 } later) return $"{sign}Hook it on and solder lightly; {Show.List(later)} still to come.";
        return Others(bench, order, lead.Lug, index, later: false) is { Length: > 0 } earlier
            ? $"{sign}Hook it on; it is the last here: solder it together with {Show.List(earlier)}."
            : $"{sign}Hook it on and solder.";
    }

    private static string[] Others(Bench bench, ImmutableArray<Turn> order, string lug, int index, bool later)
    {
        var here = bench.Off(lug).Select(l => l.PartId).ToHashSet();
        return [.. order.Select((t, i) => (t.Choice, i)).Where(t => here.Contains(t.Choice.PartId) && (later ? t.i > index : t.i < index)).Select(t => t.Choice.Position)];
    }

    private static double? Span(MapResult map, Part part) =>
        part.Leads.Length == 2 && map.Book.Lugs.Named(part.LeadA) is { X: { } x1, Y: { } y1 } && map.Book.Lugs.Named(part.LeadB) is { X: { } x2, Y: { } y2 }
            ? Math.Round(Math.Sqrt((x1 - x2) * (x1 - x2) + (y1 - y2) * (y1 - y2)), 1)
            : null;

    private static string? Alike(ImmutableArray<Turn> order, int index, MapResult map)
    {
        var here = order[index].Choice;
        var same = order.Where((t, i) => i != index && Confusable.LooksLike(map, here, t.Choice)).Select(t => t.Choice.Position).ToArray();
        return same.Length == 0 ? null : $"{Show.List(same)} {(same.Length == 1 ? "looks" : "look")} the same: finish this one before another is opened.";
    }

    private static ImmutableArray<Caution> StepCautions(Bench bench, Choice choice, Part part)
    {
        var cautions = choice.Cautions;
        if (part.Kind == PartKind.Electrolytic && part.RatedVolts is null or >= 60 || choice.Role.Role is Role.Reservoir or Role.Filter or Role.Doubler or Role.AcrossLine) cautions = cautions.Insert(0, Cautions.Discharge);
        if (choice.Lugs.Any(l => bench.HeatSensitive(l).Any(h => h.Contains("selenium", StringComparison.Ordinal)))) cautions = cautions.Add(Cautions.Selenium);
        return [.. cautions.Distinct()];
    }

    private static string Describe(Part part)
    {
        var value = part.Marked ?? (part.Value is { } v && part.Unit is { } u ? Show.Value(v, u) : "");
        return $"{part.KindAsWritten} {value}".Trim();
    }
}

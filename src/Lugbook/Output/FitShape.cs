using Lugbook.Restoration.Fit;

namespace Lugbook.Output;

/// <summary>A job sheet for programs: docs/json.md.</summary>
internal static class FitShape
{
    public static object Of(string book, FitResult fit) => new
    {
        Book = book,
        Cautions = fit.Cautions.Select(ChooseShape.Of),
        fit.DoneCount,
        fit.StepCount,
        fit.Next,
        fit.OrderRule,
        Order = new { Proven = fit.Order.Gap == 0 && fit.Order.Bound >= fit.Order.Cost.Total, fit.Order.Cost.Reheats, fit.Order.Cost.Moves, Cost = fit.Order.Cost.Total, fit.Order.Bound, fit.Order.Gap, Open = fit.Rules.Open, First = fit.Order.IsFirst, Seconds = Math.Round(fit.Order.Elapsed.TotalSeconds, 2), fit.Order.Sentence },
        Contradictions = fit.Contradictions.Select(c => new { c.Rule, c.Place, c.Sentence, c.Remedy }),
        Lugs = fit.Lugs.Select(l => new
        {
            l.Lug, l.Mount, l.Function, l.Verdict, l.Sentence, l.Ends, l.Near, l.Crowding,
            Off = l.Off.Select(Lead), Stay = l.Stay.Select(Lead), l.Wires, l.HeatSensitive, l.Steps,
        }),
        Steps = fit.Steps.Select(s => new
        {
            s.Number, s.Round, s.Together, s.Position, s.Old, s.New, s.Turn,
            Off = s.Off.Select(Work), On = s.On.Select(Work), s.SpanMm, s.Forming, Plan = Plan(s.Plan), s.Polarity, s.Alike, s.Open,
            Cautions = s.Cautions.Select(ChooseShape.Of), s.Done,
        }),
        fit.Clearance,
        fit.Materials,
        fit.Inspection,
        CutEnds = fit.Inspection.Sum(i => i.CutEnds),
        fit.Estimate,
        fit.NotOnSheet,
    };

    private static object Lead(FitLead lead) => new { lead.Position, Lead = lead.Letter.ToString(), lead.Lug };

    private static object Work(LeadWork work) => new { Lead = work.Letter.ToString(), work.Lug, work.Verdict, work.How };

    private static object Plan(PartPlan plan) => new
    {
        plan.Mounting, plan.Sentence, plan.BodyMm, plan.LeadDiameterMm, plan.First, plan.MarkedEnd,
        Leads = plan.Leads.Select(l => new { Lead = l.Letter.ToString(), l.Lug, l.Turn, l.LengthMm, l.WrapMm, l.CutMm, l.BendsMm, l.SleeveMm, l.SleeveWhy }),
    };
}

using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Fit;

/// <summary>What do I do at the bench, lug by lug? Clear or splice at each lug, and the positions in a sensible order.</summary>
public static class FitStage
{
    /// <summary>Pure: the same map and choices, the same sheet. Only what the book tells is said; forming beyond the plan's distances comes later.</summary>
    public static FitResult Run(MapResult map, ChooseResult choices)
    {
        var goes = choices.Choices.Where(c => c.Decision == Decision.Goes).ToArray();
        var work = goes.Where(c => c.Lugs.Length >= 2).ToArray();
        var bench = new Bench(map, work);
        var order = WorkOrder.Of(map, work);
        var contradictions = Disputed.In(map);
        var steps = StepWriter.Write(map, bench, order).Select(s => Disputed.Hold(s, map, contradictions)).ToImmutableArray();
        return new()
        {
            Lugs = LugWriter.Write(map, bench, order),
            Steps = steps,
            Contradictions = contradictions,
            NotOnSheet = [.. goes.Where(c => c.Lugs.Length < 2).Select(c => new NotOnSheet(c.Position, "Its leads are not entered: enter both lugs, and it joins the sheet."))],
            OrderRule = WorkOrder.Rule,
            DoneCount = steps.Count(s => s.Done),
            StepCount = steps.Length,
            Next = steps.FirstOrDefault(s => !s.Done)?.Number,
            Cautions = steps.IsEmpty ? choices.Cautions : [.. choices.Cautions, Cautions.Lead, Cautions.Rosin],
        };
    }
}

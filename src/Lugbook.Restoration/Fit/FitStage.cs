using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Order.Solving;
using Lugbook.Trade.Work;
using SolvingStage = Lugbook.Restoration.Fit.Solving.SolvingStage;

namespace Lugbook.Restoration.Fit;

/// <summary>What do I do at the bench, lug by lug? Clear or splice at each lug, how each part is formed, and the positions in the order that heats least.</summary>
public static class FitStage
{
    /// <summary>Pure: the same map, choices, rules, basis and order, the same sheet. What the book does not tell is named, not guessed.</summary>
    /// <param name="map">The map.</param>
    /// <param name="choices">What goes and what takes its place.</param>
    /// <param name="rules">Rules of thumb; null: those of the book.</param>
    /// <param name="basis">Layout and solved set, where they are known already.</param>
    /// <param name="order">An order found by <see cref="Order"/>; used while it answers the same problem. Else a first order is found at once.</param>
    public static FitResult Run(MapResult map, ChooseResult choices, FitRules? rules = null, FitBasis? basis = null, FitOrder? order = null)
    {
        var job = new Job(map, choices, rules, basis);
        var found = order is not null && order.Key == job.Order.Key ? order : job.Order.Find(SolvingStage.First, first: true);
        var turns = job.Order.Turns(found);
        var clearance = new ClearanceFinder(map, job.Bench, new(basis?.Solved), job.Work);
        var planner = new PartPlanner(map, job.Bench, clearance, new(map, basis?.Solved), job.Rules);
        var steps = StepWriter.Write(map, job.Bench, turns, planner, job.Rules).Select(s => Disputed.Hold(s, map, job.Contradictions)).ToImmutableArray();
        var lugs = LugWriter.Write(map, job.Bench, turns, job.Rules);
        var near = clearance.Report(job.Bench.Lugs);
        return new()
        {
            Lugs = lugs,
            Steps = steps,
            Contradictions = job.Contradictions,
            NotOnSheet = [.. job.Goes.Where(c => c.Lugs.Length < 2).Select(c => new NotOnSheet(c.Position, "Its leads are not entered: enter both lugs, and it joins the sheet."))],
            OrderRule = $"{WorkOrder.Rule} {Open(job.Rules.Open)} {found.Sentence}",
            Order = found,
            Rules = job.Rules,
            Clearance = near,
            Materials = Materials.Of(steps, lugs, job.Work, job.Rules),
            Inspection = Inspector.Of(lugs, steps, near),
            Estimate = Pace.Of(map, job.Work, job.Rules),
            DoneCount = steps.Count(s => s.Done),
            StepCount = steps.Length,
            Next = steps.FirstOrDefault(s => !s.Done)?.Number,
            Cautions = steps.IsEmpty ? choices.Cautions : [.. choices.Cautions, Cautions.Lead, Cautions.Rosin],
        };
    }

    /// <summary>Searches the best order of the work. What was done as a numbered step keeps its number.</summary>
    /// <param name="map">The map.</param>
    /// <param name="choices">What goes and what takes its place.</param>
    /// <param name="limit">Time after which the best order so far is given, with its gap.</param>
    /// <param name="rules">Rules of thumb; null: those of the book.</param>
    /// <param name="basis">Layout, where it is known already.</param>
    /// <param name="progress">Hears of better orders and bounds, on other threads.</param>
    /// <param name="stop">Ends early with the best order so far.</param>
    public static FitOrder Order(MapResult map, ChooseResult choices, TimeSpan limit, FitRules? rules = null, FitBasis? basis = null, IProgress<SolveProgress>? progress = null, CancellationToken stop = default) =>
        new Job(map, choices, rules, basis).Order.Find(problem => SolvingStage.Run(problem, limit, progress, stop), first: false);

    private static string Open(int most) => most == 1 ? "One position at a time, so that no two are open at once."
        : $"Up to {Show.Number(most)} positions are open at once, never two that look alike or would fit into each other's lugs.";

    /// <summary>What both questions need.</summary>
    private sealed class Job
    {
        public Job(MapResult map, ChooseResult choices, FitRules? rules, FitBasis? basis)
        {
            Rules = rules ?? FitRules.Read(map.Book.Facts.FitRules).Rules;
            Goes = [.. choices.Choices.Where(c => c.Decision == Decision.Goes)];
            Work = [.. Goes.Where(c => c.Lugs.Length >= 2)];
            Contradictions = Disputed.In(map);
            Bench = new(map, Work, new(map, basis?.Layout), Rules);
            var held = Work.Where(c => c.New is null || c.Question is not null || Disputed.Against(map.Book.Parts.ById(c.PartId), Contradictions).Length > 0).Select(c => c.PartId).ToHashSet();
            Order = new(map, Bench, Work, held, Rules);
        }

        public FitRules Rules { get; }
        public ImmutableArray<Choice> Goes { get; }
        public ImmutableArray<Choice> Work { get; }
        public ImmutableArray<Contradiction> Contradictions { get; }
        public Bench Bench { get; }
        public WorkOrder Order { get; }
    }
}

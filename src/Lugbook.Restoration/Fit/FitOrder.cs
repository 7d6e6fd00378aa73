using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit.Solving;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Fit;

/// <summary>An order of the work, with what is known of its worth.</summary>
public sealed record FitOrder
{
    /// <summary>Identities of the parts, round by round: what is in one round is open at once.</summary>
    public required ImmutableArray<ImmutableArray<int>> Rounds { get; init; }
    /// <summary>Stands for the problem that it answers, ticks apart: while it is the same, the order stays.</summary>
    public required string Key { get; init; }
    /// <summary>Counted over what was still to be done.</summary>
    public required WorkCost Cost { get; init; }
    /// <summary>No order costs less.</summary>
    public required long Bound { get; init; }
    /// <summary>How the search ended.</summary>
    public required SolveEnd End { get; init; }
    /// <summary>True for the answer that is given at once, before any search.</summary>
    public bool IsFirst { get; init; }
    /// <summary>How long it took.</summary>
    public required TimeSpan Elapsed { get; init; }

    /// <summary>How much less an order could cost at most, as a fraction; 0 when proven.</summary>
    public double Gap => Cost.Total <= 0 ? 0 : Math.Max(0, (double)(Cost.Total - Bound) / Cost.Total);

    /// <summary>What is known of it, as a sentence.</summary>
    public string Sentence
    {
        get
        {
            var counts = $"{Cost.Reheats} {(Cost.Reheats == 1 ? "lug is" : "lugs are")} heated once more later on, and {Cost.Moves} times the work goes on at another mount";
            return End == SolveEnd.Proven ? $"Proven: no order is better. {counts}."
                : $"{(IsFirst ? "A first answer, found at once" : End == SolveEnd.Stopped ? "Stopped before the proof" : $"Not proven in {Show.Number(Math.Round(Elapsed.TotalSeconds, 1))} s")}: {counts}. It costs {Cost.Total}, and none costs less than {Bound}: at most {Show.Number(Math.Round(Gap * 100, 1))} % could be saved.";
        }
    }
}

using Lugbook.Output;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Prove;
using Lugbook.Trade;
using Lugbook.Trade.Work;

namespace Lugbook.Web;

/// <summary>What a book needs next, and why.</summary>
/// <param name="Sentence">What to do.</param>
/// <param name="Why">What it brings.</param>
/// <param name="Button">The button's words.</param>
/// <param name="Address">Page of the book, from its own address.</param>
internal sealed record NextStep(string Sentence, string Why, string Button, string Address)
{
    /// <summary>The first thing that is missing, in the order of the work.</summary>
    public static NextStep Of(BookView? view, int unfinished)
    {
        if (view is null || view.Book.Parts.Count == 0)
            return new("Enter the parts.", "Values alone bring replacements and an order; lugs bring the job sheet; valves and supply bring voltages.", "Enter parts", "/parts");
        var wrong = view.Map.Contradictions.Count(c => c.Weight == Weight.Contradiction);
        if (wrong > 0)
            return new($"Look at {Words.Count(wrong, "contradiction")}.", "Something in the book cannot be true of a working set; what is computed from it would be wrong too.", "See what does not agree", "/map");
        if (unfinished > 0)
            return new($"Finish {Words.Count(unfinished, "part")}.", "A value or a lead is still open there.", "Finish parts", "/parts");
        var undecided = view.Choose.Choices.Count(c => c.Question is not null);
        if (undecided > 0)
            return new($"Answer {Words.Count(undecided, "question")}.", "Only you can tell; what depends on it is not chosen yet.", "Choose", "/choose");
        var left = view.Choose.Choices.Count(c => c.Decision == Decision.Goes && !c.Done);
        if (left > 0)
            return new($"{Words.Count(left, "part")} to exchange.", "Order once, then go lug by lug.", view.Choose.Choices.Any(c => c.Done) ? "Go on exchanging" : "See the order", view.Choose.Choices.Any(c => c.Done) ? "/fit" : "/order");
        return AfterWork(view.Book);
    }

    /// <summary>Everything that goes has been exchanged: cold proof first, and only behind it the first power.</summary>
    internal static NextStep AfterWork(Book book)
    {
        var read = book.Readings.Count(r => r.Note == ProveStage.Place);
        return read == 0
            ? new("Everything that goes has been exchanged.", "Check the work cold before any power.", "Prove it cold", "/prove")
            : new($"{Words.Count(read, "cold reading")} kept.", "No power before all that the cold proof asks for is read, agrees, and is looked at. Then plan the first power: limited, with stop limits.", "Plan the first power", "/wake");
    }
}

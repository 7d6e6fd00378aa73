using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Order.Lists;

namespace Lugbook.Web;

/// <summary>What the drawer has to do with a step of the job sheet. Pure.</summary>
internal static class FitDrawer
{
    /// <summary>The place of a step, as the drawer remembers it: "amp/C4".</summary>
    public static string Place(BookView view, string position) => $"{view.Book.Name}/{position}";

    /// <summary>What the drawer offers for a step that is open, nearest first in line; null where it has nothing, or where the part was counted when it was ordered.</summary>
    public static DrawerLine? Offer(BookView view, BenchSupply supply, FitStep step) =>
        !step.Done && step.Open is null && !supply.IsOrdered(Place(view, step.Position)) && view.Choose.For(step.Position) is { } choice
            && OrderStage.InDrawer(choice, supply.Drawer, view.Data.Policy.Catalogue) is [var line, ..] ? line : null;

    /// <summary>What the drawer has to do with a step, in a sentence; null for nothing.</summary>
    public static string? Note(BookView view, BenchSupply supply, FitStep step) => step.Done
        ? supply.Drawer.FittedAt(Place(view, step.Position)) is { } taken ? $"Counted down in the drawer: {taken.Part.Text}, {taken.Count} left." : null
        : supply.IsOrdered(Place(view, step.Position)) ? "Its part is on order or came with one; the drawer was counted then." : null;
}

using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Restoration.Order.Solving;

namespace Lugbook.Restoration.Order;

/// <summary>A book and what was chosen in it.</summary>
/// <param name="Book">Short name.</param>
/// <param name="Choices">The choices.</param>
public sealed record BookChoices(string Book, ChooseResult Choices);

/// <summary>Where parts may come from.</summary>
public sealed record OrderSupply
{
    /// <summary>What the user has.</summary>
    public Drawer Drawer { get; init; } = Drawer.Empty;
    /// <summary>Who sells; none: the catalogue's own part of each position, at example prices.</summary>
    public ImmutableArray<SupplierList> Suppliers { get; init; } = [];
    /// <summary>Tells what a list leaves out: the working voltage of a resistor body, the DC rating of a class part.</summary>
    public required Catalogue Catalogue { get; init; }
}

/// <summary>The user's word on a position: this item and no other.</summary>
/// <param name="Book">The book; null: every book.</param>
/// <param name="Position">Reference.</param>
/// <param name="Item">The item's number or text; of a pair both, with " + " between.</param>
public sealed record Pin(string? Book, string Position, string Item);

/// <summary>How the plan is made; all the user's to change.</summary>
public sealed record OrderRules
{
    /// <summary>Rules of thumb, spares of each bought line among them.</summary>
    public OrderPolicy Policy { get; init; } = new();
    /// <summary>What one line less is worth, in the lists' currency: picking, checking, a bag (common practice, no source). Not paid.</summary>
    public decimal LinePrice { get; init; } = 0.20m;
    /// <summary>Positions that the user has settled.</summary>
    public ImmutableArray<Pin> Pins { get; init; } = [];
    /// <summary>Items that are not wanted, by number or text.</summary>
    public ImmutableArray<string> Bans { get; init; } = [];
    /// <summary>Time for the plan; the next best ones have a quarter of it each.</summary>
    public TimeSpan Limit { get; init; } = TimeSpan.FromSeconds(10);
}

/// <summary>A position in one of the books.</summary>
/// <param name="Book">Short name.</param>
/// <param name="Position">Reference.</param>
public readonly record struct PlacedAt(string Book, string Position);

/// <summary>So many of one item, and where they go.</summary>
public sealed record PlanLine
{
    /// <summary>The supplier; null: the drawer.</summary>
    public string? Supplier { get; init; }
    /// <summary>The item's number or text.</summary>
    public required string Item { get; init; }
    /// <summary>What it is.</summary>
    public required ChosenPart Part { get; init; }
    /// <summary>Bought, or taken from the drawer.</summary>
    public required int Count { get; init; }
    /// <summary>Fitted; the rest is spare.</summary>
    public required int Needed { get; init; }
    /// <summary>Price of one at this count; null from the drawer.</summary>
    public decimal? Each { get; init; }
    /// <summary>Count times price; null from the drawer.</summary>
    public decimal? Sum { get; init; }
    /// <summary>Where they go, in the order of the books.</summary>
    public required ImmutableArray<PlacedAt> Positions { get; init; }
    /// <summary>Why this many and this one; empty when nothing is to be said.</summary>
    public string Why { get; init; } = "";
    /// <summary>Where it lies, from the drawer's list.</summary>
    public string? Where { get; init; }
}

/// <summary>What stands at one position.</summary>
/// <param name="At">The position.</param>
/// <param name="Supplier">The supplier; null: the drawer.</param>
/// <param name="Item">The item.</param>
/// <param name="Part">What it is.</param>
/// <param name="Why">What differs from the old part.</param>
public sealed record PlannedPosition(PlacedAt At, string? Supplier, string Item, ChosenPart Part, string Why)
{
    /// <summary>How many of the item; two make a pair.</summary>
    public int Count { get; init; } = 1;
    /// <summary>What else belongs to it: the other of a pair, the resistors that balance it.</summary>
    public ImmutableArray<PlannedItem> Also { get; init; } = [];
    /// <summary>What to pin to keep it: the item, or both of a pair with a plus between; what balances a pair is not part of it.</summary>
    public string PinItem => Count == 1 && Also.All(a => a.Part.Unit != Part.Unit) ? Item : string.Join(" + ", Count == 2 ? [Item, Item] : Also.Where(a => a.Part.Unit == Part.Unit).Take(1).Select(a => a.Item).Prepend(Item));
    /// <summary>All of it in words.</summary>
    public string Text => string.Join(" with ", Also.Select(a => a.Count == 1 ? a.Part.Text : string.Create(CultureInfo.InvariantCulture, $"{a.Count} × {a.Part.Text}")).Prepend(Count == 1 ? Part.Text : string.Create(CultureInfo.InvariantCulture, $"{Count} × {Part.Text}")));
}

/// <summary>A further item at a position.</summary>
/// <param name="Supplier">The supplier; null: the drawer.</param>
/// <param name="Item">The item.</param>
/// <param name="Part">What it is.</param>
/// <param name="Count">How many.</param>
public sealed record PlannedItem(string? Supplier, string Item, ChosenPart Part, int Count);

/// <summary>The order to one supplier.</summary>
/// <param name="Supplier">Name.</param>
/// <param name="Lines">What is bought.</param>
/// <param name="Goods">Sum of the lines.</param>
/// <param name="Filling">To be added of anything useful: up to the least order, or to free postage where that is cheaper.</param>
/// <param name="Postage">Postage.</param>
/// <param name="Sentence">What this supplier is bought for.</param>
public sealed record ShopPlan(string Supplier, ImmutableArray<PlanLine> Lines, decimal Goods, decimal Filling, decimal Postage, string Sentence)
{
    /// <summary>Goods, filling and postage.</summary>
    public decimal Total => Goods + Filling + Postage;
}

/// <summary>Another plan and what it costs more.</summary>
/// <param name="Without">The supplier that it does without.</param>
/// <param name="Extra">Money more than the plan; null when it leaves positions open.</param>
/// <param name="Sentence">In words.</param>
public sealed record OtherPlan(string Without, decimal? Extra, string Sentence);

/// <summary>A position that the plan leaves open.</summary>
/// <param name="At">The position.</param>
/// <param name="Reason">Why, and the nearest that there is.</param>
public sealed record OpenPosition(PlacedAt At, string Reason);

/// <summary>What to buy where, and what to take from the drawer.</summary>
public sealed record OrderPlan
{
    /// <summary>Orders, the largest first.</summary>
    public required ImmutableArray<ShopPlan> Shops { get; init; }
    /// <summary>Taken from the drawer.</summary>
    public required ImmutableArray<PlanLine> FromDrawer { get; init; }
    /// <summary>Every position that is served.</summary>
    public required ImmutableArray<PlannedPosition> Positions { get; init; }
    /// <summary>Positions that want a part and get none.</summary>
    public required ImmutableArray<OpenPosition> Open { get; init; }
    /// <summary>Positions for which none is wanted.</summary>
    public required ImmutableArray<OpenPosition> NotOrdered { get; init; }
    /// <summary>What the work uses up.</summary>
    public required ImmutableArray<Consumable> Consumables { get; init; }
    /// <summary>Currency as the lists write it; null when none does.</summary>
    public string? Currency { get; init; }
    /// <summary>To be paid.</summary>
    public required decimal Money { get; init; }
    /// <summary>Was the plan proven to be the cheapest?</summary>
    public required bool IsProven { get; init; }
    /// <summary>How much cheaper a plan could be at most, as a fraction of money and line prices; 0 when proven.</summary>
    public required double Gap { get; init; }
    /// <summary>Proof or gap in words.</summary>
    public required string Proof { get; init; }
    /// <summary>How long the search took, s; that of the next best plans comes on top.</summary>
    public required double Seconds { get; init; }
    /// <summary>How the search ended.</summary>
    public required SolveEnd End { get; init; }
    /// <summary>The next best plans, without one supplier each.</summary>
    public required ImmutableArray<OtherPlan> Others { get; init; }
    /// <summary>What was assumed or left out.</summary>
    public required ImmutableArray<string> Remarks { get; init; }
    /// <summary>What must be answered before the order is sent.</summary>
    public required ImmutableArray<string> Questions { get; init; }
    /// <summary>Lines of all orders and of the drawer.</summary>
    public IEnumerable<PlanLine> Lines => Shops.SelectMany(s => s.Lines).Concat(FromDrawer);
}

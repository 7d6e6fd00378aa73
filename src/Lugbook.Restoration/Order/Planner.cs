using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order.Solving;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Order;

/// <summary>Turns choices into a problem, and the solution into a plan in words.</summary>
internal sealed class Planner
{
    private readonly ImmutableArray<BookChoices> _books;
    private readonly OrderRules _rules;
    private readonly SupplyShelf _shelf;
    private readonly List<WantedAt> _wanted = [];
    private readonly List<OpenPosition> _open = [];
    private readonly List<OpenPosition> _not = [];
    private readonly List<string> _remarks = [];

    public Planner(ImmutableArray<BookChoices> books, OrderSupply supply, OrderRules rules)
    {
        (_books, _rules, _shelf) = (books, rules, SupplyShelf.Of(supply, rules));
        var wanted = new List<(PlacedAt At, Choice Choice)>();
        foreach (var book in books)
        {
            foreach (var choice in book.Choices.Choices)
            {
                var at = new PlacedAt(book.Book, choice.Position);
                if (Wanted.WhyNot(choice, rules.Policy, elsewhere: true) is { } reason) _not.Add(new(at, reason));
                // An electrolytic on the alternating line is a slip in the book: nothing is bought for it, whoever sells one.
                else if (choice.Requirement.SafetyClass != SafetyClass.None && PartKinds.Of(choice.OldKind) == PartKind.Electrolytic || choice.Requirement.Value is null) _open.Add(new(at, choice.Explanation));
                else wanted.Add((at, choice));
            }
            _not.AddRange(book.Choices.NotChosen.Select(n => new OpenPosition(new(book.Book, n.Position), n.Reason)));
        }
        if (!_shelf.HasSuppliers) _shelf.AddCatalogue(wanted.SelectMany(w => OwnParts(w.Choice, supply.Catalogue)), rules);
        var bags = new BagFinder(_shelf);
        foreach (var (at, choice) in wanted)
        {
            var pin = PinOf(at);
            var two = pin?.Item.Split(" + ", 2, StringSplitOptions.TrimEntries) is [var a, var b] ? bags.OfTwo(choice.Requirement, a, b) : [];
            var (sources, refusal) = two.IsEmpty ? SourcesOf(choice, pin) : ([], null);
            var pairs = !two.IsEmpty ? two : sources.IsEmpty && refusal is null ? bags.Of(choice.Requirement) : [];
            if (sources.IsEmpty && pairs.IsEmpty) _open.Add(new(at, refusal ?? None(choice)));
            else _wanted.Add(new(at, choice, sources, pairs));
        }
    }

    public OrderPlan Plan(IProgress<SolveProgress>? progress, CancellationToken stop)
    {
        var problem = Problem(_ => true);
        var solution = SolvingStage.Run(problem, _rules.Limit, progress, stop);
        return PlanWords.Of(this, problem, solution, Others(solution, stop));
    }

    public SupplyShelf Shelf => _shelf;
    public OrderRules Rules => _rules;
    public IReadOnlyList<WantedAt> Positions => _wanted;
    public IReadOnlyList<OpenPosition> Unserved => _open;
    public IReadOnlyList<OpenPosition> NotOrdered => _not;
    public IEnumerable<string> Remarks => _remarks.Concat(_shelf.Remarks);

    public ImmutableArray<Consumable> Consumables =>
    [
        .. _books.SelectMany(b => Wanted.Consumables(b.Choices, [.. _wanted.Where(w => w.At.Book == b.Book).Select(w => w.Choice)], _rules.Policy))
            .GroupBy(c => (c.What, c.Unit)).Select(g => g.Count() == 1 ? g.First() : new Consumable(g.Key.What, Math.Round(g.Sum(c => c.Amount), 1), g.Key.Unit, string.Join(" ", g.Select(c => c.Reason)))),
    ];

    public IEnumerable<string> Questions => _books.SelectMany(b => (b.Choices.Line.Known ? [] : new[] { b.Choices.Line.Sentence })
        .Concat(_wanted.Where(w => w.At.Book == b.Book && w.Choice.Question is not null).Select(w => $"{w.At.Position}: {w.Choice.Question}"))
        .Select(q => _books.Length > 1 ? $"{b.Book}: {q}" : q));

    private OrderProblem Problem(Func<Source, bool> allowed) => new()
    {
        Items = [.. _shelf.Sources.Select(s => s.Sale)],
        Shops = [.. _shelf.Shops.Select(s => s.Terms)],
        Demands = [.. _wanted.Select(w => new Demand(
        [
            .. w.Sources.Where(s => allowed(_shelf.Sources[s])).Select(s => new Way([new(s, 1)], Distance(w.Choice.Requirement, _shelf.Sources[s].Part))),
            .. w.Bags.Where(b => b.Items.All(i => allowed(_shelf.Sources[i.Item]))).Select(b => new Way(b.Items)),
        ]))],
        LinePrice = (long)Math.Round(Math.Max(0, _rules.LinePrice) * SupplyShelf.Scale),
    };

    // What the Choose stage took from the catalogue, and what balances a pair.
    private static IEnumerable<ChosenPart> OwnParts(Choice choice, Catalogue catalogue)
    {
        if (choice.Candidates is not [var first, ..]) return [];
        return first.Balancer is { } balancer && PartPicker.Pick(BagFinder.Balancing(choice.Requirement, balancer), catalogue).Candidates is [{ Parts: [var across] }, ..]
            ? first.Parts.Append(across) : first.Parts;
    }

    private Pin? PinOf(PlacedAt at) => _rules.Pins.FirstOrDefault(p => string.Equals(p.Position, at.Position, StringComparison.OrdinalIgnoreCase) && (p.Book is null || string.Equals(p.Book, at.Book, StringComparison.OrdinalIgnoreCase)));

    private (ImmutableArray<int> Sources, string? Refusal) SourcesOf(Choice choice, Pin? pin)
    {
        var fit = _shelf.Within(choice.Requirement).Where(s => Fitting.Of(choice.Requirement, _shelf.Sources[s].Part) is null).Order().ToImmutableArray();
        if (pin is null) return (Lasting(fit), null);
        var pinned = fit.Where(s => _shelf.Sources[s].IsCalled(pin.Item)).ToImmutableArray();
        if (!pinned.IsEmpty) return (pinned, null);
        if (pin.Item.Split(" + ", 2, StringSplitOptions.TrimEntries) is [var a, var b])
            return ([], (string[])[a, b] is var names && names.FirstOrDefault(n => !_shelf.Sources.Any(s => s.IsCalled(n))) is { } missing ? $"'{missing}' is pinned here, and neither the drawer nor a list has it (or it is banned). Correct the pin or take it away."
                : $"'{pin.Item}' is pinned here, and the two together may not stand here: value, sharing or ratings are against it, or nothing balances them. Take the pin away.");
        var meant = _shelf.Sources.FirstOrDefault(s => s.IsCalled(pin.Item));
        return ([], meant is null
            ? $"'{pin.Item}' is pinned here, and neither the drawer nor a list has it (or it is banned). Correct the pin or take it away."
            : $"'{pin.Item}' is pinned here, and it may not stand here: {Fitting.Of(choice.Requirement, meant.Part)} Take the pin away.");
    }

    // An electrolytic for less than 105 °C serves only where none for 105 °C can be had, or where it is pinned.
    private ImmutableArray<int> Lasting(ImmutableArray<int> fit)
    {
        bool Lasts(int s) => CategoryTemperature.OfLife(_shelf.Sources[s].Part.Kind, _shelf.Sources[s].Part.Celsius) is null;
        return fit.Any(s => Lasts(s) && _shelf.Sources[s].Sale.Stock is null) ? [.. fit.Where(Lasts)] : fit;
    }

    private string None(Choice choice)
    {
        if (!_shelf.HasSuppliers) return choice.Explanation;
        var nearest = _shelf.Nearest(choice.Requirement);
        var why = nearest is null ? "No list has such parts." : $"Nothing in the drawer or the lists fits. The nearest is {nearest.Part.Text}{(nearest.Supplier is { } from ? $" from {from}" : " in the drawer")}: {Fitting.Of(choice.Requirement, nearest.Part)}";
        return choice.Part is { } usual ? $"{why} Look for {usual.Text}." : $"{why} {choice.Explanation}";
    }

    // Of plans that cost the same: best kind first, then the nearest value, then the lowest rating.
    internal static int Distance(Requirement need, ChosenPart part)
    {
        var off = need.Value is { } window ? Math.Abs(Math.Log(part.Value / window.Target)) : 0;
        var above = need.VoltsAtLeast is > 0 and var least && part.Volts is { } volts ? Math.Log(volts / least) : 0;
        return Math.Max(0, need.Kinds.IndexOf(part.Kind)) * 100_000 + (int)(Math.Min(off, 9) * 10_000) + (int)(Math.Clamp(above, 0, 9) * 100);
    }

    private ImmutableArray<OtherPlan> Others(OrderSolution best, CancellationToken stop)
    {
        if (_shelf.Shops.Length < 2) return [];
        var others = ImmutableArray.CreateBuilder<OtherPlan>();
        var used = _shelf.Sources.Select((s, i) => (s, i)).Where(x => x.s.Shop is not null && best.Cost.Bought[x.i] > 0).Select(x => x.s.Shop!.Value).Distinct().Order().ToArray();
        foreach (var shop in used)
        {
            if (stop.IsCancellationRequested) break;
            var name = _shelf.Shops[shop].Name;
            var problem = Problem(s => s.Shop != shop);
            var lost = problem.Demands.Count(d => d.Ways.IsEmpty);
            var next = SolvingStage.Run(problem, _rules.Limit / 4, null, stop);
            var open = next.Cost.Open - best.Cost.Open;
            var extra = (next.Cost.Money - best.Cost.Money) / SupplyShelf.Scale;
            var about = next.End == SolveEnd.Proven ? "" : "at most ";
            others.Add(open > 0
                ? new(name, null, string.Create(CultureInfo.InvariantCulture, $"Without {name} {open} {(open == 1 ? "position stays" : "positions stay")} open{(lost > 0 && lost == open ? ": nobody else sells what fits there" : "")}."))
                : new(name, extra, extra >= 0 ? string.Create(CultureInfo.InvariantCulture, $"Without {name}: {about}{extra:0.00} more, {next.Cost.Lines} lines instead of {best.Cost.Lines}.")
                    : string.Create(CultureInfo.InvariantCulture, $"Without {name}: {-extra:0.00} less money, but {next.Cost.Lines} lines instead of {best.Cost.Lines}.")));
        }
        return [.. others.OrderBy(o => o.Extra is null).ThenBy(o => o.Extra)];
    }
}

/// <summary>A position that wants a part, and all that may serve it.</summary>
/// <param name="At">The position.</param>
/// <param name="Choice">What it asks for.</param>
/// <param name="Sources">Single parts that may stand there.</param>
/// <param name="Bags">Pairs, where no single part may.</param>
internal sealed record WantedAt(PlacedAt At, Choice Choice, ImmutableArray<int> Sources, ImmutableArray<Bag> Bags);

using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Power;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Solve;
using Lugbook.Store.Shelves;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;

namespace Lugbook.Web;

/// <summary>A stored book with its answers, each computed when first asked for.</summary>
internal sealed class BookView
{
    private readonly Lazy<MapResult> _map;
    private readonly Lazy<ChassisLayout> _layout;
    private readonly Lazy<ChooseResult> _firstPass;
    private readonly Lazy<ChooseResult> _choose;
    private readonly Lazy<SolveResult> _solved;
    private readonly Lazy<SheetResult> _sheet;
    private readonly Lazy<BoundsResult> _bounds;
    private readonly Lazy<JudgeBasis> _basis;
    private readonly Lazy<JudgeResult> _judge;
    private FitOrder? _order;
    private (bool WorkedOut, FitOrder? Order, FitResult Sheet)? _fit;
    private readonly System.Collections.Concurrent.ConcurrentDictionary<string, AfterCheck?> _checks = new(StringComparer.OrdinalIgnoreCase);

    /// <param name="stored">The book.</param>
    /// <param name="data">What the answers need besides.</param>
    /// <param name="before">The view before the last edit: what that edit did not touch is kept.</param>
    public BookView(StoredBook stored, BenchData data, BookView? before = null)
    {
        Stored = stored;
        Data = data = before is not null && before.Book.ValveTypes.Equals(stored.Book.ValveTypes) && before.Book.ValveLines.Equals(stored.Book.ValveLines) ? before.Data : data.For(stored.Book);
        _map = new(() => MapStage.Run(stored.Book, data.Handbook));
        _firstPass = new(() => data.FirstPass(_map.Value));
        var same = before is not null && SameSet(before.Book, stored.Book);
        _solved = same ? before!._solved : new(() => data.Solve(_map.Value));
        var sameMeter = same && SameMeter(before!.Book, stored.Book);
        _sheet = sameMeter ? before!._sheet : new(() => data.Sheet(_solved.Value, stored.Book));
        _bounds = same ? before!._bounds : new(() => BoundsStage.Run(_solved.Value));
        // With another meter what lies in parallel is found anew at its volts; the rest stays.
        _basis = sameMeter ? before!._basis : same && before!._basis.IsValueCreated ? new(() => before._basis.Value.With(BookMeters.AtBench(stored.Book).OhmsTestVolts, _sheet)) : new(() => BenchData.Basis(_solved.Value, _bounds.Value, stored.Book, _sheet));
        _judge = new(() => BenchData.Judge(stored.Book, _basis.Value));
        _layout = before is not null && SamePlaces(before.Book, stored.Book) ? before._layout : new(() => LayoutStage.Run(stored.Book));
        _order = before?._order;
        _choose = new(() => data.Choose(_map.Value, new(_solved.Value, _sheet.Value, _bounds.Value), _judge));
    }

    public StoredBook Stored { get; }
    public Book Book => Stored.Book;
    /// <summary>Handbook and laws with the book's own valves.</summary>
    public BenchData Data { get; }
    public MapResult Map => _map.Value;
    /// <summary>Where everything lies.</summary>
    public ChassisLayout Layout => _layout.Value;
    /// <summary>By the solved circuit once that is there; until then by wiring, markings and practice alone.</summary>
    public ChooseResult Choose => _choose.IsValueCreated || _sheet.IsValueCreated && _bounds.IsValueCreated ? _choose.Value : _firstPass.Value;
    /// <summary>Does <see cref="Choose"/> rest on the solved circuit?</summary>
    public bool IsWorkedOut => _choose.IsValueCreated || _sheet.IsValueCreated && _bounds.IsValueCreated;
    /// <summary>Solves the circuit and chooses by it. The first time it takes from a fraction of a second to some seconds: call it off the page's own thread.</summary>
    public ChooseResult WorkOut() => _choose.Value;
    /// <summary>The solved set. The first time it takes from a fraction of a second to some seconds: ask for it off the page's own thread.</summary>
    public SolveResult Solved => _solved.Value;
    /// <summary>The voltage sheet; see <see cref="Solved"/> for how long it takes.</summary>
    public SheetResult Sheet => _sheet.Value;
    /// <summary>What every position bears; see <see cref="Solved"/> for how long it takes.</summary>
    public BoundsResult Bounds => _bounds.Value;
    /// <summary>Verdicts; see <see cref="Solved"/> for how long it takes.</summary>
    public JudgeResult Judge => _judge.Value;
    /// <summary>Is what verdicts rest on there, so that they come without waiting?</summary>
    public bool HasBasis => _basis.IsValueCreated;
    /// <summary>Is the circuit solved already?</summary>
    public bool IsSolved => _solved.IsValueCreated;
    /// <summary>Is the sheet there without waiting?</summary>
    public bool HasSheet => _sheet.IsValueCreated;
    /// <summary>What the supply bears; a large set takes half a minute: call it off the page's own thread.</summary>
    public PowerResult Power(CancellationToken stop) => PowerStage.Run(_solved.Value, SheetConditions.Of(Book, Data.Handbook), Data.Policy.RectifierLimits, stop);

    public OrderResult Order => OrderStage.Run(Choose, FitRules.ForOrder(new()));
    /// <summary>The book's rules of thumb for the bench.</summary>
    public FitRules FitRules => FitRules.Read(Book.Facts.FitRules).Rules;
    /// <summary>What the sheet rests on besides map and choices, as far as it is there without waiting.</summary>
    public FitBasis FitBasis => new(_layout.Value, IsWorkedOut ? Solved : null);
    /// <summary>The job sheet, in the order that was kept, or else in the first one that is found at once.</summary>
    public FitResult Fit
    {
        get
        {
            if (_fit is { } known && known.WorkedOut == IsWorkedOut && ReferenceEquals(known.Order, _order)) return known.Sheet;
            var sheet = FitStage.Run(Map, Choose, FitRules, FitBasis, _order);
            _fit = (IsWorkedOut, _order, sheet);
            return sheet;
        }
    }
    /// <summary>Takes an order that a search has found; it stays while the work is the same, ticks apart.</summary>
    public void KeepOrder(FitOrder order) => _order = order;

    /// <summary>What to read right after a position is soldered; null when it is not on the sheet. It takes a fraction of a second once the circuit is solved: ask for it off the page's own thread.</summary>
    public AfterCheck? Check(string position) => _checks.GetOrAdd(position, p => SlipsStage.CheckOf(_solved.Value.Netlist with { Map = Map }, SlipsStage.WorkOf(Fit, Choose), p, SlipsStage.MetersOf(Book)));

    private static BookFacts Electrical(BookFacts facts) =>
        facts with { Title = "", Story = null, Year = null, Policy = null, FitRules = null, Meter = null, TodayLineVolts = null, ChartLineVolts = null, ChartOhmsPerVolt = null, ChartInputOhms = null };

    // What only the sheet's conditions take from the book.
    private static bool SameMeter(Book a, Book b) => Conditions(a.Facts) == Conditions(b.Facts) && a.Meters.Equals(b.Meters);
    private static (string?, double?, double?, double?, double?) Conditions(BookFacts f) => (f.Meter, f.TodayLineVolts, f.ChartLineVolts, f.ChartOhmsPerVolt, f.ChartInputOhms);

    // Where a thing lies changes no current either.
    private static IEnumerable<Lug> Joined(Book book) => book.Lugs.Select(l => l with { X = null, Y = null });
    private static IEnumerable<Part> Wired(Book book) => book.Parts.Select(p => p with { BodyX = null, BodyY = null, BodyTurn = null });

    // Where things lie depends on what is entered, not on what is decided or done.
    private static bool SamePlaces(Book a, Book b) => a.Mounts.Equals(b.Mounts) && a.Lugs.Equals(b.Lugs) && a.Wires.Equals(b.Wires) && a.Parts.Equals(b.Parts);

    // Readings and decisions change no current, and no more do places: what was solved stays solved.
    private static bool SameSet(Book a, Book b) => Electrical(a.Facts) == Electrical(b.Facts) && a.Mounts.Equals(b.Mounts) && Joined(a).SequenceEqual(Joined(b)) && a.Wires.Equals(b.Wires)
        && Wired(a).SequenceEqual(Wired(b)) && a.Declared.Equals(b.Declared) && a.SheetReadings.Equals(b.SheetReadings)
        && a.ValveTypes.Equals(b.ValveTypes) && a.ValveLines.Equals(b.ValveLines);
}

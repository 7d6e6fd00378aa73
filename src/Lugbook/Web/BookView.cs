using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Order;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Solve;
using Lugbook.Store.Shelves;
using Lugbook.Trade;

namespace Lugbook.Web;

/// <summary>A stored book with its answers, each computed when first asked for.</summary>
internal sealed class BookView
{
    private readonly Lazy<MapResult> _map;
    private readonly Lazy<ChooseResult> _choose;
    private readonly Lazy<SolveResult> _solved;
    private readonly Lazy<SheetResult> _sheet;
    private readonly Lazy<BoundsResult> _bounds;
    private readonly Lazy<OrderResult> _order;
    private readonly Lazy<FitResult> _fit;

    public BookView(StoredBook stored, BenchData data)
    {
        Stored = stored;
        _map = new(() => MapStage.Run(stored.Book, data.Handbook));
        _choose = new(() => data.Choose(_map.Value));
        _solved = new(() => data.Solve(_map.Value));
        _sheet = new(() => SheetStage.Run(_solved.Value, SheetConditions.Of(stored.Book.Facts, data.Handbook)));
        _bounds = new(() => BoundsStage.Run(_solved.Value));
        _order = new(() => OrderStage.Run(_choose.Value));
        _fit = new(() => FitStage.Run(_map.Value, _choose.Value));
    }

    public StoredBook Stored { get; }
    public Book Book => Stored.Book;
    public MapResult Map => _map.Value;
    public ChooseResult Choose => _choose.Value;
    /// <summary>The solved set. The first time it takes from a fraction of a second to some seconds: ask for it off the page's own thread.</summary>
    public SolveResult Solved => _solved.Value;
    /// <summary>The voltage sheet; see <see cref="Solved"/> for how long it takes.</summary>
    public SheetResult Sheet => _sheet.Value;
    /// <summary>What every position bears; see <see cref="Solved"/> for how long it takes.</summary>
    public BoundsResult Bounds => _bounds.Value;
    /// <summary>Is the sheet there without waiting?</summary>
    public bool HasSheet => _sheet.IsValueCreated;
    public OrderResult Order => _order.Value;
    public FitResult Fit => _fit.Value;
}

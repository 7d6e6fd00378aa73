using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Order;
using Lugbook.Store.Shelves;
using Lugbook.Trade;

namespace Lugbook.Web;

/// <summary>A stored book with its answers, each computed when first asked for.</summary>
internal sealed class BookView
{
    private readonly Lazy<MapResult> _map;
    private readonly Lazy<ChooseResult> _choose;
    private readonly Lazy<OrderResult> _order;
    private readonly Lazy<FitResult> _fit;

    public BookView(StoredBook stored, BenchData data)
    {
        Stored = stored;
        _map = new(() => MapStage.Run(stored.Book, data.Handbook));
        _choose = new(() => data.Choose(_map.Value));
        _order = new(() => OrderStage.Run(_choose.Value));
        _fit = new(() => FitStage.Run(_map.Value, _choose.Value));
    }

    public StoredBook Stored { get; }
    public Book Book => Stored.Book;
    public MapResult Map => _map.Value;
    public ChooseResult Choose => _choose.Value;
    public OrderResult Order => _order.Value;
    public FitResult Fit => _fit.Value;
}

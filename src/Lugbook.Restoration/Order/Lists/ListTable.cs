using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade.Text;

namespace Lugbook.Restoration.Order.Lists;

/// <summary>A list with its header found: which column is which, and the facts that stand above it.</summary>
internal sealed class ListTable
{
    private const int LookDown = 25;
    private readonly LooseTable _table;
    private readonly Dictionary<ListColumn, int> _columns = [];
    private readonly int _header;

    private ListTable(LooseTable table, int header) => (_table, _header) = (table, header);

    /// <summary>Columns headed by a quantity: "10+".</summary>
    public List<(int Quantity, int Index)> Quantities { get; } = [];
    /// <summary>Columns "qty1" and "price1".</summary>
    public List<(int Quantity, int Price)> Pairs { get; } = [];
    /// <summary>Facts above the header, as written, with their line.</summary>
    public Dictionary<SupplierFact, (string Text, int Line)> Facts { get; } = [];
    /// <summary>Headers that were not understood.</summary>
    public ImmutableArray<string> Unknown { get; private set; } = [];
    /// <summary>A currency named in a header of prices.</summary>
    public string? HeaderCurrency { get; private set; }
    /// <summary>The rows beneath the header.</summary>
    public IEnumerable<LooseRow> Body => _table.Rows.Skip(_header + 1);

    public bool Has(ListColumn column) => _columns.ContainsKey(column);
    public bool HasPrices => Has(ListColumn.Price) || Has(ListColumn.Breaks) || Quantities.Count > 0 || Pairs.Count > 0;
    public bool HasParts => Has(ListColumn.Description) || Has(ListColumn.Value);
    public string? Cell(LooseRow row, ListColumn column) => _columns.TryGetValue(column, out var at) ? row[at] : null;
    public int IndexOf(ListColumn column) => _columns.GetValueOrDefault(column, -1);

    public string Place(LooseRow row, string column) => string.Create(CultureInfo.InvariantCulture, $"{_table.Place}, {_table.LineWord} {row.Line}, {column}");
    public string PlaceOf(LooseRow row) => string.Create(CultureInfo.InvariantCulture, $"{_table.Place}, {_table.LineWord} {row.Line}");

    /// <summary>The table; or why there is none.</summary>
    public static (ListTable? List, Complaint? Complaint) Find(LooseTable table, bool counts)
    {
        ListTable? best = null;
        for (var r = 0; r < Math.Min(LookDown, table.Rows.Length); r++)
        {
            var tried = new ListTable(table, r);
            tried.Match(table.Rows[r], counts);
            if (tried.Suffices(counts) && (best is null || tried.Understood > best.Understood)) best = tried;
        }
        if (best is null)
            return (null, new(table.Place, "", 0, $"no header of a {(counts ? "drawer" : "price list")} was found in its first lines",
                counts ? "Head the columns: description, count; or kind, value, volts, watts, count." : "Head the columns: item, description, price; or kind, value, volts, watts, price, pack, minimum, stock."));
        for (var r = 0; r < best._header; r++)
            if (table.Rows[r][0] is { } word && ListWords.FactOf(word.TrimEnd(':')) is { } fact && table.Rows[r][1] is { } text) best.Facts[fact] = (text, table.Rows[r].Line);
        return (best, null);
    }

    private int Understood => _columns.Count + Quantities.Count + Pairs.Count;
    private bool Suffices(bool counts) => HasParts && (counts ? Has(ListColumn.Count) : HasPrices);

    private void Match(LooseRow row, bool counts)
    {
        var unknown = ImmutableArray.CreateBuilder<string>();
        var pairs = new Dictionary<int, (int Quantity, int Price)>();
        for (var i = 0; i < row.Cells.Length; i++)
        {
            if (row[i] is not { Length: <= 60 } header) continue;
            if (ListWords.PairOf(header) is var (isPrice, n)) pairs[n] = pairs.TryGetValue(n, out var p) ? isPrice ? (p.Quantity, i) : (i, p.Price) : isPrice ? (-1, i) : (i, -1);
            else if (ListWords.ColumnOf(header, counts) is { } column && _columns.TryAdd(column, i))
            {
                if (column == ListColumn.Price) HeaderCurrency = PriceText.CurrencyIn(header);
            }
            else if (ListWords.QuantityOf(header) is { } quantity) Quantities.Add((quantity, i));
            else unknown.Add(header);
        }
        Pairs.AddRange(pairs.OrderBy(p => p.Key).Select(p => p.Value).Where(p => p.Price >= 0));
        Unknown = unknown.ToImmutable();
    }
}

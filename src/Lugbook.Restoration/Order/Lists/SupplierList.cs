using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Trade.Text;

namespace Lugbook.Restoration.Order.Lists;

/// <summary>From this quantity on each piece costs this much.</summary>
/// <param name="From">Pieces, 1 or more.</param>
/// <param name="Price">Of one piece, in the list's currency, four decimals.</param>
public sealed record PriceBreak(int From, decimal Price);

/// <summary>One line of a supplier's list.</summary>
public sealed record Offer
{
    /// <summary>The supplier's number for it; its text when there is none.</summary>
    public required string Item { get; init; }
    /// <summary>What it is.</summary>
    public required ChosenPart Part { get; init; }
    /// <summary>Prices, the quantity rising and the price not.</summary>
    public required ImmutableArray<PriceBreak> Prices { get; init; }
    /// <summary>Sold in multiples of this, pieces.</summary>
    public int Pack { get; init; } = 1;
    /// <summary>Least quantity, pieces.</summary>
    public int Minimum { get; init; } = 1;
    /// <summary>Pieces there; null when not told: as many as wanted.</summary>
    public int? Stock { get; init; }
    /// <summary>Line in the file.</summary>
    public int Line { get; init; }
}

/// <summary>What a supplier asks besides the price of the goods; all in the list's currency.</summary>
/// <param name="Postage">Once an order.</param>
/// <param name="FreeFrom">Goods from which postage is free; null: never.</param>
/// <param name="MinimumOrder">Least goods of an order.</param>
public sealed record SupplierTerms(decimal Postage = 0, decimal? FreeFrom = null, decimal MinimumOrder = 0);

/// <summary>What one supplier sells, as far as it could be read; the refused lines are beside it.</summary>
public sealed record SupplierList
{
    /// <summary>The supplier.</summary>
    public required string Name { get; init; }
    /// <summary>Currency as written; null when not told.</summary>
    public string? Currency { get; init; }
    /// <summary>Postage and minimum order.</summary>
    public SupplierTerms Terms { get; init; } = new();
    /// <summary>The lines that stand.</summary>
    public required ImmutableArray<Offer> Offers { get; init; }

    /// <summary>How many cells of a row are headers of such a list.</summary>
    public static int Understood(IReadOnlyList<string> cells) => ListWords.Understood(cells);

    /// <summary>Reads a table: one list for each supplier that it names. Never throws on bad content.</summary>
    /// <param name="table">CSV or a sheet.</param>
    /// <param name="name">What to call the supplier when the table does not say.</param>
    public static ListReading<SupplierList> Parse(LooseTable table, string name) => SupplierListReader.Read(table, name);

    /// <summary>The list as comma-separated text that reads back the same.</summary>
    public string ToCsv() => ListCsv.Of(this);
}

/// <summary>What came of reading lists: what stands, every refused line, and remarks.</summary>
/// <param name="Lists">What stands.</param>
/// <param name="Complaints">Refused lines; at most <see cref="ListLimits.Complaints"/> of a table, the rest is counted.</param>
/// <param name="Remarks">What was assumed or left out.</param>
/// <typeparam name="T">Supplier lists or drawers.</typeparam>
public sealed record ListReading<T>(ImmutableArray<T> Lists, ImmutableArray<Complaint> Complaints, ImmutableArray<string> Remarks);

/// <summary>How long a list may be, so that memory and time stay bounded.</summary>
public sealed record ListLimits
{
    /// <summary>Lines that are read of one table.</summary>
    public const int Rows = 50_000;
    /// <summary>Complaints that are listed of one table.</summary>
    public const int Complaints = 200;
    /// <summary>Pieces that a line may speak of.</summary>
    public const int Pieces = 100_000;
}

/// <summary>Collects complaints up to the limit and counts the rest.</summary>
internal sealed class Refusals(string place)
{
    private readonly ImmutableArray<Complaint>.Builder _complaints = ImmutableArray.CreateBuilder<Complaint>();
    private int _more;

    public void Add(Complaint complaint)
    {
        if (_complaints.Count < ListLimits.Complaints) _complaints.Add(complaint);
        else _more++;
    }

    public ImmutableArray<Complaint> All()
    {
        if (_more > 0) _complaints.Add(new(place, "", 0, string.Create(CultureInfo.InvariantCulture, $"there are {_more} more like these"), "Mend those that are listed first."));
        return _complaints.ToImmutable();
    }
}

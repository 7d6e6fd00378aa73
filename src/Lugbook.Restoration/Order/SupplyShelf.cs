using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order.Lists;
using Lugbook.Restoration.Order.Solving;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Order;

/// <summary>One thing that may serve positions: a line of the drawer, of a supplier, or the catalogue's own part.</summary>
internal sealed record Source(string? Supplier, int? Shop, string Item, ChosenPart Part, SaleItem Sale, string? Where = null, string? Assumed = null, DrawerLine? Line = null, bool IsUsualRipple = false)
{
    public bool IsCalled(string name) => string.Equals(name, Item, StringComparison.OrdinalIgnoreCase) || string.Equals(name, Part.Text, StringComparison.OrdinalIgnoreCase)
        || Supplier is not null && string.Equals(name, $"{Supplier}:{Item}", StringComparison.OrdinalIgnoreCase);
}

/// <summary>All sources of one order, found by value.</summary>
internal sealed class SupplyShelf
{
    /// <summary>Money in the solver's whole numbers.</summary>
    public const decimal Scale = 10_000m;

    private readonly List<Source> _sources = [];
    private readonly List<string> _remarks = [];
    private Dictionary<Unit, (double[] Values, int[] At)> _byValue = [];

    public IReadOnlyList<Source> Sources => _sources;
    public IReadOnlyList<string> Remarks => _remarks;
    public ImmutableArray<(string Name, ShopTerms Terms)> Shops { get; private set; } = [];
    public string? Currency { get; private set; }
    public bool HasSuppliers { get; private set; }

    public static SupplyShelf Of(OrderSupply supply, OrderRules rules)
    {
        var shelf = new SupplyShelf { HasSuppliers = !supply.Suppliers.IsEmpty };
        foreach (var line in supply.Drawer.Lines.Where(l => l.Count > 0))
            shelf.Add(new(null, null, line.Item, line.Part, new() { Stock = line.Count }, line.Where, Line: line), supply.Catalogue, rules);
        shelf.AddSuppliers(supply, rules);
        shelf.Index();
        return shelf;
    }

    /// <summary>The catalogue's parts as the only shop: what a user without any list sees.</summary>
    public void AddCatalogue(IEnumerable<ChosenPart> parts, OrderRules rules)
    {
        Shops = [("catalogue, example prices", new(0, null, 0))];
        foreach (var part in parts.Distinct())
        {
            var price = (long)Math.Round(((part.PriceLow ?? 0) + (part.PriceHigh ?? 0)) / 2 * Scale);
            Add(new(Shops[0].Name, 0, part.Text, part, new() { Shop = 0, Prices = [new(1, price)], Spares = rules.Policy.SparesPerLine }), Catalogue.Empty, rules);
        }
        Index();
    }

    /// <summary>Indices of sources whose value lies in the window.</summary>
    public IEnumerable<int> Within(Requirement need)
    {
        if (need.Value is not { } window || !_byValue.TryGetValue(need.Unit, out var sorted)) yield break;
        var from = Array.BinarySearch(sorted.Values, window.Low * (1 - 2e-9));
        for (var i = from < 0 ? ~from : from; i < sorted.Values.Length && sorted.Values[i] <= window.High * (1 + 2e-9); i++) yield return sorted.At[i];
    }

    /// <summary>The source nearest in value, whatever its ratings; null when there is none of the unit.</summary>
    public Source? Nearest(Requirement need) => need.Value is not { } window ? null
        : _sources.Where(s => s.Part.Unit == need.Unit).MinBy(s => (Math.Round(Math.Abs(Math.Log(s.Part.Value / window.Target)), 6), !need.Accepts(s.Part.SafetyClass), !need.Kinds.Contains(s.Part.Kind)));

    private void AddSuppliers(OrderSupply supply, OrderRules rules)
    {
        Currency = supply.Suppliers.Where(s => s.Currency is not null).GroupBy(s => s.Currency!).OrderByDescending(g => g.Count()).FirstOrDefault()?.Key;
        var shops = new Dictionary<string, (int Index, ShopTerms Terms)>(StringComparer.OrdinalIgnoreCase);
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        var twice = 0;
        foreach (var list in supply.Suppliers)
        {
            if (list.Currency is { } currency && currency != Currency)
            {
                _remarks.Add($"{list.Name} is left out: its prices are in {currency}, those of the others in {Currency}. Convert its list, or order from it by itself.");
                continue;
            }
            var terms = new ShopTerms(Whole(list.Terms.Postage), list.Terms.FreeFrom is { } free ? Whole(free) : null, Whole(list.Terms.MinimumOrder));
            if (!shops.TryGetValue(list.Name, out var shop) || shop.Terms == new ShopTerms(0, null, 0)) shops[list.Name] = shop = (shop.Terms is null ? shops.Count : shop.Index, terms);
            foreach (var offer in list.Offers)
            {
                if (!seen.Add($"{list.Name}\n{offer.Item}")) { twice++; continue; }
                var prices = offer.Prices.Select(p => new PriceStep(p.From, Whole(p.Price))).ToImmutableArray();
                prices = prices.SetItem(0, prices[0] with { From = 1 });
                Add(new(list.Name, shop.Index, offer.Item, offer.Part, new() { Shop = shop.Index, Prices = prices, Pack = offer.Pack, Minimum = offer.Minimum, Stock = offer.Stock, Spares = rules.Policy.SparesPerLine }), supply.Catalogue, rules);
            }
        }
        if (twice > 0) _remarks.Add(FormattableString.Invariant($"{twice} lines stand in two lists of one supplier; the first of each counts."));
        Shops = [.. shops.OrderBy(s => s.Value.Index).Select(s => (s.Key, s.Value.Terms))];
    }

    private void Add(Source source, Catalogue catalogue, OrderRules rules)
    {
        if (rules.Bans.Any(source.IsCalled)) return;
        _sources.Add(Completed(source, catalogue));
    }

    // A list seldom tells the working voltage of a resistor body or the DC rating of a class part: the most modest usual one is taken.
    private static Source Completed(Source source, Catalogue catalogue)
    {
        var part = source.Part;
        if (part is { Kind: NewKind.Electrolytic, RippleAmperes: null, Volts: { } rated }) return Ripple(source, rated, catalogue);
        if (part.Volts is not null) return source;
        if (part.Unit == Unit.Ohm)
        {
            var like = catalogue.Series.Where(s => s.Kind == part.Kind && s.Watts <= part.Watts * (1 + 1e-9)).ToArray();
            if (like.Length == 0) return source;
            var watts = like.Max(s => s.Watts);
            var volts = like.Where(s => s.Watts == watts).Min(s => s.Volts);
            return source with { Part = part with { Volts = volts }, Assumed = $"Its working voltage is not stated; {Show.Volts(volts)} is usual for {Show.Kind(part.Kind)} of {Show.Number(watts ?? 0)} W." };
        }
        if (part.SafetyClass == SafetyClass.None) return source;
        var class1 = catalogue.Series.Where(s => s.SafetyClass == part.SafetyClass && s.LineVolts <= part.LineVolts * (1 + 1e-9)).Select(s => (double?)s.Volts).Min();
        return class1 is { } dc ? source with { Part = part with { Volts = dc }, Assumed = $"Its DC rating is not stated; {Show.Volts(dc)} is the least usual for class {part.SafetyClass}." } : source;
    }

    // The least that the catalogue's series of this or a lower rating promise for the value.
    private static Source Ripple(Source source, double rated, Catalogue catalogue)
    {
        var like = catalogue.Series.Where(s => s.Kind == NewKind.Electrolytic && s.RippleMaxAmperes is not null && s.Values is [var least, .., var most] && source.Part.Value >= least * 0.99 && source.Part.Value <= most * 1.01).ToArray();
        var near = like.Where(s => s.Volts <= rated * (1 + 1e-9)).Select(s => (double?)s.Volts).Max() ?? like.Select(s => (double?)s.Volts).Min();
        return like.Where(s => s.Volts == near).MinBy(s => s.RippleOf(source.Part.Value)) is not { } usual || usual.RippleOf(source.Part.Value) is not { } amperes ? source
            : source with { Part = source.Part with { RippleAmperes = amperes, RippleHertz = usual.RippleHertz }, IsUsualRipple = true };
    }

    private void Index() => _byValue = _sources.Select((s, at) => (s, at)).GroupBy(x => x.s.Part.Unit).ToDictionary(g => g.Key, g =>
    {
        var sorted = g.OrderBy(x => x.s.Part.Value).ToArray();
        return (sorted.Select(x => x.s.Part.Value).ToArray(), sorted.Select(x => x.at).ToArray());
    });

    private static long Whole(decimal money) => (long)Math.Round(money * Scale, MidpointRounding.AwayFromZero);
}

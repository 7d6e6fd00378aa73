using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade.Text;

namespace Lugbook.Restoration.Order.Lists;

/// <summary>Reads a supplier's list: bad lines are refused by name, the good ones stand.</summary>
internal sealed partial class SupplierListReader
{
    private readonly LooseTable _table;
    private readonly ListTable _list;
    private readonly PriceText _prices;
    private readonly Refusals _refusals;
    private readonly HashSet<string> _seen = new(StringComparer.OrdinalIgnoreCase);

    private SupplierListReader(LooseTable table, ListTable list)
    {
        (_table, _list, _refusals) = (table, list, new(table.Place));
        _prices = PriceText.Of(list.Body.Take(ListLimits.Rows).SelectMany(PriceCells));
    }

    public static ListReading<SupplierList> Read(LooseTable table, string name)
    {
        var (list, complaint) = ListTable.Find(table, counts: false);
        return list is null ? new([], [complaint!], []) : new SupplierListReader(table, list).Read(name);
    }

    private ListReading<SupplierList> Read(string name)
    {
        var remarks = ImmutableArray.CreateBuilder<string>();
        name = _list.Facts.TryGetValue(SupplierFact.Supplier, out var said) ? said.Text : name;
        var currency = _list.Facts.TryGetValue(SupplierFact.Currency, out var c) ? c.Text : _list.HeaderCurrency;
        var terms = new SupplierTerms(Fact(SupplierFact.Postage) ?? 0, Fact(SupplierFact.FreeFrom), Fact(SupplierFact.MinimumOrder) ?? 0);
        var groups = new Dictionary<(string Name, string? Currency), List<Offer>>();
        var read = 0;
        foreach (var row in _list.Body)
        {
            if (read++ == ListLimits.Rows)
            {
                _refusals.Add(new(_list.PlaceOf(row), "", 0, $"a list is read up to {ListLimits.Rows} lines; from here on it was not read", "Take the lines that are needed into a list of their own."));
                break;
            }
            if (row.Cells.All(string.IsNullOrWhiteSpace)) continue;
            var supplier = _list.Cell(row, ListColumn.Supplier) ?? name;
            if (Line(row, supplier) is not { } offer) continue;
            var key = (supplier, _list.Cell(row, ListColumn.Currency) ?? currency ?? CurrencyOf(row));
            if (!groups.TryGetValue(key, out var offers)) groups[key] = offers = [];
            offers.Add(offer);
        }
        if (!_list.Unknown.IsEmpty) remarks.Add($"{_table.Place}: not used: {string.Join(", ", _list.Unknown)}.");
        var lists = groups.Select(g => new SupplierList { Name = g.Key.Name, Currency = g.Key.Currency, Terms = terms, Offers = [.. g.Value] }).ToImmutableArray();
        return new(lists, _refusals.All(), remarks.ToImmutable());
    }

    private decimal? Fact(SupplierFact fact)
    {
        if (!_list.Facts.TryGetValue(fact, out var said)) return null;
        var (amount, problem) = _prices.Read(said.Text);
        if (problem is not null) _refusals.Add(new(string.Create(CultureInfo.InvariantCulture, $"{_table.Place}, {_table.LineWord} {said.Line}"), said.Text, 0, problem, "Write an amount such as 4.95; it was left out."));
        return amount;
    }

    private string? CurrencyOf(LooseRow row) => PriceCells(row).Select(PriceText.CurrencyIn).FirstOrDefault(c => c is not null);

    private IEnumerable<string> PriceCells(LooseRow row)
    {
        if (_list.Cell(row, ListColumn.Price) is { } price) yield return price;
        foreach (var (_, at) in _list.Quantities) if (row[at] is { } cell) yield return cell;
        foreach (var (_, at) in _list.Pairs) if (row[at] is { } cell) yield return cell;
        if (_list.Cell(row, ListColumn.Breaks) is { } breaks)
            foreach (Match m in Break().Matches(breaks)) yield return m.Groups["p"].Value;
    }

    private Offer? Line(LooseRow row, string supplier)
    {
        Offer? Refuse(string column, string? text, string problem, string remedy)
        {
            _refusals.Add(new(_list.Place(row, column), text ?? "", 0, problem, remedy));
            return null;
        }
        var (part, at, wrong, mend) = ListedPart.Read(c => _list.Cell(row, c));
        if (part is null) return Refuse(Name(at), _list.Cell(row, at) ?? _list.Cell(row, ListColumn.Description), wrong, mend);
        if (Prices(row, Refuse) is not { } prices) return null;
        if (!Whole(row, ListColumn.Pack, 1, out var pack)) return Refuse("pack", _list.Cell(row, ListColumn.Pack), "a pack has one piece or more, in whole pieces", "Write 1, or how many are in a pack.");
        if (!Whole(row, ListColumn.Minimum, 1, out var minimum)) return Refuse("minimum", _list.Cell(row, ListColumn.Minimum), "a least quantity is one piece or more, in whole pieces", "Write 1, or how many must be taken.");
        if (Stock(row) is var (stock, known) && !known) return Refuse("stock", _list.Cell(row, ListColumn.Stock), "this is no number of pieces in stock", "Write how many are there, or leave it empty.");
        var item = _list.Cell(row, ListColumn.Item) ?? part.Text;
        if (!_seen.Add($"{supplier}\n{item}"))
            return Refuse(_list.Has(ListColumn.Item) ? "item" : "line", item, "this line is there twice", "Keep one of them; the first stands.");
        return new()
        {
            Item = item, Part = part, Prices = prices, Pack = pack ?? 1, Minimum = Math.Max(minimum ?? 1, prices[0].From), Stock = stock, Line = row.Line,
        };
    }

    private ImmutableArray<PriceBreak>? Prices(LooseRow row, Func<string, string?, string, string, Offer?> refuse)
    {
        var per = 1m;
        if (_list.Cell(row, ListColumn.Per) is { } said && Digits().Match(said) is { Success: true } m && decimal.TryParse(m.Value, NumberStyles.None, CultureInfo.InvariantCulture, out var pieces))
        {
            if (pieces is < 1 or > ListLimits.Pieces) { refuse("per", said, "a price is for one piece or more", "Write 1, 10, 100 …"); return null; }
            per = pieces;
        }
        var written = new List<(int From, string Text, string Column)>();
        if (_list.Cell(row, ListColumn.Price) is { } single) written.Add((1, single, "price"));
        foreach (var (quantity, at) in _list.Quantities) if (row[at] is { } cell) written.Add((quantity, cell, string.Create(CultureInfo.InvariantCulture, $"{quantity}+")));
        foreach (var (quantityAt, priceAt) in _list.Pairs)
        {
            if (row[priceAt] is not { } cell) continue;
            var from = 1;
            if (row[quantityAt] is { } q && (!int.TryParse(Digits().Match(q).Value, NumberStyles.None, CultureInfo.InvariantCulture, out from) || from is < 1 or > ListLimits.Pieces))
            { refuse("quantity", q, "this is no quantity", "Write a whole number of pieces."); return null; }
            written.Add((from, cell, "price"));
        }
        if (_list.Cell(row, ListColumn.Breaks) is { } breaks)
        {
            var found = Break().Matches(breaks);
            if (found.Count == 0 || Break().Replace(breaks, "").Any(char.IsLetterOrDigit)) { refuse("breaks", breaks, "these are no price breaks", "Write quantity and price in pairs: 1:0.45 10:0.38."); return null; }
            foreach (Match b in found)
            {
                if (!int.TryParse(b.Groups["q"].Value, NumberStyles.None, CultureInfo.InvariantCulture, out var from) || from is < 1 or > ListLimits.Pieces)
                { refuse("breaks", breaks, $"'{b.Groups["q"].Value}' is no quantity", "Write a whole number of pieces."); return null; }
                written.Add((from, b.Groups["p"].Value, "breaks"));
            }
        }
        var prices = new SortedDictionary<int, decimal>();
        foreach (var (from, text, column) in written)
        {
            var (amount, problem) = _prices.Read(text);
            var each = amount / per is { } a ? Math.Round(a, 4, MidpointRounding.AwayFromZero) : 0;
            if (problem is not null) { refuse(column, text, problem, "Write a price such as 0.45."); return null; }
            if (each <= 0) { refuse(column, text, "a price is more than nothing", "Write what one piece costs, or take the line out."); return null; }
            // A single price beside breaks from 1 says the same thing twice; the breaks stand.
            prices[from] = each;
        }
        if (prices.Count == 0) { refuse("price", "", "there is no price", "Write what one piece costs."); return null; }
        var before = decimal.MaxValue;
        foreach (var (from, price) in prices)
        {
            if (price > before) { refuse("price", price.ToString(CultureInfo.InvariantCulture), string.Create(CultureInfo.InvariantCulture, $"from {from} pieces on one costs more than before"), "Check the order of quantities and prices."); return null; }
            before = price;
        }
        return [.. prices.Select(p => new PriceBreak(p.Key, p.Value))];
    }

    private bool Whole(LooseRow row, ListColumn column, int least, out int? number)
    {
        number = null;
        if (_list.Cell(row, column) is not { } text) return true;
        var bare = text.TrimEnd('.', ' ');
        foreach (var word in (string[])["pcs", "pc", "pieces", "stk", "st", "stück"]) if (bare.EndsWith(word, StringComparison.OrdinalIgnoreCase)) bare = bare[..^word.Length].TrimEnd();
        if (!decimal.TryParse(bare, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var d) || d != decimal.Truncate(d) || d < least || d > ListLimits.Pieces) return false;
        number = (int)d;
        return true;
    }

    private (int? Stock, bool Known) Stock(LooseRow row)
    {
        if (_list.Cell(row, ListColumn.Stock) is not { } text) return (null, true);
        switch (HeaderText.Normal(text))
        {
            case "yes" or "in stock" or "available" or "ja" or "oui" or "si" or "auf lager" or "lieferbar" or "en stock" or "disponible" or "x" or "true" or "many": return (null, true);
            case "no" or "none" or "out of stock" or "sold out" or "nein" or "non" or "ausverkauft" or "nicht lieferbar" or "false" or "rupture": return (0, true);
        }
        var bare = text.Replace(",", "", StringComparison.Ordinal).Replace(".", "", StringComparison.Ordinal).Replace("'", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal).TrimStart('>').TrimEnd('+');
        return Digits().Match(bare) is { Success: true, Index: 0 } m && bare[m.Length..].All(char.IsLetter) && long.TryParse(m.Value, NumberStyles.None, CultureInfo.InvariantCulture, out var n)
            ? ((int)Math.Min(n, ListLimits.Pieces), true) : (null, false);
    }

    private static string Name(ListColumn column) => column switch { ListColumn.LineVolts => "line volts", _ => column.ToString().ToLowerInvariant() };

    [GeneratedRegex(@"(?<q>\d+)\s*\+?\s*(?:[:=@]|x\s)\s*(?<p>-?[€$£]?\s?[\d.,]+)")]
    private static partial Regex Break();
    [GeneratedRegex(@"\d+")]
    private static partial Regex Digits();
}

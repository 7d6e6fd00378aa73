using System.Collections.Frozen;
using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade.Text;

namespace Lugbook.Restoration.Order.Lists;

/// <summary>The columns that lists of parts on sale or in a drawer may have.</summary>
internal enum ListColumn
{
    Item, Description, Kind, Value, Unit, Volts, LineVolts, Watts, Tolerance, Class, Celsius, Ripple,
    Price, Breaks, Per, Pack, Minimum, Stock, Currency, Supplier, Count, Where, Fitted,
}

/// <summary>Facts of a supplier that stand above the header or in the form beside the list.</summary>
internal enum SupplierFact { Supplier, Currency, Postage, FreeFrom, MinimumOrder }

/// <summary>Headers in the words of several languages: common practice in English, German, French, Dutch, Italian and Spanish lists; no source.</summary>
internal static partial class ListWords
{
    private static readonly FrozenDictionary<string, ListColumn> Columns = Table(
        (ListColumn.Item, "item|item no|item number|item code|sku|order no|order number|order code|article|article no|article number|art no|art nr|artikel|artikelnummer|artikelnr|bestellnummer|bestell nr|best nr|bestelnummer|part no|part number|part nr|product no|product code|code|stock code|stock no|ref|reference|reference no|reference article|codice|codigo|numero|mpn|teilenummer"),
        (ListColumn.Description, "description|desc|text|name|product|product name|title|part|component|bezeichnung|beschreibung|artikelbezeichnung|produkt|designation|libelle|omschrijving|naam|descrizione|descripcion|what"),
        (ListColumn.Kind, "kind|type|technology|dielectric|series|art|bauart|bauform|typ|technologie|dielektrikum|soort|tipo|genre"),
        (ListColumn.Value, "value|val|nominal|nominal value|capacitance|resistance|wert|nennwert|kapazitat|widerstand|valeur|waarde|valore|valor"),
        (ListColumn.Unit, "unit|units|value unit|einheit|unite|eenheid|unita|unidad"),
        (ListColumn.Volts, "volts|voltage|rated v|rated voltage|rated volts|v|vdc|v dc|volts dc|working voltage|spannung|nennspannung|tension|spanning|tensione|voltaje"),
        (ListColumn.LineVolts, "line volts|line v|vac|v ac|volts ac|ac volts|ac voltage|rated v ac|wechselspannung|tension alternative"),
        (ListColumn.Watts, "watts|power|rated w|rated power|w|wattage|leistung|belastbarkeit|nennleistung|puissance|vermogen|potenza|potencia"),
        (ListColumn.Tolerance, "tolerance|tol|tolerance %|tol %|tol pct|tolerance pct|%|toleranz|tolerantie|tolleranza|tolerancia"),
        (ListColumn.Class, "class|safety class|class x y|safety|sicherheitsklasse|klasse|classe|clase"),
        (ListColumn.Celsius, "celsius|temperature|max temperature|temp|max temp|c|°c|temperatur|temperature max|temperatuur|temperatura"),
        (ListColumn.Ripple, "ripple|ripple current|ripple ma|max ripple|rated ripple current|rippelstrom|wechselstrom|courant d'ondulation|courant ondulation|rimpelstroom|corrente di ripple|corriente de rizado"),
        (ListColumn.Price, "price|unit price|price each|each|net price|price per piece|price pc|preis|einzelpreis|stuckpreis|nettopreis|vk|prix|prix unitaire|prijs|stuksprijs|prezzo|prezzo unitario|precio|precio unitario"),
        (ListColumn.Breaks, "breaks|price breaks|pricebreaks|quantity breaks|quantity prices|prices|staffel|staffelpreise|staffelpreis|preisstaffel|prix par quantite|staffelprijs|staffelprijzen|scaglioni"),
        (ListColumn.Per, "per|price per|price unit|preiseinheit|pe|preis je|prix par|prijs per"),
        (ListColumn.Pack, "pack|pack size|package|package quantity|packing unit|packaging unit|multiple|order multiple|sold in|vpe|verpackungseinheit|packung|conditionnement|lot|verpakking|verpakkingseenheid|confezione|paquete"),
        (ListColumn.Minimum, "minimum|min|minimum quantity|min qty|min quantity|moq|minimum order quantity|mindestmenge|mindestbestellmenge|quantite min|quantite minimum|minimumaantal|minimo|cantidad minima"),
        (ListColumn.Stock, "stock|in stock|available|availability|qty available|on hand|lager|lagerbestand|bestand|verfugbar|en stock|disponible|voorraad|giacenza|disponibilita"),
        (ListColumn.Currency, "currency|cur|wahrung|devise|monnaie|valuta|moneda"),
        (ListColumn.Supplier, "supplier|shop|vendor|seller|lieferant|handler|fournisseur|leverancier|fornitore|proveedor"),
        (ListColumn.Count, "count|qty|quantity|pieces|pcs|how many|number|anzahl|menge|stuck|stk|bestand|quantite|nombre|aantal|stuks|quantita|pezzi|cantidad|piezas|received|came"),
        (ListColumn.Where, "where|place|box|bin|drawer|location|note|notes|remark|ort|fach|platz|schublade|lade|tiroir|emplacement|plaats|posto|cajon|bemerkung"),
        (ListColumn.Fitted, "fitted|fitted at|eingebaut"));

    private static readonly FrozenDictionary<string, SupplierFact> Facts = Table(
        (SupplierFact.Supplier, "supplier|shop|vendor|seller|lieferant|fournisseur|leverancier|fornitore|proveedor"),
        (SupplierFact.Currency, "currency|wahrung|devise|valuta|moneda"),
        (SupplierFact.Postage, "postage|shipping|carriage|delivery|porto|versand|versandkosten|port|frais de port|verzendkosten|spedizione|envio"),
        (SupplierFact.FreeFrom, "free from|free postage from|postage free from|free shipping from|free above|versandkostenfrei ab|frei ab|portofrei ab|franco|franco a partir de|gratis vanaf|gratis da|gratis desde"),
        (SupplierFact.MinimumOrder, "minimum order|minimum order value|min order|mindestbestellwert|minimum de commande|minimum bestelbedrag|ordine minimo|pedido minimo"));

    /// <summary>The column that a header names; null when none.</summary>
    /// <param name="header">As written.</param>
    /// <param name="counts">True for a drawer, where "Bestand" counts pieces and is no shop's stock.</param>
    public static ListColumn? ColumnOf(string header, bool counts)
    {
        var normal = HeaderText.Normal(header);
        if (counts && normal is "bestand" or "stock" or "on hand" or "lager" or "lagerbestand" or "in stock" or "voorraad" or "giacenza") return ListColumn.Count;
        if (Columns.TryGetValue(normal, out var column)) return column;
        // A unit or a currency behind the name: "Price (EUR)", "Volts [V]", "Preis in €".
        var bare = HeaderText.Normal(Bracket().Replace(header, ""));
        if (bare.Length > 0 && bare != normal && Columns.TryGetValue(bare, out column)) return column;
        return null;
    }

    /// <summary>"10+", "price 10", "ab 100", "qty 10 price": the quantity from which the prices below hold.</summary>
    public static int? QuantityOf(string header) => QuantityHeader().Match(HeaderText.Normal(header)) is { Success: true } m
        && int.TryParse(m.Groups["n"].Value, NumberStyles.None, CultureInfo.InvariantCulture, out var n) && n > 0
        && (m.Groups["before"].Success || m.Groups["after"].Success) ? n : null;

    /// <summary>"qty1", "quantity 2", "menge 3" beside "price1", "preis 3": numbered pairs of columns.</summary>
    public static (bool IsPrice, int Number)? PairOf(string header) => PairHeader().Match(HeaderText.Normal(header)) is { Success: true } m && int.TryParse(m.Groups["n"].Value, NumberStyles.None, CultureInfo.InvariantCulture, out var n)
        ? (m.Groups["price"].Success, n) : null;

    /// <summary>Is this a header of a list that was filled in when parcels came: item, supplier or received?</summary>
    public static bool IsReceiving(string header, string word) => HeaderText.Normal(header) is var normal && word switch
    {
        "received" => normal is "received" or "came" or "arrived" or "erhalten" or "geliefert" or "recu" or "ontvangen" or "ricevuto" or "recibido",
        "supplier" => Columns.TryGetValue(normal, out var supplier) && supplier == ListColumn.Supplier,
        _ => Columns.TryGetValue(normal, out var item) && item == ListColumn.Item,
    };

    public static SupplierFact? FactOf(string word) => Facts.TryGetValue(HeaderText.Normal(word), out var fact) ? fact : null;

    /// <summary>How many cells of a row are headers of a list; decides what parts the cells of a text file.</summary>
    public static int Understood(IReadOnlyList<string> cells) => cells.Count(c => ColumnOf(c, false) is not null || QuantityOf(c) is not null || PairOf(c) is not null);

    private static FrozenDictionary<string, T> Table<T>(params (T Key, string Words)[] rows)
    {
        var table = new Dictionary<string, T>();
        // The first that claims a word has it.
        foreach (var (key, words) in rows)
            foreach (var word in words.Split('|')) table.TryAdd(word, key);
        return table.ToFrozenDictionary();
    }

    [GeneratedRegex(@"[\(\[].*?[\)\]]|\s+in\s+\S+$|\s*/\s*\S+$")]
    private static partial Regex Bracket();

    [GeneratedRegex(@"^(?<before>price|preis|prix|prijs|prezzo|precio|ab|from|a partir de|vanaf|da|qty|price from)?\s*(?<n>\d{1,6})\s*(?<after>\+|pcs|pc|pieces|st|stk|stuck|off|up|and up|\+ price|price|preis)?$")]
    private static partial Regex QuantityHeader();

    [GeneratedRegex(@"^(?:(?<qty>qty|quantity|menge|quantite|aantal|break)|(?<price>price|preis|prix|prijs))\s?(?<n>[1-9])$")]
    private static partial Regex PairHeader();
}

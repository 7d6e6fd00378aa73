using System.Globalization;
using System.Text;
using Lugbook.Restoration.Choose;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Order.Lists;

/// <summary>Lists as text in the form that is kept: the same columns that are read.</summary>
internal static class ListCsv
{
    public static string Of(SupplierList list)
    {
        var text = new StringBuilder();
        text.Append(CsvText.Line("supplier", list.Name));
        if (list.Currency is { } currency) text.Append(CsvText.Line("currency", currency));
        if (list.Terms.Postage > 0) text.Append(CsvText.Line("postage", M(list.Terms.Postage)));
        if (list.Terms.FreeFrom is { } free) text.Append(CsvText.Line("free from", M(free)));
        if (list.Terms.MinimumOrder > 0) text.Append(CsvText.Line("minimum order", M(list.Terms.MinimumOrder)));
        text.Append(CsvText.Line("item", "kind", "value", "volts", "line volts", "watts", "tolerance", "class", "celsius", "ripple", "breaks", "pack", "minimum", "stock", "description"));
        foreach (var o in list.Offers)
            text.Append(CsvText.Line([o.Item, .. Part(o.Part), string.Join(' ', o.Prices.Select(p => $"{N(p.From)}:{M(p.Price)}")), N(o.Pack), N(o.Minimum), N(o.Stock), o.Part.Series]));
        return text.ToString();
    }

    public static string Of(Drawer drawer)
    {
        var text = new StringBuilder(CsvText.Line("item", "kind", "value", "volts", "line volts", "watts", "tolerance", "class", "celsius", "ripple", "count", "where", "fitted", "description"));
        foreach (var l in drawer.Lines) text.Append(CsvText.Line([l.Item, .. Part(l.Part), N(l.Count), l.Where, string.Join(' ', l.Fitted), l.Part.Series]));
        return text.ToString();
    }

    /// <summary>Kind, value, volts, line volts, watts, tolerance, class.</summary>
    public static string?[] Part(ChosenPart part) =>
    [
        Kind(part.Kind), Notation.Print(part.Value, part.Unit, figures: 15), N(part.Volts), N(part.LineVolts), N(part.Watts), N(part.TolerancePercent),
        part.SafetyClass == SafetyClass.None ? "" : part.SafetyClass.ToString(), N(part.Celsius), Ripple(part),
    ];

    private static string Ripple(ChosenPart part) => part.RippleAmperes is not { } amperes ? "" : part.RippleHertz is { } hertz ? $"{N(Math.Round(amperes * 1000, 2))} mA at {N(Math.Round(hertz))} Hz" : N(Math.Round(amperes * 1000, 2));

    // In words that are read back as the same kind.
    private static string Kind(NewKind kind) => kind switch
    {
        NewKind.Film => "film", NewKind.Polypropylene => "polypropylene", NewKind.Electrolytic => "electrolytic", NewKind.C0G => "C0G", NewKind.Mica => "mica", NewKind.CeramicClass2 => "ceramic class 2",
        NewKind.SafetyFilm => "film", NewKind.SafetyCeramic => "ceramic", NewKind.MetalFilm => "metal film", NewKind.CarbonFilm => "carbon film", NewKind.MetalOxide => "metal oxide", NewKind.MetalGlaze => "metal glaze", _ => "wirewound",
    };

    private static string N(double? number) => number?.ToString("R", CultureInfo.InvariantCulture) ?? "";
    private static string N(int? number) => number?.ToString(CultureInfo.InvariantCulture) ?? "";
    private static string M(decimal amount) => amount.ToString("0.00##", CultureInfo.InvariantCulture);
}

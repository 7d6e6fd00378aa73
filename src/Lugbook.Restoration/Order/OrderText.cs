using System.Globalization;
using System.Text;
using Lugbook.Restoration.Choose;
using Lugbook.Trade.Markings;

namespace Lugbook.Restoration.Order;

/// <summary>The order as text for other programs.</summary>
internal static class OrderText
{
    /// <summary>Comma-separated, first line the header; numbers with a decimal point, prices are sums of the line.</summary>
    /// <remarks>No cell begins with a sign that a spreadsheet would take for a formula.</remarks>
    public static string Csv(OrderResult order)
    {
        var text = new StringBuilder(CsvText.Line("count", "part", "value", "unit", "volts", "line_volts", "class", "watts", "tolerance_pct", "positions", "spares", "price_low", "price_high", "series"));
        foreach (var line in order.Lines)
            text.Append(CsvText.Line(
                N(line.Count), Plain(line.Part.Text), line.Part.Value.ToString("R", CultureInfo.InvariantCulture), line.Part.Unit.ToString().ToLowerInvariant(),
                N(line.Part.Volts), N(line.Part.LineVolts), line.Part.SafetyClass == SafetyClass.None ? "" : line.Part.SafetyClass.ToString(), N(line.Part.Watts), N(line.Part.TolerancePercent),
                Plain(string.Join(' ', line.Positions)), N(line.Spares), M(line.PriceLow), M(line.PriceHigh), Plain(line.Part.Series)));
        foreach (var item in order.Consumables)
            text.Append(CsvText.Line(N(item.Amount), Plain(item.What), N(item.Amount), item.Unit, "", "", "", "", "", "", "", "", "", "consumable"));
        return text.ToString();
    }

    private static string N(double? number) => number?.ToString("0.###", CultureInfo.InvariantCulture) ?? "";
    private static string M(decimal? price) => price?.ToString("0.00", CultureInfo.InvariantCulture) ?? "";
    private static string Plain(string text) => text.Length > 0 && text[0] is '=' or '+' or '-' or '@' or '\t' ? "'" + text : text;
}

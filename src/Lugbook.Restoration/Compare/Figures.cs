using System.Globalization;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Sheets;

namespace Lugbook.Restoration.Compare;

/// <summary>Values in sentences: as marked when marked, else with the usual multiple.</summary>
internal static class Figures
{
    public static string Of(Part part) => Written(part.Marked, part.Value, part.Unit);

    public static string Of(SheetPart part) => Written(part.Marked, part.Value, part.Unit ?? PartKinds.UnitOf(PartKinds.Of(part.KindAsWritten)));

    public static string Value(double value, Unit? unit) => unit is { } u ? Notation.Print(value, u) : Number(value);

    public static string Number(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    private static string Written(string? marked, double? value, Unit? unit) =>
        !string.IsNullOrWhiteSpace(marked) ? marked.Trim() : value is { } v ? Value(v, unit) : "no value";
}

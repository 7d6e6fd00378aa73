using System.Globalization;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>How values stand in sentences: "22 nF", "4.7 kΩ", "+10 %".</summary>
internal static class Show
{
    /// <summary>A value as today's shops write it, up to four figures.</summary>
    public static string Value(double value, Unit unit) => Notation.Print(value, unit, NotationStyle.Shop);

    /// <summary>A plain number, up to four significant figures.</summary>
    public static string Number(double value) => value == 0 ? "0" : Round(value).ToString("0.######", CultureInfo.InvariantCulture);

    /// <summary>Volts: "630 V".</summary>
    public static string Volts(double volts) => $"{Number(volts)} V";

    /// <summary>How far new lies from old: "+10 %", "−6 %".</summary>
    public static string Deviation(double was, double now) => Notation.PrintDeviation(now, was);

    /// <summary>Names in a sentence: "C5, C6 and C7".</summary>
    public static string List(IReadOnlyList<string> names) => names.Count switch
    {
        0 => "none",
        1 => names[0],
        _ => $"{string.Join(", ", names.Take(names.Count - 1))} and {names[^1]}",
    };

    /// <summary>How a new kind is called in a sentence.</summary>
    public static string Kind(NewKind kind) => kind switch
    {
        NewKind.Film => "film",
        NewKind.Polypropylene => "polypropylene film",
        NewKind.Electrolytic => "electrolytic",
        NewKind.C0G => "C0G ceramic",
        NewKind.Mica => "silver mica",
        NewKind.CeramicClass2 => "class 2 ceramic",
        NewKind.SafetyFilm => "safety film",
        NewKind.SafetyCeramic => "safety ceramic",
        NewKind.MetalFilm => "metal film",
        NewKind.CarbonFilm => "carbon film",
        NewKind.MetalOxide => "metal oxide",
        NewKind.MetalGlaze => "metal glaze",
        _ => "wirewound",
    };

    private static double Round(double value)
    {
        var digits = 3 - (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return digits is >= 0 and <= 12 ? Math.Round(value, digits) : value;
    }
}

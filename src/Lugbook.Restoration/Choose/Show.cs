using System.Globalization;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>How values stand in sentences: "22 nF", "4.7 kΩ", "+10 %".</summary>
internal static class Show
{
    private static readonly (double Size, string Name)[] Multiples = [(1e6, "M"), (1e3, "k"), (1, ""), (1e-3, "m"), (1e-6, "µ"), (1e-9, "n"), (1e-12, "p")];

    /// <summary>A value with its unit, up to four figures.</summary>
    public static string Value(double value, Unit unit)
    {
        var symbol = unit switch { Unit.Ohm => "Ω", Unit.Farad => "F", Unit.Henry => "H", Unit.Volt => "V", Unit.Watt => "W", _ => "A" };
        var size = Math.Abs(value) * (1 + 1e-9);
        foreach (var (multiple, name) in Multiples)
        {
            if (unit == Unit.Farad && multiple >= 1e-3) continue;   // nobody writes mF
            if (size >= multiple || (unit == Unit.Farad && multiple == 1e-12) || (unit != Unit.Farad && multiple == 1)) return $"{Number(value / multiple)} {name}{symbol}";
        }
        return $"{Number(value)} {symbol}";
    }

    /// <summary>A plain number, up to four significant figures.</summary>
    public static string Number(double value) => value == 0 ? "0" : Round(value).ToString("0.######", CultureInfo.InvariantCulture);

    /// <summary>Volts: "630 V".</summary>
    public static string Volts(double volts) => $"{Number(volts)} V";

    /// <summary>How far new lies from old: "+10 %", "−6 %", "±0 %".</summary>
    public static string Deviation(double was, double now)
    {
        var percent = Math.Round((now / was - 1) * 100, Math.Abs(now / was - 1) < 0.0995 ? 1 : 0);
        return percent == 0 ? "±0 %" : percent > 0 ? $"+{Number(percent)} %" : $"−{Number(-percent)} %";
    }

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
        NewKind.Electrolytic => "electrolytic 105 °C",
        NewKind.C0G => "C0G ceramic",
        NewKind.Mica => "silver mica",
        NewKind.CeramicClass2 => "class 2 ceramic",
        NewKind.SafetyFilm => "safety film",
        NewKind.SafetyCeramic => "safety ceramic",
        NewKind.MetalFilm => "metal film",
        NewKind.CarbonFilm => "carbon film",
        NewKind.MetalOxide => "metal oxide",
        _ => "wirewound",
    };

    private static double Round(double value)
    {
        var digits = 3 - (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return digits is >= 0 and <= 12 ? Math.Round(value, digits) : value;
    }
}

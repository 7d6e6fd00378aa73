using System.Globalization;
using Lugbook.Restoration.Wake;

namespace Lugbook.Output;

/// <summary>The first power in the trade's notation.</summary>
internal static class WakeWords
{
    /// <summary>"0.52 A", "310 mA", "245 V", "−12 V".</summary>
    public static string Amount(double amount, string unit)
    {
        var text = unit == "A" && Math.Abs(amount) < 0.9995
            ? $"{Figures(amount * 1e3)} mA"
            : $"{Figures(amount)} {unit}";
        return text.Replace('-', '−');
    }

    /// <summary>"280 to 340 V".</summary>
    public static string Range(Expected e)
    {
        if (e.What.Unit == "A" && Math.Abs(e.High) < 0.9995) return $"{Figures(e.Low * 1e3)} to {Figures(e.High * 1e3)} mA".Replace('-', '−');
        return $"{Figures(e.Low)} to {Figures(e.High)} {e.What.Unit}".Replace('-', '−');
    }

    /// <summary>"below 120 V or above 400 V"; empty without a limit.</summary>
    public static string Stop(Expected e) => (e.StopBelow, e.StopAbove) switch
    {
        ({ } below, { } above) => $"below {Amount(below, e.What.Unit)} or above {Amount(above, e.What.Unit)}",
        ({ } below, null) => $"below {Amount(below, e.What.Unit)}",
        (null, { } above) => $"above {Amount(above, e.What.Unit)}",
        _ => "",
    };

    /// <summary>"3 s", "12 min", "not within an hour".</summary>
    public static string Time(double? seconds) => seconds switch
    {
        null => "not within an hour",
        0 => "at once",
        < 1 => "under 1 s",
        < 100 => string.Create(CultureInfo.InvariantCulture, $"{seconds:0} s"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{seconds / 60:0.#} min"),
    };

    /// <summary>"starves the set", …</summary>
    public static string Verdict(LampVerdict verdict) => verdict switch
    {
        LampVerdict.Starves => "starves the set",
        LampVerdict.Suits => "suits",
        _ => "lets much through",
    };

    /// <summary>"5 min", "7.3 h".</summary>
    public static string Minutes(double minutes) => minutes < 100
        ? string.Create(CultureInfo.InvariantCulture, $"{minutes:0.#} min") : string.Create(CultureInfo.InvariantCulture, $"{minutes / 60:0.#} h");

    /// <summary>"220 kΩ".</summary>
    public static string Ohms(double ohms) => ohms < 1e6 ? $"{Figures(ohms / 1e3)} kΩ" : $"{Figures(ohms / 1e6)} MΩ";

    /// <summary>What to do with a re-forming plan.</summary>
    public static string Reform(Reforming plan) => string.Create(CultureInfo.InvariantCulture,
        $"A short makes {plan.ShortWatts:0.##} W in the resistor; never more than {plan.MostCapacitorWatts:0.##} W in the capacitor. It passes at {Amount(plan.PassVolts, "V")} or less across the resistor ({Amount(plan.PassAmperes, "A")}), not before 5 min; not there after {Minutes(plan.GiveUpMinutes)}: give up. Switch off when the current rises, or when the body warms. Then discharge through the same resistor, {Time(plan.DischargeSeconds)} to 5 V, and measure.");

    /// <summary>"go on", "switch off", …</summary>
    public static string Verdict(ReformingVerdict verdict) => verdict switch
    {
        ReformingVerdict.GoOn => "go on",
        ReformingVerdict.Slow => "slow",
        ReformingVerdict.Passes => "passes",
        ReformingVerdict.Stop => "switch off",
        _ => "give up",
    };

    // Three figures: more no hand meter shows of a line that moves.
    private static string Figures(double value) => Math.Abs(value) switch
    {
        >= 99.5 => value.ToString("0", CultureInfo.InvariantCulture),
        >= 9.95 => value.ToString("0.#", CultureInfo.InvariantCulture),
        _ => value.ToString("0.##", CultureInfo.InvariantCulture),
    };
}

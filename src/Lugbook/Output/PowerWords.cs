using System.Globalization;
using Lugbook.Restoration.Power;
using Lugbook.Trade.Quantities;

namespace Lugbook.Output;

/// <summary>The supply in the trade's notation.</summary>
internal static class PowerWords
{
    /// <summary>"94 mA", "245 V", "40 µF".</summary>
    public static string Amount(double amount, string unit) => unit switch
    {
        "A" when Math.Abs(amount) < 1 => string.Create(CultureInfo.InvariantCulture, $"{amount * 1e3:0} mA"),
        "A" => string.Create(CultureInfo.InvariantCulture, $"{amount:0.00} A"),
        "F" => Notation.Print(Math.Round(amount, 8), Unit.Farad),
        _ => string.Create(CultureInfo.InvariantCulture, $"{amount:0} {unit}"),
    };

    /// <summary>"18.1 V".</summary>
    public static string Hum(double volts) => string.Create(CultureInfo.InvariantCulture, $"{volts:0.0} V");

    /// <summary>"at most 70 mA", "at least 50 Ω", "not known".</summary>
    public static string Limit(LimitCheck check) => check.Limit is { } limit ? $"at {(check.IsLeast ? "least" : "most")} {Amount(limit, check.Unit)}" : "not known";

    /// <summary>"kept", "passed".</summary>
    public static string Verdict(LimitCheck check) => check.Passed switch { true => "passed", false => "kept", _ => "" };
}

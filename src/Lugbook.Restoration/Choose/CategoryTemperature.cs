using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>How hot a part may get, and how hot its place is.</summary>
/// <remarks>Beneath a chassis 60 to 70 °C are usual, beside hot bodies more (common practice, no source). The life of an electrolytic halves with every 10 °C (common practice).</remarks>
internal static class CategoryTemperature
{
    /// <summary>What the least of today's parts of a kind are made for, °C; taken where nothing is stated (from memory).</summary>
    public static double LeastUsual(NewKind kind) => kind is NewKind.MetalFilm or NewKind.CarbonFilm or NewKind.MetalOxide or NewKind.Wirewound or NewKind.MetalGlaze ? 125 : 85;

    /// <summary>Null when it is made for as much as is asked for; else what is against it.</summary>
    public static string? Fault(Requirement need, NewKind kind, double? celsius) => need.CelsiusAtLeast is not { } asked || (celsius ?? LeastUsual(kind)) >= asked ? null
        : celsius is { } stated ? $"It is made for {Show.Number(stated)} °C; {Show.Number(asked)} °C are asked for." : $"Its highest temperature is not stated; {Show.Number(asked)} °C are asked for.";

    /// <summary>What a lower temperature than 105 °C costs an electrolytic: its life; null for any other part.</summary>
    public static string? OfLife(NewKind kind, double? celsius) => kind != NewKind.Electrolytic || (celsius ?? LeastUsual(kind)) >= 105 ? null
        : $"{(celsius is { } c ? $"For {Show.Number(c)} °C" : "Its temperature is not stated and counts as 85 °C")}: at the same place it lives about {(celsius is > 90 ? "half" : "a quarter")} as long as one for 105 °C; keep it away from hot parts.";

    /// <summary>The demand of a place.</summary>
    /// <param name="unit">Farad or ohm.</param>
    /// <param name="electrolytic">Is it an electrolytic?</param>
    /// <param name="hot">A hot body on one of its lugs, in words; null when none is known.</param>
    public static (double Celsius, string Reason) Of(Unit unit, bool electrolytic, string? hot) => unit == Unit.Ohm
        ? (125, "At least 125 °C: it warms itself besides what the chassis does.")
        : electrolytic && hot is not null ? (105, $"At least 105 °C: {hot}.")
        : (85, hot is null ? "At least 85 °C: beneath a chassis 60 to 70 °C are usual." : $"At least 85 °C, and its body kept off the heat: {hot}.");
}

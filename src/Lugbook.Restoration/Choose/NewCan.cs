using System.Collections.Immutable;
using System.Globalization;

namespace Lugbook.Restoration.Choose;

/// <summary>A section of a new can.</summary>
/// <param name="Farads">Nominal, F.</param>
/// <param name="Volts">Rated V DC.</param>
public sealed record CanSection(double Farads, double Volts);

/// <summary>A can with several sections, as it is still made for valve equipment; no maker is meant or named.</summary>
/// <param name="Name">"50+50 µF 500 V".</param>
/// <param name="Sections">Its sections; they share the minus.</param>
/// <param name="Celsius">Highest temperature, °C.</param>
/// <param name="DiameterMm">Outside, mm.</param>
/// <param name="LengthMm">Outside, mm.</param>
/// <param name="PriceLow">Example price, low end.</param>
/// <param name="PriceHigh">Example price, high end.</param>
/// <param name="Source">Where the row comes from.</param>
public sealed record NewCan(string Name, ImmutableArray<CanSection> Sections, double Celsius, double DiameterMm, double LengthMm, decimal PriceLow, decimal PriceHigh, string Source)
{
    /// <summary>Reads a table (columns name, sections as "50@500 50@500" in µF and V, celsius, dia_mm, length_mm, price_low, price_high, source; # starts a comment).</summary>
    /// <exception cref="FormatException">A cell cannot be read; the message names line and column.</exception>
    public static ImmutableArray<NewCan> Parse(string text) => [.. CsvText.Read(text).Rows.Select(row =>
    {
        double Number(string column, string? written) => double.TryParse(written, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var n) && n > 0 ? n
            : throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"Table of cans, line {row.Line}, {column}: '{written}' is not a number above 0."));
        var sections = (row["sections"] ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(s => s.Split('@') is [var farads, var volts]
            ? new CanSection(Math.Round(Number("sections", farads) * 1e-6, 9), Number("sections", volts)) : throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"Table of cans, line {row.Line}, sections: '{s}' is not such as 50@500."))).ToImmutableArray();
        return new NewCan(row["name"] ?? "", sections, Number("celsius", row["celsius"]), Number("dia_mm", row["dia_mm"]), Number("length_mm", row["length_mm"]),
            (decimal)Number("price_low", row["price_low"]), (decimal)Number("price_high", row["price_high"]), row["source"] ?? "");
    })];

    /// <summary>Which section serves which position, where all of them are served; null when not.</summary>
    internal ImmutableArray<int>? Serves(IReadOnlyList<Requirement> needs)
    {
        var taken = new int[needs.Count];
        return Try(0, 0) ? [.. taken] : null;

        bool Try(int at, int used)
        {
            if (at == needs.Count) return true;
            for (var s = 0; s < Sections.Length; s++)
            {
                if ((used >> s & 1) != 0 || !Bears(needs[at], Sections[s])) continue;
                taken[at] = s;
                if (Try(at + 1, used | 1 << s)) return true;
            }
            return false;
        }
    }

    private bool Bears(Requirement need, CanSection section) => need.SafetyClass == Trade.Markings.SafetyClass.None && need.Kinds.Contains(NewKind.Electrolytic) && need.Value?.Holds(section.Farads) == true
        && section.Volts >= need.VoltsAtLeast && CategoryTemperature.Fault(need, NewKind.Electrolytic, Celsius) is null;
}

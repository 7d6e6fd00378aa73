using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Judge;

namespace Lugbook.Restoration.Choose;

/// <summary>Two respectable ways with paper and electrolytic capacitors.</summary>
public enum School
{
    /// <summary>Every paper and electrolytic capacitor goes: a set for daily use.</summary>
    Replace,
    /// <summary>Each is measured first: a museum piece.</summary>
    OnEvidence,
}

/// <summary>A rectifier valve's limit on the first capacitor.</summary>
/// <param name="Type">Valve type: "5Y3GT".</param>
/// <param name="Circuit">"full-wave", "half-wave", "half-wave damper", "twin diode".</param>
/// <param name="MaxInputFarads">Largest first capacitor, F; null when the handbook line gives none.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record RectifierLimit(string Type, string Circuit, double? MaxInputFarads, string Source)
{
    /// <summary>Largest peak inverse voltage, V.</summary>
    public double? PeakInverseVolts { get; init; }
    /// <summary>Largest peak current of a plate, steady, A.</summary>
    public double? PeakAmperes { get; init; }
    /// <summary>Largest direct current of the whole valve with capacitor input, A.</summary>
    public double? DirectAmperes { get; init; }
    /// <summary>Largest first peak when it is switched on again hot, A.</summary>
    public double? HotSwitchAmperes { get; init; }
    /// <summary>Least source resistance of a plate, Ω, at the condition that the handbook names.</summary>
    public double? LeastSupplyOhms { get; init; }

    /// <summary>A power rectifier, not a damper or a signal diode?</summary>
    public bool IsPowerRectifier => Circuit is "full-wave" or "half-wave";

    /// <summary>Reads the handbook table (columns type, circuit, max_input_cap_uf, source; # starts a comment). Rows without a type are left out.</summary>
    /// <exception cref="FormatException">A needed column is missing or a number cannot be read; the message names the line.</exception>
    public static ImmutableArray<RectifierLimit> Parse(string text)
    {
        var table = CsvText.Read(text);
        foreach (var needed in (string[])["type", "circuit", "max_input_cap_uf", "source"])
            if (!table.Header.Contains(needed, StringComparer.OrdinalIgnoreCase))
                throw new FormatException($"The rectifier table has no column '{needed}'.");
        var limits = ImmutableArray.CreateBuilder<RectifierLimit>();
        foreach (var row in table.Rows)
        {
            if (row["type"] is not { Length: > 0 } type) continue;
            double? Number(string column, double unit) => row[column] is not { Length: > 0 } written ? null
                : double.TryParse(written, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && number > 0 ? number * unit
                : throw new FormatException($"Rectifier table, line {row.Line.ToString(CultureInfo.InvariantCulture)}, {column}: '{written}' is not a number above 0.");
            limits.Add(new(type, row["circuit"] ?? "", Number("max_input_cap_uf", 1e-6), row["source"] ?? "")
            {
                PeakInverseVolts = Number("max_piv_v", 1), PeakAmperes = Number("max_peak_plate_ma", 1e-3), DirectAmperes = Number("max_dc_ma", 1e-3), LeastSupplyOhms = Number("min_plate_supply_ohm", 1),
                HotSwitchAmperes = Number("hot_switch_a", 1),
            });
        }
        return limits.ToImmutable();
    }
}

/// <summary>What the choice is made by. All limits are the user's to change.</summary>
public sealed record ChoosePolicy
{
    /// <summary>New cans with several sections; none: that way is not proposed.</summary>
    public ImmutableArray<NewCan> Cans { get; init; } = [];

    /// <summary>What can be bought.</summary>
    public required Catalogue Catalogue { get; init; }
    /// <summary>What becomes of paper and electrolytic capacitors.</summary>
    public School School { get; init; }
    /// <summary>What measuring and the book's policy decided of each part; null: families decide.</summary>
    public JudgeResult? Judged { get; init; }
    /// <summary>Limits of rectifier valves; empty means that the rule for an unknown type holds for all.</summary>
    public ImmutableArray<RectifierLimit> RectifierLimits { get; init; } = [];
    /// <summary>Largest touch current, mA rms. Source: limit for audio and video equipment, 0.7 mA peak.</summary>
    public double TouchMilliamperes { get; init; } = 0.5;
    /// <summary>Usual size of a capacitor from line to a touchable part, F (common practice, no source).</summary>
    public double UsualTouchFarads { get; init; } = 4.7e-9;
}

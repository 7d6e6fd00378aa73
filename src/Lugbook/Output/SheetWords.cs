using Lugbook.Restoration.Sheet;

namespace Lugbook.Output;

/// <summary>The sheet's phrases, shared by page and command.</summary>
internal static class SheetWords
{
    public static string Of(Agreement agreement) => agreement switch
    {
        Agreement.Agrees => "agrees",
        Agreement.Near => "near",
        Agreement.Differs => "differs",
        _ => "",
    };

    /// <summary>What a line wants to say beside its figures.</summary>
    public static string Remark(SheetLine line)
    {
        var words = new List<string>();
        if (line.Unpredictable is { } unknown) words.Add($"not predicted: {unknown}");
        if (line.Setting is { } setting) words.Add($"with {setting}");
        if (line.Volts is { } volts && line.Meter is { } meter && Math.Abs(meter.Shown) < 0.9 * Math.Abs(volts) && Math.Abs(volts) > 0.1)
            words.Add($"the meter pulls it from {Figures.VoltsWithUnit(volts)}");
        if (line.ReversedOhms is { } reversed && line.Ohms is { } ohms && double.IsFinite(reversed) && Math.Abs(reversed - ohms) > 0.1 * ohms)
            words.Add($"{Figures.Ohms(reversed)} with the leads exchanged");
        if (line.SettlingSeconds is { } seconds && double.IsFinite(seconds) && seconds >= 2) words.Add($"ohms settle in {Figures.Seconds(seconds)}");
        if (line.Note is { Length: > 0 } note) words.Add($"chart: {note}");
        return string.Join("; ", words);
    }

    /// <summary>How the sheet was made, in a sentence.</summary>
    public static string Conditions(SheetResult sheet)
    {
        var chart = sheet.ChartMeter is { } meter ? $" The chart is held against what {meter.Description} would have shown." : "";
        return $"For a line of {Figures.Rounded(sheet.LineVolts, 3, 0)} V, no signal, volume down, other controls half-way. \"Healthy sets\": between these lie 95 of 100 sets whose parts are within tolerance, valves new, line ±10 %. Meter: {sheet.Meter.Description}.{chart}";
    }

    public const string BeforeVolts = "Before measuring: one hand, an insulated probe, the meter's common lead clipped on first. A set without a power transformer has a live chassis: use an isolating transformer. Predictions are aids; local codes and licensed practice come first.";
    public const string BeforeOhms = "Before measuring ohms: unplug the set, discharge every filter capacitor through a resistor, and measure that it is discharged.";
}

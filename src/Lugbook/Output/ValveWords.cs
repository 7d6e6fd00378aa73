using System.Globalization;
using Lugbook.Circuit.Valves;
using Lugbook.Trade.Valves;

namespace Lugbook.Output;

/// <summary>A valve type in words: pins, limits, and how well its law meets each line.</summary>
internal static class ValveWords
{
    public static string Sentences(string asked, ValveType? pins, FittedValve? laws)
    {
        var text = new StringWriter();
        text.WriteLine(pins is null ? asked : $"{pins.Type}: {pins.Class}, base {pins.Base}");
        if (pins is not null)
        {
            if (Heater(pins) is { Length: > 0 } heater) text.WriteLine($"Heater {heater}");
            text.WriteLine($"Pins, numbered as seen from below: {string.Join("  ", pins.Pinout.Select(p => $"{p.Key}={string.Join(',', p.Value)}"))}");
            if (Limits(pins) is { Length: > 0 } limits) text.WriteLine($"Limits{(Several(pins) ? ", of each section" : "")}: {limits}");
            if (!pins.Equivalents.IsEmpty) text.WriteLine($"Also called: {string.Join(", ", pins.Equivalents)}");
            text.WriteLine($"Source: {pins.Source} ({pins.Confidence})");
        }
        if (laws is null || laws.Sections.IsEmpty) text.WriteLine("No characteristic line is known, so nothing can be predicted of its currents.");
        foreach (var section in laws?.Sections ?? [])
        {
            text.WriteLine();
            text.WriteLine($"Section {(section.Name.Length == 0 ? "(the valve)" : section.Name)}: {section.Origin}");
            if (section.Diode is { } diode)
                text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  I = {diode.Perveance:0.###e+0} A/V^{diode.Exponent:0.##}"));
            if (section.Fit is not { } fit) continue;
            var table = new TextTable("plate V", "screen V", "grid V", "quantity", "handbook", "fitted", "error", "source");
            foreach (var line in fit.Lines)
            {
                foreach (var figure in line.Figures)
                {
                    table.Add(N(line.Line.PlateVolts), line.Line.ScreenVolts is { } screen ? N(screen) : "", N(line.GridVolts), figure.Quantity.Words(), Given(figure.Quantity, figure.Given), Given(figure.Quantity, figure.Predicted),
                        Error(figure), line.Line.Source);
                }
            }
            text.Write(table);
            foreach (var weak in fit.Weak) text.WriteLine($"Weak: {weak}");
        }
        if (laws is not null) text.WriteLine($"\n{Spread(laws)}");
        return text.ToString().TrimEnd();
    }

    /// <summary>The limits in words, or empty: "plate 315 V and 12 W, screen 285 V and 2 W, heater to cathode 180 V".</summary>
    public static string Limits(ValveType type)
    {
        var limits = type.Limits;
        string? Pair(string electrode, double? volts, double? watts) =>
            volts is null && watts is null ? null : $"{electrode} {string.Join(" and ", new[] { volts is { } v ? $"{N(v)} V" : null, watts is { } w ? $"{N(w)} W" : null }.OfType<string>())}";
        return string.Join(", ", new[]
        {
            Pair("plate", limits.PlateVolts, limits.PlateWatts), Pair("screen", limits.ScreenVolts, limits.ScreenWatts),
            limits.CathodeAmperes is { } a ? $"cathode {N(a * 1e3)} mA" : null, limits.HeaterCathodeVolts is { } h ? $"heater to cathode {N(h)} V" : null,
        }.OfType<string>());
    }

    /// <summary>The limits one by one, as a name and a value.</summary>
    public static (string What, string Value)[] LimitRows(ValveType type)
    {
        var limits = type.Limits;
        return [.. new (string What, double? Value, string Unit)[]
        {
            ("Plate", limits.PlateVolts, "V"), ("Plate dissipation", limits.PlateWatts, "W"), ("Screen", limits.ScreenVolts, "V"), ("Screen dissipation", limits.ScreenWatts, "W"),
            ("Cathode current", limits.CathodeAmperes * 1e3, "mA"), ("Heater to cathode", limits.HeaterCathodeVolts, "V"),
        }.Where(l => l.Value is not null).Select(l => (l.What, $"{N(l.Value!.Value)} {l.Unit}"))];
    }

    /// <summary>"6.3 V, 0.45 A", or empty.</summary>
    public static string Heater(ValveType type) =>
        string.Join(", ", new[] { type.HeaterVolts is { } v ? $"{N(v)} V" : null, type.HeaterAmperes is { } a ? $"{N(a)} A" : null }.OfType<string>());

    /// <summary>How far new valves spread, as a sentence.</summary>
    public static string Spread(FittedValve laws) =>
        string.Create(CultureInfo.InvariantCulture, $"A new valve's currents spread by about ±{100 * laws.NewSpread:0} % ({laws.SpreadSource}).");

    /// <summary>"+5.1 %".</summary>
    public static string Error(Comparison figure) => string.Create(CultureInfo.InvariantCulture, $"{100 * figure.Error:+0.0;-0.0;0.0} %");

    /// <summary>Has the type several sections with the same limits?</summary>
    public static bool Several(ValveType type) => type.Class.StartsWith("twin", StringComparison.OrdinalIgnoreCase);

    /// <summary>A figure in the handbooks' units.</summary>
    public static string Given(Quantity quantity, double value) => quantity switch
    {
        Quantity.PlateCurrent or Quantity.ScreenCurrent => $"{N(value * 1e3)} mA",
        Quantity.Transconductance or Quantity.RemoteTransconductance or Quantity.ConversionTransconductance => $"{N(value * 1e3)} mA/V",
        Quantity.PlateResistance => $"{N(value / 1e3)} kΩ",
        Quantity.CutoffVolts => $"{N(value)} V",
        _ => N(value),
    };

    /// <summary>Four figures, invariant.</summary>
    public static string N(double value) => value.ToString("G4", CultureInfo.InvariantCulture);
}

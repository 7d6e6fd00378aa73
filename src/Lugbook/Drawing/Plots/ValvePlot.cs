using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Valves;
using Lugbook.Trade.Valves;

namespace Lugbook.Drawing.Plots;

/// <summary>One curve: current by voltage at a fixed grid voltage.</summary>
/// <param name="GridVolts">Grid to cathode, V; null in a diode.</param>
/// <param name="Amperes">Current at the voltages 0 to the plot's right edge, evenly spaced, A.</param>
internal sealed record PlotCurve(double? GridVolts, ImmutableArray<double> Amperes);

/// <summary>A handbook line as a point.</summary>
/// <param name="Volts">Plate to cathode, V.</param>
/// <param name="Amperes">Plate current, A.</param>
/// <param name="SameScreen">Taken at the screen voltage of the curves; always true without a screen.</param>
/// <param name="Words">The line in words.</param>
internal sealed record PlotPoint(double Volts, double Amperes, bool SameScreen, string Words);

/// <summary>Curves of one section: plate current against plate voltage.</summary>
internal sealed record ValvePlot
{
    private const int Steps = 120;

    /// <summary>Type and section.</summary>
    public required string Title { get; init; }
    /// <summary>What the curves were drawn for, in words: the screen's volts, the oscillator.</summary>
    public required string Conditions { get; init; }
    /// <summary>Right edge, V.</summary>
    public required double VoltsTop { get; init; }
    /// <summary>Upper edge, A.</summary>
    public required double AmperesTop { get; init; }
    /// <summary>Highest grid voltage first.</summary>
    public required ImmutableArray<PlotCurve> Curves { get; init; }
    /// <summary>Handbook lines that lie within the plot.</summary>
    public required ImmutableArray<PlotPoint> Points { get; init; }
    /// <summary>Plate dissipation limit, W; null when not known.</summary>
    public double? PlateWatts { get; init; }

    /// <summary>A plot for every law of the type; sections with the same law share one.</summary>
    public static ImmutableArray<ValvePlot> Of(FittedValve valve, ValveType? type)
    {
        var plots = ImmutableArray.CreateBuilder<ValvePlot>();
        foreach (var same in valve.Sections.GroupBy(s => (object?)s.Fit ?? s.Diode))
        {
            var first = same.First();
            var name = same.Count() > 1 && first.Fit is not null ? $"{valve.Type}, each section" : first.Name.Length > 0 && first.Fit is not null ? $"{valve.Type}, {first.Name}" : valve.Type;
            if (first.Fit is { } fit) plots.Add(OfFit(name, fit, type?.LimitsOf(first.Name)));
            else if (first.Diode is { } diode && !first.Name.StartsWith('d')) plots.Add(OfDiode($"{name}, each plate", diode));
        }
        return plots.ToImmutable();
    }

    private static ValvePlot OfFit(string title, FittedLaw fit, ValveLimits? limits)
    {
        var working = fit.Lines.Where(l => l.Line.PlateAmperes is not null && l.Line.Kind is not (LineKind.Cutoff or LineKind.RemoteCutoff or LineKind.Pulse)).ToArray();
        var shown = working.Length > 0 ? working : [.. fit.Lines];
        var volts = Up(Math.Max(1.15 * shown.Max(l => l.Line.PlateVolts), 0));
        var screen = Screen(fit, shown);
        // At the grid voltage of the largest line the curve must not leave the page: two and a half times its current leaves room for the rest.
        var amperes = Up(2.5 * shown.Max(l => l.Line.PlateAmperes ?? 1e-3));
        var (law, conditions) = Law(fit, screen);
        var step = Step(law, volts, amperes);
        var curves = ImmutableArray.CreateBuilder<PlotCurve>();
        for (var k = 0; k < 40; k++)
        {
            var grid = -k * step;
            PlotCurve curve = new(grid, [.. Enumerable.Range(0, Steps + 1).Select(i => law(volts * i / Steps, grid))]);
            curves.Add(curve);
            if (curve.Amperes[^1] < 0.01 * amperes) break;
        }
        var points = fit.Lines.Where(l => l.Line.PlateAmperes is { } a && a <= amperes && l.Line.PlateVolts <= volts && l.Line.Kind != LineKind.RemoteCutoff && l.Line.Connection != Connection.OscillatorTriode)
            .Select(l => new PlotPoint(ToCathode(l), l.Line.PlateAmperes!.Value,
                fit.Triode is not null || (l.Line.Connection is not Connection.TriodeConnected && l.Line.ScreenVolts is { } s && screen is { } of && Math.Abs(s - of) < 0.02 * of), Words(l)));
        return new() { Title = title, Conditions = conditions, VoltsTop = volts, AmperesTop = amperes, Curves = curves.ToImmutable(), Points = [.. points], PlateWatts = limits?.PlateWatts };
    }

    private static ValvePlot OfDiode(string title, DiodeLaw law)
    {
        // Up to the drop at a quarter of an ampere, or what 100 V drive through a small diode.
        var volts = 1.0;
        while (volts < 100 && law.At(volts) < 0.25) volts += 1;
        var top = Up(volts);
        PlotCurve curve = new(null, [.. Enumerable.Range(0, Steps + 1).Select(i => law.At(top * i / Steps))]);
        return new() { Title = title, Conditions = "", VoltsTop = top, AmperesTop = Up(curve.Amperes[^1]), Curves = [curve], Points = [] };
    }

    // The screen voltage that most lines share; of several the first in the book.
    private static double? Screen(FittedLaw fit, LineFit[] lines) =>
        fit.Triode is not null ? null
        : lines.Where(l => l.Line.Connection is not (Connection.TriodeConnected or Connection.OscillatorTriode)).Select(l => l.Line.ScreenVolts).OfType<double>()
            .GroupBy(v => v).OrderByDescending(g => g.Count()).FirstOrDefault()?.Key;

    private static (Func<double, double, double> Law, string Conditions) Law(FittedLaw fit, double? screen)
    {
        if (fit.Triode is { } triode) return ((v, g) => triode.At(v, g).PlateAmperes, "");
        if (fit.Pentode is { } pentode)
            return screen is { } s ? ((v, g) => pentode.At(v, s, g).PlateAmperes, $"Screen at {N(s)} V") : ((v, g) => pentode.Triode(v, g).PlateAmperes, "Screen joined to plate");
        var converter = fit.Converter!;
        // As the books print beside converter lines: 20 kΩ leak, 0.5 mA.
        var peak = converter.OscillatorPeakVolts(20e3, 0.5e-3);
        var screens = screen ?? 100;
        return fit.Lines.Any(l => l.Line.Connection == Connection.Converter)
            ? ((v, g) => converter.At(v, screens, g, -10, peak).PlateAmperes, $"Grids 2 and 4 at {N(screens)} V, oscillator running (20 kΩ, 0.5 mA); beside the curves the volts of grid 3")
            : ((v, g) => converter.At(v, screens, 0, g).PlateAmperes, $"Grids 2 and 4 at {N(screens)} V, grid 3 at 0 V, no oscillation");
    }

    private static double Step(Func<double, double, double> law, double volts, double amperes)
    {
        // Where the current at the right edge has fallen to a fiftieth of the page.
        var (low, high) = (-400.0, 0.0);
        for (var k = 0; k < 50; k++)
        {
            var middle = 0.5 * (low + high);
            if (law(volts, middle) < 0.02 * amperes) low = middle;
            else high = middle;
        }
        return Math.Max(Nice(-high / 9), 0.1);
    }

    // A self-biased line printed to ground loses its bias.
    private static double ToCathode(LineFit line) => line.Line.CathodeOhms is null || line.Line.VoltsToCathode ? line.Line.PlateVolts : line.Line.PlateVolts + line.GridVolts;

    private static string Words(LineFit line) =>
        $"{N(line.Line.PlateVolts)} V{(line.Line.ScreenVolts is { } s ? $", screen {N(s)} V" : "")}, grid {N(line.GridVolts)} V: {N(line.Line.PlateAmperes!.Value * 1e3)} mA ({line.Line.Source})";

    /// <summary>1, 2, 2.5 or 5 times a power of ten, at or just above.</summary>
    internal static double Nice(double value)
    {
        if (!(value > 1e-12)) return 1e-12;
        var power = Math.Pow(10, Math.Floor(Math.Log10(value)));
        foreach (var times in (double[])[1, 2, 2.5, 5])
            if (times * power >= value * (1 - 1e-9)) return times * power;
        return 10 * power;
    }

    // An edge that a whole number of divisions reaches.
    private static double Up(double value)
    {
        var step = Nice(value / 8);
        return step * Math.Ceiling(value / step - 1e-9);
    }

    private static string N(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}

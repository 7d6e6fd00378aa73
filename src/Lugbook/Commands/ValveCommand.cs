using System.CommandLine;
using System.Globalization;
using Lugbook.Circuit.Valves;
using Lugbook.Output;
using Lugbook.Trade.Valves;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>"valve": pins, heater, and how well the fitted law meets each handbook line.</summary>
internal static class ValveCommand
{
    public static Command Create()
    {
        var type = new Argument<string>("TYPE") { Description = "A valve type or an equivalent of it: 6V6GT, ECC83." };
        var json = Shared.Json();
        var command = new BenchWord("valve", "A valve type: pins, heater, and how well the fitted law meets each handbook line.",
            "lugbook valve 6V6GT",
            "lugbook valve ECC83 --json")
        { type, json };
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            var asked = parsed.GetValue(type)!;
            var data = await BenchData.LoadAsync(BenchOptions.UsualDataFolder(), stop);
            var library = await ValveData.LoadAsync(data.Folder, stop);
            var (pins, laws) = (data.Handbook.Find(asked), library.Find(asked));
            if (pins is null && laws is null)
            {
                await error.WriteLineAsync($"lugbook: no valve '{asked}' is in data/valves. Types known: {string.Join(", ", library.Types)}.");
                return ExitCode.WrongInput;
            }
            await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(Shape(asked, pins, laws)) : Sentences(asked, pins, laws));
            return ExitCode.Done;
        });
        return command;
    }

    private static string Sentences(string asked, ValveType? pins, FittedValve? laws)
    {
        var text = new StringWriter();
        text.WriteLine(pins is null ? asked : $"{pins.Type}: {pins.Class}, base {pins.Base}");
        if (pins is not null)
        {
            if (pins.HeaterVolts is { } volts) text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Heater {volts} V, {pins.HeaterAmperes} A"));
            text.WriteLine($"Pins, numbered as seen from below: {string.Join("  ", pins.Pinout.Select(p => $"{p.Key}={string.Join(',', p.Value)}"))}");
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
                    table.Add(N(line.Line.PlateVolts), line.Line.ScreenVolts is { } screen ? N(screen) : "", N(line.GridVolts), Words(figure.Quantity), Given(figure.Quantity, figure.Given), Given(figure.Quantity, figure.Predicted),
                        string.Create(CultureInfo.InvariantCulture, $"{100 * figure.Error:+0.0;-0.0;0.0} %"), line.Line.Source);
                }
            }
            text.Write(table);
            foreach (var weak in fit.Weak) text.WriteLine($"Weak: {weak}");
        }
        if (laws is not null)
            text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"\nA new valve's currents spread by about ±{100 * laws.NewSpread:0} % ({laws.SpreadSource})."));
        return text.ToString().TrimEnd();
    }

    private static object Shape(string asked, ValveType? pins, FittedValve? laws) => new
    {
        Asked = asked,
        pins?.Type,
        pins?.Class,
        pins?.Base,
        Pins = pins?.Pinout,
        pins?.HeaterVolts,
        pins?.HeaterAmperes,
        pins?.Equivalents,
        pins?.Source,
        pins?.Confidence,
        laws?.DataOf,
        laws?.NewSpread,
        laws?.SpreadSource,
        Sections = laws?.Sections.Select(s => new
        {
            s.Name,
            s.Origin,
            s.Diode,
            Parameters = s.Fit?.Parameters,
            Lines = s.Fit?.Lines.Select(l => new
            {
                l.Line.PlateVolts, l.Line.ScreenVolts, l.GridVolts, l.Line.Source,
                Figures = l.Figures.Select(f => new { f.Quantity, f.Given, f.Predicted, ErrorPercent = 100 * f.Error }),
            }),
            s.Fit?.Weak,
        }),
    };

    private static string Words(Quantity quantity) => quantity switch
    {
        Quantity.PlateCurrent => "plate current",
        Quantity.ScreenCurrent => "screen current",
        Quantity.Transconductance => "transconductance",
        Quantity.PlateResistance => "plate resistance",
        Quantity.AmplificationFactor => "amplification factor",
        Quantity.CutoffVolts => "cut-off grid voltage",
        Quantity.RemoteTransconductance => "transconductance far down",
        _ => "conversion transconductance",
    };

    private static string Given(Quantity quantity, double value) => quantity switch
    {
        Quantity.PlateCurrent or Quantity.ScreenCurrent => $"{N(value * 1e3)} mA",
        Quantity.Transconductance or Quantity.RemoteTransconductance or Quantity.ConversionTransconductance => $"{N(value * 1e3)} mA/V",
        Quantity.PlateResistance => $"{N(value / 1e3)} kΩ",
        Quantity.CutoffVolts => $"{N(value)} V",
        _ => N(value),
    };

    private static string N(double value) => value.ToString("G4", CultureInfo.InvariantCulture);
}

using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;
using Lugbook.Trade.Valves;

namespace Lugbook.Web;

/// <summary>The form of a valve type of the user's own: pins, heater and limits, and lines of its data sheet.</summary>
internal sealed class ValveForm
{
    /// <summary>One line of a data sheet, as text.</summary>
    internal sealed class Line
    {
        public string?[] Figures { get; } = new string?[Columns.Length];
        public string Connection { get; set; } = "";
        public string Kind { get; set; } = "";
        public string? Source { get; set; }
    }

    /// <summary>Figures of a line: a short label with its unit, and between what they may lie.</summary>
    public static ImmutableArray<(string Label, double Least, double Most)> Columns { get; } =
    [
        ("Plate, V", 0, 5000), ("Screen, V", 0, 2000), ("Grid 1, V", -1000, 100), ("or cathode, Ω", 0, 1e6), ("Plate, mA", 0, 1e4), ("Screen, mA", 0, 1e4), ("gm, µmho", 0, 1e6), ("rp, Ω", 0, 1e8), ("µ", 0, 1000),
    ];

    /// <summary>Connections that a line may have; the first: by whether a screen voltage is given.</summary>
    public static ImmutableArray<string> Connections { get; } = ["", "triode", "pentode", "beam", "triode-connected", "triode-section", "pentode-section", "converter", "heptode", "oscillator-triode"];
    /// <summary>Kinds of line; the first: an average characteristic.</summary>
    public static ImmutableArray<string> Kinds { get; } = ["", "operation", "push-pull", "cutoff", "remote cutoff", "pulse"];
    /// <summary>Classes that decide the shape of the curve.</summary>
    public static ImmutableArray<string> Classes { get; } = ["triode", "twin-triode", "pentode", "remote pentode", "beam", "converter", "triode-heptode", "triode-pentode", "duodiode-triode", "duodiode-pentode"];

    public string? Type { get; set; }
    public string Class { get; set; } = "triode";
    public string? Base { get; set; }
    public string? Pinout { get; set; }
    public string? HeaterVolts { get; set; }
    public string? HeaterAmperes { get; set; }
    public string? PlateVolts { get; set; }
    public string? PlateWatts { get; set; }
    public string? ScreenVolts { get; set; }
    public string? ScreenWatts { get; set; }
    public string? CathodeMilliamperes { get; set; }
    public string? Source { get; set; }
    public List<Line> Lines { get; } = [];

    /// <summary>Fills the form from a book.</summary>
    public static ValveForm Of(Book book, string type)
    {
        bool Is(Row row) => string.Equals(row.Name, type, StringComparison.OrdinalIgnoreCase);
        var own = book.ValveTypes.FirstOrDefault(Is);
        var form = new ValveForm
        {
            Type = type, Class = own?.Class ?? "triode", Base = own?.Base, Pinout = own?.Pinout, HeaterVolts = Text(own?.HeaterVolts), HeaterAmperes = Text(own?.HeaterAmperes), PlateVolts = Text(own?.MaxPlateVolts), PlateWatts = Text(own?.MaxPlateWatts),
            ScreenVolts = Text(own?.MaxScreenVolts), ScreenWatts = Text(own?.MaxScreenWatts), CathodeMilliamperes = Text(own?.MaxCathodeMilliamperes), Source = own?.Source,
        };
        foreach (var row in book.ValveLines.Where(Is)) form.Lines.Add(LineOf(row));
        if (form.Lines.Count == 0) form.Lines.Add(new());
        return form;
    }

    /// <summary>A row of the book as text.</summary>
    public static Line LineOf(ValveLine row)
    {
        var line = new Line { Connection = row.Connection ?? "", Kind = row.Kind ?? "", Source = row.Source };
        double?[] figures = [row.PlateVolts, row.ScreenVolts, row.GridVolts, row.CathodeOhms, row.PlateMilliamperes, row.ScreenMilliamperes, row.Micromhos, row.PlateOhms, row.Mu];
        for (var i = 0; i < figures.Length; i++) line.Figures[i] = Text(figures[i]);
        return line;
    }

    /// <summary>The type and its lines; or what is wrong.</summary>
    /// <param name="before">The rows as they were: what the form does not show of them is kept.</param>
    public (OwnValve? Valve, ImmutableArray<ValveLine> Lines, ImmutableArray<Complaint> Complaints) Read(Book before)
    {
        var wrong = ImmutableArray.CreateBuilder<Complaint>();
        var type = Type?.Trim() ?? "";
        if (type.Length is 0 or > 40) wrong.Add(new("Type", type, 0, "the valve needs its type.", "Write it as it stands on the glass: 6SC7."));
        double? Number(string place, string? text, double least, double most)
        {
            if (string.IsNullOrWhiteSpace(text)) return null;
            if (double.TryParse(text.Trim().Replace(',', '.').Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most) return number;
            if (place.EndsWith('Ω') && Notation.TryParse(text, Unit.Ohm, out var ohms, out _, MegHabit.Million) && ohms >= least && ohms <= most) return ohms;
            wrong.Add(new(place, text, 0, string.Create(CultureInfo.InvariantCulture, $"this is not a figure from {least} to {most}."), "Write it in figures, without its unit."));
            return null;
        }
        var kept = before.ValveTypes.FirstOrDefault(v => string.Equals(v.Name, type, StringComparison.OrdinalIgnoreCase));
        var valve = (kept ?? new OwnValve { Name = type }) with
        {
            Name = type, Class = Class, Base = Word(Base), Pinout = Word(Pinout), HeaterVolts = Number("Heater, V", HeaterVolts, 0, 200), HeaterAmperes = Number("Heater, A", HeaterAmperes, 0, 20), MaxPlateVolts = Number("Plate limit, V", PlateVolts, 1, 1e5),
            MaxPlateWatts = Number("Plate limit, W", PlateWatts, 0.01, 1e4), MaxScreenVolts = Number("Screen limit, V", ScreenVolts, 1, 1e4), MaxScreenWatts = Number("Screen limit, W", ScreenWatts, 0.01, 1e3),
            MaxCathodeMilliamperes = Number("Cathode limit, mA", CathodeMilliamperes, 0.01, 1e5), Source = Word(Source),
        };
        if (valve.Pinout is null) wrong.Add(new("Pins", "", 0, "which pin is what is not given.", "Write them as seen from below: 2=p;3=g;6=k;7=h;8=h."));
        else if (type.Length > 0 && valve.Fault("Pins") is { } fault) wrong.Add(fault with { Place = "Pins" });
        var lines = ImmutableArray.CreateBuilder<ValveLine>();
        for (var n = 0; n < Lines.Count; n++)
        {
            var line = Lines[n];
            if (line.Figures.All(string.IsNullOrWhiteSpace)) continue;
            var f = line.Figures.Select((text, i) => Number($"Line {n + 1}, {Columns[i].Label}", text, Columns[i].Least, Columns[i].Most)).ToArray();
            lines.Add(new()
            {
                Name = type, PlateVolts = f[0], ScreenVolts = f[1], GridVolts = f[2], CathodeOhms = f[3], PlateMilliamperes = f[4], ScreenMilliamperes = f[5], Micromhos = f[6], PlateOhms = f[7], Mu = f[8],
                Connection = Word(line.Connection), Kind = Word(line.Kind), Source = Word(line.Source) ?? Word(Source), Confidence = "verified",
            });
        }
        return wrong.Count == 0 ? (valve, lines.ToImmutable(), []) : (null, [], wrong.ToImmutable());
    }

    private static string? Word(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
    private static string? Text(double? number) => number?.ToString("0.######", CultureInfo.InvariantCulture);
}

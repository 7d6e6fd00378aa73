using Lugbook.Trade.Valves;

namespace Lugbook.Store.Exchange;

/// <summary>Reads valve types and data-sheet lines of the user's own from text. Pure.</summary>
/// <remarks>Whether a line is whole (a grid voltage, a current) is for whoever fits it to say; here only figures are read, within what can be.</remarks>
public static class ValvesText
{
    /// <summary>Lines of data sheets from separated text: what "valve fit" takes.</summary>
    public static TableRead<ValveLine> ReadLines(string text, ReadingContext? context = null) => TableReader.Text(text, Shapes.ValveLines, context ?? ReadingContext.None, LineRows);

    /// <summary>Valve types from separated text.</summary>
    public static TableRead<OwnValve> ReadTypes(string text, ReadingContext? context = null) => TableReader.Text(text, Shapes.ValveTypes, context ?? ReadingContext.None, TypeRows);

    internal static IEnumerable<OwnValve> TypeRows(TableReader table)
    {
        foreach (var row in table.Body())
        {
            if (Type(row) is not { } type) continue;
            OwnValve valve = new()
            {
                Id = row.Id(), Name = type, Equivalents = row.Words("equivalents"), Class = row.Words("class"), Base = row.Words("base"), Pinout = row.Words("pinout"),
                HeaterVolts = row.Number("heater_v", 0, 1000), HeaterAmperes = row.Number("heater_a", 0, 100), MaxPlateVolts = row.Number("max_plate_v", 1e-3, 1e5), MaxPlateWatts = row.Number("max_plate_w", 1e-3, 1e4),
                MaxScreenVolts = row.Number("max_screen_v", 1e-3, 1e4), MaxScreenWatts = row.Number("max_screen_w", 1e-3, 1e3), MaxCathodeMilliamperes = row.Number("max_cathode_ma", 1e-3, 1e5),
                MaxHeaterCathodeVolts = row.Number("max_heater_cathode_v", 1e-3, 1e4), Source = row.Words("source"), Note = row.Words("note"), Extras = row.Extras(),
            };
            if (!table.Context.Exact && valve.Fault("") is { } fault) row.Complain("pinout", fault.At, fault.Problem, fault.Remedy);
            yield return valve;
        }
    }

    internal static IEnumerable<ValveLine> LineRows(TableReader table)
    {
        foreach (var row in table.Body())
        {
            if (Type(row) is not { } type) continue;
            yield return new()
            {
                Id = row.Id(), Name = type, PlateVolts = row.Number("plate_v", 0, 5000), ScreenVolts = row.Number("screen_v", 0, 2000), GridVolts = row.Number("grid1_v", -1000, 100), Grid3Volts = row.Number("grid3_v", -500, 100),
                CathodeOhms = row.Number("cathode_ohm", 0, 1e6), PlateMilliamperes = row.Number("plate_ma", 0, 1e4), ScreenMilliamperes = row.Number("screen_ma", 0, 1e4), Micromhos = row.Number("gm_umho", 0, 1e6),
                PlateOhms = row.Number("rp_ohm", 0, 1e8), Mu = row.Number("mu", 0, 1000), Connection = row.Words("connection"), Kind = row.Words("kind"), VoltsTo = row.Words("volts_to"), Source = row.Words("source"),
                Confidence = row.Words("confidence"), Extras = row.Extras(),
            };
        }
    }

    private static string? Type(RowCells row)
    {
        if ((row.Table.Context.Exact ? row.Raw("type") : row.Words("type")) is { } type) return type;
        row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "the valve's type is missing.", "Write the type into every row, such as 6SN7GT.");
        return null;
    }
}

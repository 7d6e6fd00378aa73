using System.Globalization;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Quantities;

namespace Lugbook.Store.Exchange;

/// <summary>Reads meters of the user's own from text. Pure.</summary>
public static class MetersText
{
    /// <summary>Ranges of meters from separated text.</summary>
    public static TableRead<MeterLine> Read(string text, ReadingContext? context = null) => TableReader.Text(text, Shapes.Meters, context ?? ReadingContext.None, Rows);

    internal static IEnumerable<MeterLine> Rows(TableReader table)
    {
        foreach (var row in table.Body())
        {
            if ((table.Context.Exact ? row.Raw("meter") : row.Words("meter")) is not { } name)
            {
                row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "this range names no meter.", "Write the meter's name into every row of it.");
                continue;
            }
            if (MeterWords.Function(row.Words("quantity") ?? "") is not { } function)
            {
                row.Complain("quantity", 0, "this is nothing that a meter measures.", $"Write one of {string.Join(", ", Enum.GetValues<MeterFunction>().Select(MeterWords.Of))}.");
                continue;
            }
            if (Top(row, function) is not { } top) continue;
            MeterLine line = new()
            {
                Id = row.Id(), Name = name, Function = function, Top = top,
                ReadingPercent = row.Number("reading_pct", 0, 50), FullScalePercent = row.Number("full_scale_pct", 0, 50), Digits = row.Number("digits", 0, 1000), Counts = row.Number("counts", 20, 1e8),
                TestVolts = row.Number("test_v", 1e-3, 1e4), InputOhms = row.Number("input_ohms", 100, 1e15), OhmsPerVolt = row.Number("ohms_per_volt", 10, 1e6), Hertz = row.Number("hertz", 1, 1e7),
                Note = row.Words("note"), Extras = row.Extras(),
            };
            if (!table.Context.Exact)
                foreach (var fault in OwnMeter.Faults(line)) row.ComplainOfRow(fault.Text, fault.Problem, fault.Remedy);
            yield return line;
        }
    }

    private static double? Top(RowCells row, MeterFunction function)
    {
        var text = row.Raw("range").Trim();
        // Lugbook writes plain numbers in the base unit; people write 200, 2k and 20 µF, and 1,500 as the rest of their file does.
        if (row.Table.Context.Exact) return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var plain) ? plain : 0;
        if (!text.Any(c => char.IsLetter(c) && c is not ('e' or 'E')))
        {
            if (NumberText.Plain(text, row.Table.Habit, out var at, out var problem) is { } number) return NumberText.Scaled(number, 0);
            row.Complain("range", at, problem!, "Write the highest figure that the range shows: 200, 2k, 20M.");
            return null;
        }
        if (Notation.TryParse(text, MeterLine.UnitOf(function), out var top, out var complaint, Trade.MegHabit.Million)) return top;
        row.Complain("range", complaint!.At, complaint.Problem, complaint.Remedy);
        return null;
    }
}

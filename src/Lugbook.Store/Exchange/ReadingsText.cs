using System.Globalization;
using Lugbook.Trade.Readings;

namespace Lugbook.Store.Exchange;

/// <summary>Reads measured readings from text. Pure.</summary>
public static class ReadingsText
{
    /// <summary>Readings from separated text.</summary>
    public static TableRead<Reading> Read(string text, ReadingContext? context = null) => TableReader.Text(text, Shapes.Readings, context ?? ReadingContext.None, Rows);

    internal static IEnumerable<Reading> Rows(TableReader table)
    {
        foreach (var row in table.Body())
        {
            if ((table.Context.Exact ? row.Raw("ref") : row.Words("ref")) is not { } name)
            {
                row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "this reading names no part and no lug.", "Write the part's reference, or for volts the lug.");
                continue;
            }
            var word = row.Words("quantity") ?? "ohms";
            if (ReadingWords.Kind(word) is not { } kind)
            {
                row.Complain("quantity", 0, "this quantity is not known.", $"Write one of {string.Join(", ", Enum.GetValues<ReadingKind>().Select(ReadingWords.Of))}.");
                continue;
            }
            if (Value(row, kind) is not var (value, over)) continue;
            yield return new()
            {
                Id = row.Id(),
                Name = name,
                Kind = kind,
                Value = value,
                IsOver = over,
                IsLifted = Yes(row, "lifted"),
                LiftedPart = row.Words("lifted_part"),
                IsReversed = Yes(row, "reversed"),
                FromLug = row.Words("from_lug"),
                ToLug = row.Words("to_lug"),
                Meter = row.Words("meter"),
                TestVolts = row.Number("test_v", 0, 1e5),
                At = Time(row),
                Note = row.Words("note"),
                Extras = row.Extras(),
            };
        }
    }

    private static (double Value, bool Over)? Value(RowCells row, ReadingKind kind)
    {
        var text = row.Raw("value").Trim();
        if (text.Length == 0)
        {
            row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "a reading needs its value.", "Write the number, or over.");
            return null;
        }
        var over = Yes(row, "over");
        // Lugbook writes plain numbers in the base unit; people write 57.8K and OL.
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var plain) && double.IsFinite(plain)) return (plain, over);
        if (ReadingWords.TryRead(text, kind, double.MaxValue, out var value, out var isOver, out var complaint))
        {
            // A bare "OL" tells no range: 0 stands for the top of the meter that was used, which is known where it is judged.
            if (isOver && value == double.MaxValue) value = 0;
            return (value, isOver || over);
        }
        row.Complain("value", complaint!.At, complaint.Problem, complaint.Remedy);
        return null;
    }

    private static bool Yes(RowCells row, string key)
    {
        if (row.Words(key) is not { } text) return false;
        switch (text.ToLowerInvariant())
        {
            case "yes" or "y" or "x" or "1" or "true" or "✓" or "✔" or "ja" or "oui" or "si": return true;
            case "no" or "n" or "0" or "false" or "-" or "nein" or "non" or "nee": return false;
        }
        row.Complain(key, 0, "this is neither yes nor no.", "Write yes or no, or leave it empty.");
        return false;
    }

    private static DateTimeOffset? Time(RowCells row)
    {
        if (row.Words("at") is not { } text) return null;
        if (DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var time)) return time;
        row.Complain("at", 0, "not a date and time.", "Write it as 2026-11-25T20:30:00Z, or leave it empty.");
        return null;
    }
}

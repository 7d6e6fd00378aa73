using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Sheets;

namespace Lugbook.Store.Exchange;

/// <summary>Reads the service sheet's chart, and declared voltages, from text. Pure; as forgiving as <see cref="PartsText"/>.</summary>
public static class SheetText
{
    /// <summary>The chart of volts and ohms, from separated text.</summary>
    public static TableRead<SheetReading> Read(string text, ReadingContext? context = null) => TableReader.Text(text, Shapes.Sheet, context ?? ReadingContext.None, Rows);

    /// <summary>Voltages to be taken as given, from separated text.</summary>
    public static TableRead<DeclaredVoltage> ReadDeclared(string text, ReadingContext? context = null) => TableReader.Text(text, Shapes.Declared, context ?? ReadingContext.None, DeclaredRows);

    internal static IEnumerable<DeclaredVoltage> DeclaredRows(TableReader table)
    {
        foreach (var row in table.Body())
        {
            var lug = row.LugName("lug");
            var volts = row.Number("volts_dc", -1e5, 1e5);
            if (lug is null && row.Raw("lug").Trim().Length == 0) row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "this voltage has no lug.", "Name the lug to which it belongs.");
            if (volts is null && (row.Raw("volts_dc").Trim() is var text) && (text.Length == 0 || RowCells.IsNothing(text)))
                row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "a declared voltage needs its volts.", "Write the volts to common, or take the row out.");
            if (lug is null || volts is not { } given) continue;
            yield return new() { Id = row.Id(), Name = lug, Volts = given, Why = row.Words("why"), Extras = row.Extras() };
        }
    }

    internal static IEnumerable<SheetReading> Rows(TableReader table)
    {
        string? lastValve = null;
        foreach (var row in table.Body())
        {
            var (valve, pin) = (row.Words("valve"), row.Words("pin"));
            if (!table.Context.Exact)
            {
                if ((valve is null || pin is null) && row.LugName("lug") is { } lug && lug.LastIndexOf('-') is var cut and > 0) (valve, pin) = (lug[..cut], lug[(cut + 1)..]);
                // Charts write the valve once and then only its pins.
                valve ??= lastValve;
                lastValve = valve;
                if (pin is not null) pin = Pin(pin);
            }
            if (valve is null || pin is null)
            {
                row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "a reading needs its valve and its pin.", "Write both, as in V3 and 8, or cap for a top cap.");
                continue;
            }
            var (volts, ac) = Volts(row);
            yield return new()
            {
                Id = row.Id(),
                Name = $"{valve}-{pin}",
                Valve = valve,
                Pin = pin,
                Volts = volts,
                IsAc = ac,
                Ohms = Ohms(row),
                Note = row.Words("note"),
                Extras = row.Extras(),
            };
        }
    }

    private static string Pin(string pin) => HeaderWords.Normal(pin) switch
    {
        "cap" or "top cap" or "tc" or "top" => "cap",
        var word when word.StartsWith("pin ", StringComparison.Ordinal) => word[4..],
        _ => pin.EndsWith(".0", StringComparison.Ordinal) ? pin[..^2] : pin,
    };

    private static (double? Volts, bool Ac) Volts(RowCells row)
    {
        var kind = row.Words("kind") is { } word ? HeaderWords.Normal(word) : "";
        if (kind is not ("" or "dc" or "ac" or "d c" or "a c" or "v dc" or "v ac" or "vdc" or "vac" or "heater"))
            row.Complain("kind", 0, "this is neither dc nor ac.", "Write dc or ac, or leave the cell empty for dc.");
        var text = row.Raw("volts").Trim();
        var ac = kind is "ac" or "a c" or "v ac" or "vac";
        // "6.3 AC", "~6.3 V", "250 DC": the sort of voltage beside its figure.
        foreach (var sort in new[] { "ac", "~", "dc", "=" })
        {
            if (row.Table.Context.Exact) break;
            var at = text.IndexOf(sort, StringComparison.OrdinalIgnoreCase);
            if (at < 0) continue;
            ac |= sort is "ac" or "~";
            text = text.Remove(at, sort.Length).Trim();
        }
        return (Unknown(text) ? null : row.Number("volts", -1e5, 1e5, text), ac);
    }

    private static bool Unknown(string text) => text.Length == 0 || RowCells.IsNothing(text) || text.ToUpperInvariant() is "NC" or "N/C" or "N.C." or "NS" or "*";

    /// <summary>Ohms in figures, with K or MEG, or one of the words for "no path".</summary>
    private static double? Ohms(RowCells row)
    {
        var text = row.Raw("ohms").Trim();
        if (text.Length == 0) return null;
        if (text.Equals("INF", StringComparison.OrdinalIgnoreCase)) return double.PositiveInfinity;
        if (row.Table.Context.Exact) return row.Number("ohms", 0, 0);
        if (HeaderWords.Normal(text) is "infinity" or "infinite" or "open" or "no path" or "inf" or "ol" or "o l" or "unendlich" || text is "∞" or "1/0") return double.PositiveInfinity;
        if (Unknown(text)) return null;
        if (char.IsAsciiLetter(text[^1]) && UnitWords.Of(text.TrimStart('0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '.', ',', ' ')) is null)
        {
            var context = new MarkingContext { Kind = PartKind.Resistor, MegHabit = row.Table.Context.MegHabit, Year = row.Table.Context.Year, OtherMarkings = row.Table.Context.OtherMarkings };
            var read = TextMarking.Read(text, context);
            if (read is { IsCertain: true, Best: { Unit: Unit.Ohm } meaning }) return meaning.Value;
            if (read.Meanings.Length > 1)
            {
                row.Remark($"'{text}' may mean {string.Join(" or ", read.Meanings.Select(m => $"{Notation.Print(m.Value, Unit.Ohm)} ({m.Code})"))}; the ohms are left open.");
                return null;
            }
        }
        return row.Number("ohms", 0, 1e15);
    }
}

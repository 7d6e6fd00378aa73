using System.Globalization;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Tests.Drawing;

/// <summary>The demo books as the drawing needs them, read by a few lines that trust their files.</summary>
internal static class DemoBooks
{
    public static Book Read(string name)
    {
        var folder = Path.Combine(AppContext.BaseDirectory, "data", "demo", name);
        var lugs = Rows(Path.Combine(folder, "lugs.csv"));
        return Book.Empty(name, name) with
        {
            Mounts = Table<Mount>.Of(lugs.DistinctBy(r => r["mount"]).Select(r => new Mount { Name = r["mount"], KindAsWritten = r["mount_kind"] })),
            Lugs = Table<Lug>.Of(lugs.Select(r => new Lug { Name = r["lug"], Mount = r["mount"], No = int.Parse(r["no"], CultureInfo.InvariantCulture), Function = r["function"], X = Number(r["x_mm"]), Y = Number(r["y_mm"]), Note = Text(r["note"]) })),
            Wires = Table<Wire>.Of(Rows(Path.Combine(folder, "wires.csv")).Select(r => new Wire { Name = r["wire"], From = r["from"], To = r["to"], KindAsWritten = r["kind"], Colour = Text(r["colour"]) })),
            Parts = Table<Part>.Of(Rows(Path.Combine(folder, "parts.csv")).Select(r => new Part
            {
                Name = r["ref"], KindAsWritten = r["kind"], Marked = Text(r["marked"]), Value = Number(r["value"]), Unit = r["unit"] switch { "ohm" => Unit.Ohm, "farad" => Unit.Farad, _ => null },
                RatedVolts = Number(r["rated_v"]), RatedWatts = Number(r["rated_w"]), Tolerance = Number(r["tol_pct"]) is { } t ? Tolerance.Percent(t) : null,
                LeadA = Text(r["lead_a"]), LeadB = Text(r["lead_b"]), LeadC = Text(r["lead_c"]), PlusLead = Text(r["plus_lead"])?[0], Group = Text(r["group"]), Code = Text(r["code"]), Note = Text(r["note"]),
            })),
        };
    }

    private static string? Text(string cell) => cell.Length == 0 ? null : cell;
    private static double? Number(string cell) => cell.Length == 0 ? null : double.Parse(cell, CultureInfo.InvariantCulture);

    private static List<Dictionary<string, string>> Rows(string file)
    {
        var lines = File.ReadAllLines(file);
        var header = Cells(lines[0]);
        return [.. lines.Skip(1).Where(l => l.Length > 0).Select(l => header.Zip(Cells(l)).ToDictionary(p => p.First, p => p.Second))];
    }

    private static List<string> Cells(string line)
    {
        var cells = new List<string>();
        var cell = new System.Text.StringBuilder();
        var quoted = false;
        foreach (var c in line)
            if (c == '"') quoted = !quoted;
            else if (c == ',' && !quoted) { cells.Add(cell.ToString()); cell.Clear(); }
            else cell.Append(c);
        cells.Add(cell.ToString());
        return cells;
    }
}

using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Lugbook.Trade.Tests.Markings.Colours;

/// <summary>One row of data/reference/colour-codes.csv, by column name.</summary>
public sealed record ColourRow(ImmutableDictionary<string, string> Cells)
{
    public string this[string column] => Cells[column];
    public string Record => this["record"];
    public string Id => this["id"];
    public string Marking => this["marking"];
    public string Source => this["source"];
    public bool IsOhm => this["unit"] == "ohm";

    /// <summary>The families that the row speaks of: "mica-rma-3/5/6" is three.</summary>
    public IEnumerable<string> Families => this["family"] switch
    {
        "resistor-band/5band/6band" => ["resistor-band", "resistor-5band", "resistor-6band", "resistor-body-end-dot", "resistor-flexible"],
        "mica-rma-3/5/6" => ["mica-rma-3", "mica-rma-5", "mica-rma-6"],
        var family => family.Split('/'),
    };

    public double? Number(string column) =>
        this[column].Length == 0 ? null : double.Parse(this[column], NumberStyles.Float, CultureInfo.InvariantCulture);

    /// <summary>The value in the base unit, correctly rounded.</summary>
    public double Value => IsOhm ? Number("value")!.Value : (double)(decimal.Parse(this["value"], CultureInfo.InvariantCulture) / 1_000_000_000_000m);

    public override string ToString() => $"{Record} {this["family"]} {Id} {Marking}";

    /// <summary>All rows, in the order of the file.</summary>
    public static ImmutableArray<ColourRow> All { get; } = Load();

    public static IEnumerable<ColourRow> Of(string record) => All.Where(r => r.Record == record);

    private static ImmutableArray<ColourRow> Load()
    {
        var lines = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "data", "reference", "colour-codes.csv"), Encoding.UTF8)
            .Where(l => l.Length > 0 && l[0] != '#').Select(Split).ToList();
        return [.. lines.Skip(1).Select(cells => new ColourRow(lines[0].Zip(cells).ToImmutableDictionary(p => p.First, p => p.Second)))];
    }

    private static List<string> Split(string line)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var quoted = false;
        foreach (var c in line)
        {
            if (c == '"') quoted = !quoted;
            else if (c == ',' && !quoted) { cells.Add(cell.ToString()); cell.Clear(); }
            else cell.Append(c);
        }
        cells.Add(cell.ToString());
        return cells;
    }
}

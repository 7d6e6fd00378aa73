using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using Lugbook.Store.Reference;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Sheets;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Tests;

/// <summary>The demo books and the handbook, read once from the data folder beside the tests.</summary>
internal static class DemoBooks
{
    private static readonly Lazy<ValveHandbook> LazyHandbook = new(() => HandbookFiles.ReadAsync(Path.Combine(AppContext.BaseDirectory, "data", "valves"), CancellationToken.None).GetAwaiter().GetResult());
    private static readonly Dictionary<string, Book> Books = [];

    public static ValveHandbook Handbook => LazyHandbook.Value;
    public static Book Radio => Named("radio");
    public static Book Amp => Named("amp");
    public static Book Tv => Named("tv");

    public static Book Named(string name)
    {
        lock (Books)
        {
            if (!Books.TryGetValue(name, out var book)) Books.Add(name, book = Read(name));
            return book;
        }
    }

    private static Book Read(string name)
    {
        var lugs = Rows(name, "lugs");
        return Book.Empty(name, name) with
        {
            Lugs = Table<Lug>.Of(lugs.Select(r => new Lug { Name = r["lug"], Mount = r["mount"], No = (int?)Number(r, "no"), Function = Text(r, "function"), X = Number(r, "x_mm"), Y = Number(r, "y_mm"), Note = Text(r, "note") })),
            Mounts = Table<Mount>.Of(lugs.Select(r => (Name: r["mount"], Kind: r["mount_kind"])).Distinct().Select(m => new Mount { Name = m.Name, KindAsWritten = m.Kind })),
            Wires = Table<Wire>.Of(Rows(name, "wires").Select(r => new Wire { Name = r["wire"], From = r["from"], To = r["to"], KindAsWritten = Text(r, "kind"), Colour = Text(r, "colour"), Note = Text(r, "note") })),
            Parts = Table<Part>.Of(Rows(name, "parts").Select(r => new Part
            {
                Name = r["ref"], KindAsWritten = r["kind"], Marked = Text(r, "marked"), Value = Number(r, "value"),
                Unit = Text(r, "unit") switch { "ohm" => Unit.Ohm, "farad" => Unit.Farad, _ => null },
                RatedVolts = Number(r, "rated_v"), RatedWatts = Number(r, "rated_w"),
                Tolerance = Number(r, "tol_pct") is { } percent ? Tolerance.Percent(percent) : null,
                LeadA = Text(r, "lead_a"), LeadB = Text(r, "lead_b"), LeadC = Text(r, "lead_c"),
                PlusLead = Text(r, "plus_lead")?[0], Group = Text(r, "group"), Code = Text(r, "code"), Note = Text(r, "note"),
            })),
            Declared = Table<DeclaredVoltage>.Of(Rows(name, "declared").Select(r => new DeclaredVoltage { Name = r["lug"], Volts = Number(r, "volts_dc")!.Value })),
        };
    }

    private static List<Dictionary<string, string>> Rows(string book, string table)
    {
        using var csv = new CsvReader(File.OpenText(Path.Combine(AppContext.BaseDirectory, "data", "demo", book, table + ".csv")), new CsvConfiguration(CultureInfo.InvariantCulture));
        csv.Read();
        csv.ReadHeader();
        var rows = new List<Dictionary<string, string>>();
        while (csv.Read()) rows.Add(csv.HeaderRecord!.ToDictionary(h => h, h => csv.GetField(h) ?? ""));
        return rows;
    }

    private static string? Text(Dictionary<string, string> row, string column) => row[column].Trim() is { Length: > 0 } text ? text : null;
    private static double? Number(Dictionary<string, string> row, string column) =>
        Text(row, column) is { } text ? double.Parse(text, CultureInfo.InvariantCulture) : null;
}

using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Valves;

/// <summary>Valve types and data-sheet lines that a book carries, as the readers of handbook files take them.</summary>
public static class BookValves
{
    /// <summary>Has the book any?</summary>
    public static bool Any(Book book) => book.ValveTypes.Count + book.ValveLines.Count > 0;

    /// <summary>The types, and what of them cannot be used.</summary>
    public static (ImmutableArray<ValveType> Types, ImmutableArray<Complaint> Complaints) Types(Book book)
    {
        var read = book.ValveTypes.Select(v => v.ToRow().Read($"valve type {v.Name}")).ToArray();
        return ([.. read.SelectMany(r => r.Types)], [.. read.Select(r => r.Complaint).OfType<Complaint>()]);
    }

    /// <summary>The lines as a table with the columns of data/valves/tube-points.csv; line n + 2 is row n.</summary>
    public static string LinesText(IEnumerable<ValveLine> lines) => Table(
        "type,plate_v,screen_v,grid1_v,grid3_v,cathode_ohm,plate_ma,screen_ma,gm_umho,rp_ohm,mu,connection,kind,volts_to,source,confidence",
        lines.Select(l => new[]
        {
            l.Name, Of(l.PlateVolts), Of(l.ScreenVolts), Of(l.GridVolts), Of(l.Grid3Volts), Of(l.CathodeOhms), Of(l.PlateMilliamperes), Of(l.ScreenMilliamperes), Of(l.Micromhos), Of(l.PlateOhms), Of(l.Mu),
            l.Connection, l.Kind, l.VoltsTo, l.Source ?? "the book's own", l.Confidence,
        }));

    /// <summary>The types as a table with the columns that curves are classed by.</summary>
    public static string TypesText(Book book) => Table("type,equivalents,class,max_plate_w,notes,points_under",
        book.ValveTypes.Select(v => new[] { v.Name, v.Equivalents, v.Class, Of(v.MaxPlateWatts), v.Class?.Contains("remote", StringComparison.OrdinalIgnoreCase) == true ? "remote cutoff" : v.Note, "" }));

    private static string? Of(double? number) => number?.ToString("R", CultureInfo.InvariantCulture);

    private static string Table(string header, IEnumerable<string?[]> rows) =>
        string.Join('\n', rows.Select(r => string.Join(',', r.Select(c => $"\"{(c ?? "").ReplaceLineEndings(" ").Replace("\"", "\"\"", StringComparison.Ordinal)}\""))).Prepend(header));
}

using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using Lugbook.Trade.Text;
using Lugbook.Trade.Valves;

namespace Lugbook.Store.Reference;

/// <summary>A handbook file could not be read; the message holds every complaint.</summary>
public sealed class HandbookException(IReadOnlyList<Complaint> complaints) : Exception(string.Join('\n', complaints))
{
    /// <summary>What is wrong, where, and what to do.</summary>
    public IReadOnlyList<Complaint> Complaints { get; } = complaints;
}

/// <summary>Loads the valve handbook from a folder of CSV files.</summary>
public static class HandbookFiles
{
    /// <summary>The files that hold pinouts, in the order in which they count: the first line of a type stands.</summary>
    public static IReadOnlyList<string> Names { get; } = ["tubes.csv", "pinouts.csv"];

    private static readonly string[] Columns = ["type", "equivalents", "class", "base", "pinout", "heater_v", "heater_a", "source", "confidence"];

    /// <summary>Reads <see cref="Names"/> from the folder; a file that is not there is left out.</summary>
    /// <exception cref="HandbookException">A line cannot be read, a column is missing, or the folder has none of the files.</exception>
    public static Task<ValveHandbook> ReadAsync(string folder, CancellationToken stop) => ReadAsync(folder, [], stop);

    /// <summary>Reads the user's own files first, so that their lines stand before the shipped ones, then <see cref="Names"/> from the folder.</summary>
    /// <param name="folder">Folder of the shipped files.</param>
    /// <param name="own">Paths of further files of the same columns; each must be there.</param>
    /// <param name="stop">Cancels.</param>
    /// <exception cref="HandbookException">A file or line cannot be read, a column is missing, or the folder has none of the files.</exception>
    public static async Task<ValveHandbook> ReadAsync(string folder, IEnumerable<string> own, CancellationToken stop)
    {
        var types = new List<ValveType>();
        var complaints = new List<Complaint>();
        var found = false;
        foreach (var path in own)
        {
            try { Read(path, await File.ReadAllTextAsync(path, stop), types, complaints); }
            catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
            {
                complaints.Add(new(path, "", 0, $"the file could not be read: {trouble.Message}", "See that it is there and may be read, or take it away."));
            }
        }
        foreach (var name in Names)
        {
            var path = Path.Combine(folder, name);
            if (!File.Exists(path)) continue;
            found = true;
            Read(name, await File.ReadAllTextAsync(path, stop), types, complaints);
        }
        if (!found) complaints.Add(new(folder, "", 0, $"none of the files {string.Join(", ", Names)} is here.", "Name the folder data/valves of the program."));
        return complaints.Count == 0 ? new(types) : throw new HandbookException(complaints);
    }

    private static void Read(string file, string text, List<ValveType> types, List<Complaint> complaints)
    {
        using var csv = new CsvReader(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            AllowComments = true,
            Comment = '#',
            BadDataFound = null,
            MissingFieldFound = null,
        });
        if (!csv.Read() || !csv.ReadHeader() || csv.HeaderRecord is not { } header)
        {
            complaints.Add(new(file, "", 0, "the file has no heading.", $"Its first line names the columns: {string.Join(',', Columns)}."));
            return;
        }
        if (Columns.Except(header).ToArray() is { Length: > 0 } missing)
        {
            complaints.Add(new(file, string.Join(',', header), 0, $"column {string.Join(", ", missing)} is missing.", "Put it back; the order of the columns is free."));
            return;
        }
        while (csv.Read())
        {
            string Field(string column) => csv.GetField(column)?.Trim() ?? "";
            string Limit(string column) => header.Contains(column) ? Field(column) : "";
            ValveRow row = new(Field("type"), Field("equivalents"), Field("class"), Field("base"), Field("pinout"),
                Field("heater_v"), Field("heater_a"), Field("source"), Field("confidence"))
            {
                Limits = new(Limit("max_plate_v"), Limit("max_plate_w"), Limit("max_screen_v"), Limit("max_screen_w"), Limit("max_cathode_ma"), Limit("max_heater_cathode_v")),
            };
            var (read, complaint) = row.Read($"{file}, line {csv.Parser.RawRow.ToString(CultureInfo.InvariantCulture)}");
            if (complaint is not null) complaints.Add(complaint);
            types.AddRange(read);
        }
    }
}

using System.Collections.Immutable;
using System.Text;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Sheets;
using Lugbook.Trade.Text;
using Lugbook.Trade.Work;

namespace Lugbook.Store.Exchange;

/// <summary>Puts the tables of one set together: everything is read, all complaints are collected, and only then is there a book.</summary>
internal static class BookAssembly
{
    /// <param name="tables">Table name (see <see cref="Shapes"/>) to its grid; missing ones are empty.</param>
    /// <param name="fallbackName">The folder's or file's name, where the facts give none.</param>
    /// <param name="exact">True for what Lugbook wrote into an archive.</param>
    public static ImportResult Assemble(IReadOnlyDictionary<string, Grid> tables, string fallbackName, bool exact = false)
    {
        var complaints = ImmutableArray.CreateBuilder<Complaint>();
        var remarks = ImmutableArray.CreateBuilder<string>();
        var context = new ReadingContext { Exact = exact };

        var (facts, name) = Take(Shapes.Facts, grid => FactsText.Read(grid, context)).FirstOrDefault() ?? FactsText.Said.Nothing;
        context = context with { MegHabit = facts.MegHabit, Year = facts.Year };
        var listed = Take(Shapes.Mounts, grid => TableReader.Rows(grid, Shapes.Mounts, context, LugsText.MountRows));
        var ofLugs = new List<Mount>();
        var lugs = Take(Shapes.LugTable, grid => TableReader.Rows(grid, Shapes.LugTable, context, table => LugsText.Rows(table, ofLugs)));
        var parts = Take(Shapes.Parts, grid => TableReader.Rows(grid, Shapes.Parts, context, PartsText.Rows));
        var wires = Take(Shapes.Wires, grid => TableReader.Rows(grid, Shapes.Wires, context, LugsText.WireRows));
        var declared = Take(Shapes.Declared, grid => TableReader.Rows(grid, Shapes.Declared, context, SheetText.DeclaredRows));
        var sheet = Take(Shapes.Sheet, grid => TableReader.Rows(grid, Shapes.Sheet, context, SheetText.Rows));
        var sheetParts = Take(Shapes.SheetParts, grid => TableReader.Rows(grid, Shapes.SheetParts, context, PartsText.SheetRows));
        var work = Take(Shapes.Work, grid => TableReader.Rows(grid, Shapes.Work, context, WorkText.Rows));
        var readings = Take(Shapes.Readings, grid => TableReader.Rows(grid, Shapes.Readings, context, ReadingsText.Rows));
        var meters = Take(Shapes.Meters, grid => TableReader.Rows(grid, Shapes.Meters, context, MetersText.Rows));
        var valveTypes = Take(Shapes.ValveTypes, grid => TableReader.Rows(grid, Shapes.ValveTypes, context, ValvesText.TypeRows));
        var valveLines = Take(Shapes.ValveLines, grid => TableReader.Rows(grid, Shapes.ValveLines, context, ValvesText.LineRows));
        var photographs = Take(Shapes.Photographs, grid => TableReader.Rows(grid, Shapes.Photographs, context, PhotographsText.Rows));
        var photoPins = Take(Shapes.PhotoPins, grid => TableReader.Rows(grid, Shapes.PhotoPins, context, PhotographsText.PinRows));
        if (complaints.Count > 0) return new(null, complaints.ToImmutable(), remarks.ToImmutable());

        var isListed = tables.TryGetValue(Shapes.Mounts.Name, out var list) && !list.Rows.IsEmpty;
        var mounts = exact ? listed : isListed ? WithListed(listed, ofLugs) : [.. ofLugs];
        if (!exact && !tables.ContainsKey(Shapes.LugTable.Name) && InferredLugs.From(parts, wires, declared) is { Lugs.IsEmpty: false } inferred)
        {
            (mounts, lugs) = (inferred.Mounts, inferred.Lugs);
            remarks.Add($"No list of lugs was given: {lugs.Length} {(lugs.Length == 1 ? "lug" : "lugs")} on {mounts.Length} {(mounts.Length == 1 ? "mount" : "mounts")} were inferred from the names that leads and wires use. Where they lie is not known.");
        }
        if (!exact) (parts, wires, declared) = LugSpellings.Settle(lugs, parts, wires, declared, remarks);
        var title = facts.Title.Length > 0 || exact ? facts.Title : Titled(fallbackName);
        return new(new Book
        {
            Name = exact ? name ?? "" : Slug(name ?? fallbackName),
            Facts = facts with { Title = title },
            Mounts = Table<Mount>.Of(mounts),
            Lugs = Table<Lug>.Of(lugs),
            Wires = Table<Wire>.Of(wires),
            Parts = Table<Trade.Parts.Part>.Of(parts),
            Declared = Table<DeclaredVoltage>.Of(declared),
            SheetReadings = Table<SheetReading>.Of(sheet),
            SheetParts = Table<SheetPart>.Of(sheetParts),
            Work = Table<PositionWork>.Of(work),
            Readings = Table<Trade.Readings.Reading>.Of(readings),
            Meters = Table<Trade.Meters.MeterLine>.Of(meters),
            ValveTypes = Table<Trade.Valves.OwnValve>.Of(valveTypes),
            ValveLines = Table<Trade.Valves.ValveLine>.Of(valveLines),
            Photographs = Table<Trade.Photographs.Photograph>.Of(photographs),
            PhotoPins = Table<Trade.Photographs.PhotoPin>.Of(photoPins),
        }, [], remarks.ToImmutable());

        ImmutableArray<T> Take<T>(TableShape shape, Func<Grid, TableRead<T>> read)
        {
            // A file with nothing in it, not even a header, is an empty table.
            if (!tables.TryGetValue(shape.Name, out var grid) || grid.Rows.IsEmpty) return [];
            var result = read(grid);
            complaints.AddRange(result.Complaints);
            remarks.AddRange(result.Remarks);
            return result.Rows;
        }
    }

    /// <summary>The mounts that are listed, and those that only lugs name with a kind: people add a lug and forget the list.</summary>
    private static ImmutableArray<Mount> WithListed(ImmutableArray<Mount> listed, List<Mount> ofLugs)
    {
        var names = listed.Select(m => m.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var kinds = ofLugs.ToLookup(m => m.Name, m => m.KindAsWritten, StringComparer.OrdinalIgnoreCase);
        return [.. listed.Select(m => m.KindAsWritten.Length > 0 ? m : m with { KindAsWritten = kinds[m.Name].FirstOrDefault() ?? "" }),
            .. ofLugs.Where(m => m.KindAsWritten.Length > 0 && !names.Contains(m.Name))];
    }

    /// <summary>A short name as a shelf wants it: lower-case letters, digits and hyphens.</summary>
    internal static string Slug(string name)
    {
        var text = new StringBuilder();
        foreach (var c in HeaderWords.Normal(name))
            if (char.IsAsciiLetterOrDigit(c)) text.Append(c);
            else if (text.Length > 0 && text[^1] != '-') text.Append('-');
        var slug = text.ToString().Trim('-');
        return slug.Length == 0 ? "book" : slug.Length > 60 ? slug[..60].Trim('-') : slug;
    }

    private static string Titled(string name)
    {
        var words = name.Replace('_', ' ').Replace('-', ' ').Trim();
        return words.Length == 0 ? "Untitled set" : char.ToUpperInvariant(words[0]) + words[1..];
    }
}

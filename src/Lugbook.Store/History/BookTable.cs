using Lugbook.Trade;

namespace Lugbook.Store.History;

/// <summary>One of a book's tables, seen without its type.</summary>
internal abstract class BookTable(string name, Type rowType)
{
    /// <summary>The name under which it is stored; never changes.</summary>
    public string Name { get; } = name;
    public Type RowType { get; } = rowType;

    public abstract IReadOnlyList<Row> RowsOf(Book book);
    public abstract Book With(Book book, IEnumerable<Row> rows);
    public abstract string Write(Row row);
    public abstract Row Read(int id, string json);
}

/// <inheritdoc/>
internal sealed class BookTable<T>(string name, Func<Book, Table<T>> get, Func<Book, Table<T>, Book> set) : BookTable(name, typeof(T))
    where T : Row
{
    public override IReadOnlyList<Row> RowsOf(Book book) => get(book);
    public override Book With(Book book, IEnumerable<Row> rows) => set(book, Table<T>.Of(rows.Cast<T>()));
    public override string Write(Row row) => RowJson.Write((T)row);
    public override Row Read(int id, string json) => RowJson.ReadRow<T>(id, json);
}

/// <summary>All tables of a book. A table added to <see cref="Book"/> is added here; a test holds it.</summary>
internal static class BookTables
{
    /// <summary>The set as a whole: stored as one row, beside the tables.</summary>
    public const string Facts = "facts";
    /// <summary>The book's name: not a row, but a change of it is a change.</summary>
    public const string Name = "name";
    /// <summary>Identity of the one facts row.</summary>
    public const int OnlyRow = 1;

    public static IReadOnlyList<BookTable> All { get; } =
    [
        new BookTable<Trade.Chassis.Mount>("mounts", b => b.Mounts, (b, t) => b with { Mounts = t }),
        new BookTable<Trade.Chassis.Lug>("lugs", b => b.Lugs, (b, t) => b with { Lugs = t }),
        new BookTable<Trade.Chassis.Wire>("wires", b => b.Wires, (b, t) => b with { Wires = t }),
        new BookTable<Trade.Parts.Part>("parts", b => b.Parts, (b, t) => b with { Parts = t }),
        new BookTable<Trade.Sheets.DeclaredVoltage>("declared", b => b.Declared, (b, t) => b with { Declared = t }),
        new BookTable<Trade.Sheets.SheetReading>("sheet-readings", b => b.SheetReadings, (b, t) => b with { SheetReadings = t }),
        new BookTable<Trade.Sheets.SheetPart>("sheet-parts", b => b.SheetParts, (b, t) => b with { SheetParts = t }),
        new BookTable<Trade.Work.PositionWork>("work", b => b.Work, (b, t) => b with { Work = t }),
        new BookTable<Trade.Readings.Reading>("readings", b => b.Readings, (b, t) => b with { Readings = t }),
        new BookTable<Trade.Meters.MeterLine>("meters", b => b.Meters, (b, t) => b with { Meters = t }),
        new BookTable<Trade.Valves.OwnValve>("valve-types", b => b.ValveTypes, (b, t) => b with { ValveTypes = t }),
        new BookTable<Trade.Valves.ValveLine>("valve-lines", b => b.ValveLines, (b, t) => b with { ValveLines = t }),
        new BookTable<Trade.Photographs.Photograph>("photographs", b => b.Photographs, (b, t) => b with { Photographs = t }),
        new BookTable<Trade.Photographs.PhotoPin>("photo-pins", b => b.PhotoPins, (b, t) => b with { PhotoPins = t }),
    ];

    /// <summary>The type whose members a stored body has; null for a table of a newer version.</summary>
    public static Type? TypeOf(string table) => table switch
    {
        Facts => typeof(BookFacts),
        Name => typeof(string),
        _ => All.FirstOrDefault(t => t.Name == table)?.RowType,
    };
}

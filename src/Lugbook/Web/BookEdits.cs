using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;
using Lugbook.Trade.Valves;
using Lugbook.Trade.Work;

namespace Lugbook.Web;

/// <summary>Edits that several pages make; each a pure function from book to book.</summary>
internal static class BookEdits
{
    /// <summary>Marks a position as exchanged, or not after all.</summary>
    public static Book MarkDone(Book book, string part, bool done) => Change(book, part, work => work with { Done = done });

    /// <summary>Records a decision and its reason.</summary>
    public static Book Decide(Book book, string part, Decision decision, string? reason) =>
        Change(book, part, work => work with { Decision = decision, Reason = reason });

    /// <summary>Records what the user puts in; nothing written means "as proposed".</summary>
    public static Book Take(Book book, string part, string? replacement) =>
        Change(book, part, work => work with { Replacement = string.IsNullOrWhiteSpace(replacement) ? null : replacement.Trim() });

    /// <summary>Puts a meter in place of the one that was named, or adds it; no rows take it out. Readings taken with it follow its name.</summary>
    public static Book KeepMeter(Book book, string? was, IReadOnlyList<MeterLine> lines)
    {
        bool IsOld(string? name) => was is not null && string.Equals(name?.Trim(), was, StringComparison.OrdinalIgnoreCase);
        var now = lines.Count > 0 ? lines[0].Name : null;
        return book with
        {
            Meters = Table<MeterLine>.Of([.. book.Meters.Where(l => !IsOld(l.Name)), .. lines]),
            Facts = IsOld(book.Facts.Meter) ? book.Facts with { Meter = now } : book.Facts,
            Readings = now is null ? book.Readings : Table<Reading>.Of(book.Readings.Select(r => IsOld(r.Meter) ? r with { Meter = now } : r)),
        };
    }

    /// <summary>Puts a valve type and its lines in place of those of its name; a null type takes both out.</summary>
    public static Book KeepValve(Book book, string type, OwnValve? valve, IEnumerable<ValveLine> lines)
    {
        bool IsOld(Row row) => string.Equals(row.Name, type, StringComparison.OrdinalIgnoreCase);
        return book with
        {
            ValveTypes = Table<OwnValve>.Of([.. book.ValveTypes.Where(v => !IsOld(v)), .. valve is null ? (OwnValve[])[] : [valve]]),
            ValveLines = Table<ValveLine>.Of([.. book.ValveLines.Where(l => !IsOld(l)), .. lines]),
        };
    }

    /// <summary>Records what a part does, where the user knows better than the map; null: as the map says.</summary>
    public static Book Role(Book book, string part, string? role) => Change(book, part, work => work with { Role = role });

    /// <summary>Changes what is kept of one position.</summary>
    public static Book Change(Book book, string part, Func<PositionWork, PositionWork> change)
    {
        var kept = book.Work.Named(part);
        var changed = change(kept ?? new PositionWork { Name = part });
        return book with { Work = kept is null ? book.Work.Add(changed) : book.Work.Replace(changed) };
    }
}

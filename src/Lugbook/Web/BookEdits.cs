using Lugbook.Trade;
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

    /// <summary>Records what a part does, where the user knows better than the map; null: as the map says.</summary>
    public static Book Role(Book book, string part, string? role) => Change(book, part, work => work with { Role = role });

    private static Book Change(Book book, string part, Func<PositionWork, PositionWork> change)
    {
        var kept = book.Work.Named(part);
        var changed = change(kept ?? new PositionWork { Name = part });
        return book with { Work = kept is null ? book.Work.Add(changed) : book.Work.Replace(changed) };
    }
}

using System.Collections.Immutable;

namespace Lugbook.Trade.Meters;

/// <summary>The meters that a book may name: those of the user's own, then those that ship.</summary>
public static class BookMeters
{
    /// <summary>All of them; one of the user's own stands before a shipped one of its name.</summary>
    public static ImmutableArray<Meter> Of(Book book) => [.. Own(book), .. MeterShelf.All];

    /// <summary>The user's own, in the book's order.</summary>
    public static IEnumerable<Meter> Own(Book book) => book.Meters.GroupBy(l => l.Name.Trim(), StringComparer.OrdinalIgnoreCase).Select(g => OwnMeter.Of(g.Key, [.. g]));

    /// <summary>A meter by its name, upper or lower case; null when none has it.</summary>
    public static Meter? Named(Book book, string? name) => name is null ? null : Of(book).FirstOrDefault(m => string.Equals(m.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>The meter at the bench: the one that the facts name, or the digital one.</summary>
    public static Meter AtBench(Book book) => Named(book, book.Facts.Meter) ?? MeterShelf.All[0];

    /// <summary>"No meter is called …" with all that there are.</summary>
    public static string Unknown(Book book, string name) => $"no meter is called '{name}'. Known: {string.Join(", ", Of(book).Select(m => m.Name))}.";
}

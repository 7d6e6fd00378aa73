using System.Globalization;

namespace Lugbook.Trade.Photographs;

/// <summary>What a book's photographs are asked and how they are edited; each edit a pure function from book to book.</summary>
public static class BookPhotographs
{
    /// <summary>The next free name: P1, P2, …</summary>
    public static string NextName(Book book)
    {
        ArgumentNullException.ThrowIfNull(book);
        for (var i = book.Photographs.Count + 1; ; i++)
            if (string.Create(CultureInfo.InvariantCulture, $"P{i}") is var name && book.Photographs.Named(name) is null) return name;
    }

    /// <summary>Pins of a photograph, oldest first.</summary>
    public static IEnumerable<PhotoPin> PinsOf(this Book book, string photograph)
    {
        ArgumentNullException.ThrowIfNull(book);
        return book.PhotoPins.Where(p => Same(p.Photograph, photograph));
    }

    /// <summary>The photographs that show a place: those of that name, and for a no others.</summary>
    public static IEnumerable<Photograph> PhotographsAt(this Book book, string place)
    {
        ArgumentNullException.ThrowIfNull(book);
        return book.Photographs.Where(p => Same(p.Place, place));
    }

    /// <summary>The book without a photograph and its pins. The store keeps the content while history can bring it back.</summary>
    public static Book Without(Book book, string photograph)
    {
        ArgumentNullException.ThrowIfNull(book);
        return book with
        {
            Photographs = Table<Photograph>.Of(book.Photographs.Where(p => !Same(p.Name, photograph))),
            PhotoPins = Table<PhotoPin>.Of(book.PhotoPins.Where(p => !Same(p.Photograph, photograph))),
        };
    }

    /// <summary>The book with a pin set; the lug's pin in that photograph moves when it has one.</summary>
    public static Book WithPin(Book book, PhotoPin pin)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(pin);
        var old = book.PinsOf(pin.Photograph).FirstOrDefault(p => Same(p.Name, pin.Name));
        return book with { PhotoPins = old is null ? book.PhotoPins.Add(pin) : book.PhotoPins.Replace(pin with { Id = old.Id }) };
    }

    /// <summary>The book without a lug's pin in a photograph.</summary>
    public static Book WithoutPin(Book book, string photograph, string lug)
    {
        ArgumentNullException.ThrowIfNull(book);
        return book with { PhotoPins = Table<PhotoPin>.Of(book.PhotoPins.Where(p => !Same(p.Photograph, photograph) || !Same(p.Name, lug))) };
    }

    /// <summary>The book with a photograph one place earlier (-1) or later (+1) in the order.</summary>
    public static Book Moved(Book book, string photograph, int by)
    {
        ArgumentNullException.ThrowIfNull(book);
        var rows = book.Photographs.ToList();
        var at = rows.FindIndex(p => Same(p.Name, photograph));
        if (at < 0 || at + by < 0 || at + by >= rows.Count) return book;
        (rows[at], rows[at + by]) = (rows[at + by], rows[at]);
        return book with { Photographs = Table<Photograph>.Of(rows) };
    }

    private static bool Same(string? a, string? b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}

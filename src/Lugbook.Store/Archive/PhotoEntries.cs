using System.Collections.Immutable;
using Lugbook.Store.Photographs;
using Lugbook.Trade;
using Lugbook.Trade.Photographs;

namespace Lugbook.Store.Archive;

/// <summary>In which form photographs leave the store.</summary>
public enum PhotoForm
{
    /// <summary>Every pixel as taken; place, time, camera and owner taken out.</summary>
    Stripped,
    /// <summary>Sized-down copies, upright: for sending.</summary>
    Small,
    /// <summary>Byte for byte, with whatever the camera wrote: for one's own other computer.</summary>
    Original,
}

/// <summary>Photographs in an archive: entries named by the sum of their content, each checked like any other upload when it is read.</summary>
public static class PhotoEntries
{
    /// <summary>The book as it goes into an archive, and the entries of its photographs.</summary>
    /// <remarks>Another form has other bytes, so the rows get the new sums, and for smaller copies the new sizes and pins. Decodes pictures for <see cref="PhotoForm.Small"/>: not on a page's own thread.</remarks>
    /// <param name="book">The book.</param>
    /// <param name="originals">Originals by sum; a photograph without one stays in the book with its row alone.</param>
    /// <param name="form">How they leave.</param>
    public static (Book Book, ImmutableArray<ArchiveEntry> Entries) Of(Book book, IReadOnlyList<PhotoContent> originals, PhotoForm form)
    {
        ArgumentNullException.ThrowIfNull(book);
        var bySum = originals.DistinctBy(o => o.Sum).ToDictionary(o => o.Sum);
        var leaving = bySum.ToDictionary(o => o.Key, o => Leave(o.Value, form));
        var scale = new Dictionary<string, (double X, double Y)>(StringComparer.OrdinalIgnoreCase);
        var rows = book.Photographs.Select(row =>
        {
            if (!leaving.TryGetValue(row.Content, out var content)) return row;
            scale.TryAdd(row.Name, (content.Width / (double)row.Width, content.Height / (double)row.Height));
            return row with { Content = content.Sum, MediaType = content.MediaType, Width = content.Width, Height = content.Height };
        }).ToList();
        var pins = book.PhotoPins.Select(p => scale.TryGetValue(p.Photograph, out var s) && s is not (1.0, 1.0) ? p with { X = p.X * s.X, Y = p.Y * s.Y } : p);
        return (book with { Photographs = Table<Photograph>.Of(rows), PhotoPins = Table<PhotoPin>.Of(pins) },
            [.. rows.Where(r => leaving.Values.Any(c => c.Sum == r.Content)).DistinctBy(r => r.Content).Select(r => leaving.Values.First(c => c.Sum == r.Content))
                .Select(c => new ArchiveEntry(PhotoContent.FileName(c.Sum, c.MediaType), c.Bytes))]);
    }

    /// <summary>The content of an archive's photographs, and what is missing or refused in sentences.</summary>
    public static (ImmutableArray<PhotoContent> Contents, ImmutableArray<string> Remarks) Read(BookArchive archive, string place)
    {
        ArgumentNullException.ThrowIfNull(archive);
        var entries = archive.Others.ToLookup(o => o.Name, o => o.Bytes);
        return Read(archive.Book, place, row => entries[PhotoContent.FileName(row.Content, row.MediaType)].Select(b => (ReadOnlyMemory<byte>?)b).FirstOrDefault());
    }

    internal static (ImmutableArray<PhotoContent> Contents, ImmutableArray<string> Remarks) Read(Book book, string place, Func<Photograph, ReadOnlyMemory<byte>?> find)
    {
        var contents = ImmutableArray.CreateBuilder<PhotoContent>();
        var remarks = ImmutableArray.CreateBuilder<string>();
        foreach (var row in book.Photographs.DistinctBy(r => r.Content))
        {
            if (find(row) is not { } bytes)
            {
                remarks.Add($"{place}: the file of photograph {row.Name} is not here; its row stays.");
                continue;
            }
            var (content, complaint) = PhotoIntake.Check(bytes, row.Name);
            if (content is null) remarks.Add($"{place}: photograph {row.Name} was left out: {complaint!.Problem}");
            else if (content.Sum != row.Content) remarks.Add($"{place}: photograph {row.Name} was left out: its content is not the one that its row names.");
            else contents.Add(content);
        }
        return (contents.ToImmutable(), remarks.ToImmutable());
    }

    private static PhotoContent Leave(PhotoContent content, PhotoForm form)
    {
        if (form == PhotoForm.Original) return content;
        byte[] bytes;
        try
        {
            bytes = form == PhotoForm.Stripped ? PhotoStripping.Strip(content) : PhotoCopy.Make(content.Bytes.Span, PhotoCopy.Large);
        }
        catch (InvalidDataException)
        {
            // A structure that cannot be followed might hide anything: pixels only.
            bytes = PhotoCopy.Make(content.Bytes.Span, Math.Max(content.Width, content.Height));
        }
        return PhotoIntake.Check(bytes, content.Sum).Content ?? throw new InvalidOperationException("A photograph could not be read back after its details were taken out.");
    }
}

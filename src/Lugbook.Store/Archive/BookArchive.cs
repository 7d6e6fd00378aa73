using System.Collections.Immutable;
using Lugbook.Store.Exchange;
using Lugbook.Trade;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Archive;

/// <summary>Something in an archive beside the book's tables: a photograph, the history.</summary>
/// <param name="Name">Its path within the archive, with forward slashes: "photographs/chassis-1.jpg", "history.csv". Rules: <see cref="EntryNames"/>.</param>
/// <param name="Bytes">Its content.</param>
public sealed record ArchiveEntry(string Name, ReadOnlyMemory<byte> Bytes);

/// <summary>What came of opening an archive: all of it, or nothing and every reason why.</summary>
/// <param name="Archive">The content; null exactly when there is at least one complaint.</param>
/// <param name="Complaints">Everything that is wrong with the file.</param>
/// <param name="Remarks">Worth showing even after success.</param>
public sealed record ArchiveOpening(BookArchive? Archive, ImmutableArray<Complaint> Complaints, ImmutableArray<string> Remarks);

/// <summary>One set in one file: its tables, photographs and history. It opens on another machine with nothing lost.</summary>
/// <remarks>
/// A ZIP with manifest.json (format version, when, by which program, and the SHA-256 of every entry) and the tables as CSV under tables/.
/// Unlike the exchange form it is exact: row identities, blanks and line breaks come back as they were. Described in docs/exchange.md.
/// </remarks>
/// <param name="Book">The book.</param>
/// <param name="Others">Everything beside the tables, in the order in which it was given.</param>
public sealed record BookArchive(Book Book, IReadOnlyList<ArchiveEntry> Others)
{
    /// <summary>The format that this release writes, and the newest that it reads.</summary>
    public const int FormatVersion = 1;
    /// <summary>Bytes that an archive may have: 256 MiB.</summary>
    public const int PackedBytes = 256 * 1024 * 1024;

    /// <summary>Opens an archive that is in memory and verifies all of it. Pure; never throws for content.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="place">Its name, for complaints.</param>
    public static ArchiveOpening Open(byte[] bytes, string place) => ArchiveReader.Open(bytes, place);

    /// <summary>Opens an archive from a file and verifies all of it.</summary>
    /// <param name="path">The file.</param>
    /// <param name="stop">Cancels.</param>
    public static async Task<ArchiveOpening> OpenAsync(string path, CancellationToken stop)
    {
        try
        {
            var size = new FileInfo(path).Length;
            return size > PackedBytes ? new(null, [FileSniffer.TooBig(path, size)], []) : Open(await File.ReadAllBytesAsync(path, stop), Path.GetFileName(path));
        }
        catch (Exception e) when (BookFiles.IsDisk(e))
        {
            return new(null, [BookFiles.Disk(path, e)], []);
        }
    }

    /// <summary>The archive as bytes, the same for the same content, time and program. It is opened once more before it is handed out.</summary>
    /// <param name="created">When it was made, as the manifest says it; kept in UTC.</param>
    /// <returns>The bytes, or why there are none.</returns>
    public (byte[] Bytes, ImmutableArray<Complaint> Complaints) ToBytes(DateTimeOffset created) => ArchiveWriter.Write(this, created);

    /// <summary>Writes the archive to a file; a file of that name is replaced once the new one is complete.</summary>
    /// <param name="path">The file, by custom ending in .lugbook.</param>
    /// <param name="created">When it was made, as the manifest says it.</param>
    /// <param name="stop">Cancels.</param>
    /// <returns>Empty when it was written.</returns>
    public async Task<ImmutableArray<Complaint>> SaveAsync(string path, DateTimeOffset created, CancellationToken stop)
    {
        var (bytes, complaints) = ToBytes(created);
        return complaints.IsEmpty ? await SafeFile.TryAsync(path, () => SafeFile.ReplaceAsync(path, bytes, stop)) : complaints;
    }
}

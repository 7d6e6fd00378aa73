using System.Collections.Immutable;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Lugbook.Store.Exchange;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Archive;

/// <summary>Writes an archive, and opens it again before anyone relies on it.</summary>
internal static class ArchiveWriter
{
    /// <summary>The earliest date that a ZIP can hold: entries carry no time of their own, so that equal content gives equal bytes.</summary>
    private static readonly DateTimeOffset NoTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);
    /// <summary>An ordinary file, readable by all: 0100644 in the upper half.</summary>
    private const int OrdinaryFile = unchecked((int)0x81A4_0000);

    public static (byte[] Bytes, ImmutableArray<Complaint> Complaints) Write(BookArchive archive, DateTimeOffset created)
    {
        var place = $"{archive.Book.Name}.lugbook";
        var complaints = Faults(archive, place);
        if (complaints.Length > 0) return ([], complaints);

        var tables = BookTables.Of(archive.Book, exact: true).Select(t => (Name: $"{EntryNames.Tables}{t.Name}.csv", Bytes: (ReadOnlyMemory<byte>)Encoding.UTF8.GetBytes(DelimitedWriter.Write(t))));
        var entries = tables.Concat(archive.Others.Select(o => (o.Name, o.Bytes))).ToList();
        var manifest = new ArchiveManifest
        {
            Format = BookArchive.FormatVersion,
            Created = created.ToUniversalTime(),
            Program = $"Lugbook {typeof(BookArchive).Assembly.GetName().Version?.ToString(3)}",
            Entries = [.. entries.Select(e => new ManifestEntry { Name = e.Name, Bytes = e.Bytes.Length, Sha256 = Convert.ToHexStringLower(SHA256.HashData(e.Bytes.Span)) })],
        };
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(zip, EntryNames.Manifest, manifest.ToBytes());
            foreach (var (name, bytes) in entries) Add(zip, name, bytes);
        }
        if (stream.Length > BookArchive.PackedBytes)
            return ([], [new(place, "", 0, $"the archive would have {stream.Length / (1024 * 1024)} MiB; {BookArchive.PackedBytes / (1024 * 1024)} MiB is the limit.", "Save it with smaller photographs.")]);
        var written = stream.ToArray();
        var opened = ArchiveReader.Open(written, place);
        if (opened.Archive is not { } again) return ([], opened.Complaints);
        // Compared as written: null and empty words are the same there, and nowhere does it matter.
        return Same(archive, again) ? (written, []) : ([], [new(place, "", 0, "the archive does not give the same book back, so it was not written.", "Save the book as CSV, and report this with the book.")]);
    }

    private static ImmutableArray<Complaint> Faults(BookArchive archive, string place)
    {
        var complaints = ImmutableArray.CreateBuilder<Complaint>();
        var names = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var other in archive.Others)
        {
            if (EntryNames.FaultOfOther(other.Name) is { } fault) complaints.Add(new(place, other.Name, 0, fault, "Rename the file before adding it."));
            else if (!names.Add(other.Name)) complaints.Add(new(place, other.Name, 0, "two entries have this name.", "Rename one of them."));
        }
        return complaints.ToImmutable();
    }

    private static bool Same(BookArchive one, BookArchive other) =>
        BookTables.Of(one.Book, exact: true).Select(DelimitedWriter.Write).SequenceEqual(BookTables.Of(other.Book, exact: true).Select(DelimitedWriter.Write))
        && one.Others.Count == other.Others.Count
        && one.Others.Zip(other.Others).All(p => p.First.Name == p.Second.Name && p.First.Bytes.Span.SequenceEqual(p.Second.Bytes.Span));

    private static void Add(ZipArchive zip, string name, ReadOnlyMemory<byte> bytes)
    {
        // Pictures are packed already.
        var entry = zip.CreateEntry(name, name.StartsWith("photographs/", StringComparison.Ordinal) ? CompressionLevel.NoCompression : CompressionLevel.Optimal);
        entry.LastWriteTime = NoTime;
        entry.ExternalAttributes = OrdinaryFile;
        using var stream = entry.Open();
        stream.Write(bytes.Span);
    }
}

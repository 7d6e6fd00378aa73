using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Lugbook.Store.Exchange;
using Lugbook.Trade.Text;

namespace Lugbook.Store.Archive;

/// <summary>Opens an archive: names, sizes and sums are verified before any table is read, and every fault is listed.</summary>
internal static class ArchiveReader
{
    /// <summary>Bytes that all entries together may unpack to: 512 MiB.</summary>
    private const long UnpackedBytes = 512L * 1024 * 1024;
    private const int Entries = 10_000;
    private const int ManifestBytes = 8 * 1024 * 1024;
    private const string Another = "Take another copy of the file; this one has been changed or damaged.";

    public static ArchiveOpening Open(byte[] bytes, string place)
    {
        if (bytes.Length > BookArchive.PackedBytes) return Failed(FileSniffer.TooBig(place, bytes.Length));
        try
        {
            using var zip = new ZipArchive(new MemoryStream(bytes, writable: false), ZipArchiveMode.Read);
            return Open(zip, place);
        }
        catch (Exception e) when (e is InvalidDataException or EndOfStreamException)
        {
            return Failed(new Complaint(place, "", 0, "this is not a book's archive: it is no ZIP file, or it is cut short or damaged.", "Take another copy of the file. A book as CSV or .xlsx is opened by its own ending."));
        }
    }

    private static ArchiveOpening Open(ZipArchive zip, string place)
    {
        if (zip.Entries.Count > Entries) return Failed(new Complaint(place, "", 0, $"this archive has {zip.Entries.Count} entries; {Entries} is the limit.", Another));
        if (zip.Entries.FirstOrDefault(e => e.FullName == EntryNames.Manifest) is not { } listed)
            return Failed(new Complaint(place, "", 0, "this ZIP has no manifest.json, so it is not a book's archive.", "Choose a file that Lugbook wrote, or unpack this one and open its folder."));
        var budget = (long)ManifestBytes;
        if (Unpack(listed, ref budget) is not { } manifestBytes) return Failed(new Complaint($"{place}, manifest.json", "", 0, "the manifest is damaged or far too large.", Another));
        var manifest = ArchiveManifest.Read(manifestBytes, out var format, out var problem);
        if (format > BookArchive.FormatVersion)
            return Failed(new Complaint($"{place}, manifest.json", "", 0, $"this archive has format {format}; this release reads up to {BookArchive.FormatVersion}{(manifest is null ? "" : $" (it was written by {manifest.Program})")}.", "Open it with a newer Lugbook."));
        if (manifest is null || format is null or < 1) return Failed(new Complaint($"{place}, manifest.json", "", 0, $"the manifest cannot be read: {problem ?? "it gives no valid format"}.", Another));

        var complaints = new List<Complaint>();
        var contents = Verify(zip, manifest, place, complaints);
        return complaints.Count > 0 ? new(null, [.. complaints], []) : Assemble(manifest, contents, place);
    }

    private static Dictionary<string, byte[]> Verify(ZipArchive zip, ArchiveManifest manifest, string place, List<Complaint> complaints)
    {
        var contents = new Dictionary<string, byte[]>(StringComparer.OrdinalIgnoreCase);
        var expected = new Dictionary<string, ManifestEntry>(StringComparer.OrdinalIgnoreCase);
        foreach (var entry in manifest.Entries)
        {
            if (EntryNames.Fault(entry.Name) is { } fault) Complain(entry.Name, fault);
            else if (!expected.TryAdd(entry.Name, entry)) Complain(entry.Name, "the manifest lists this entry twice.");
        }
        var budget = UnpackedBytes;
        foreach (var entry in zip.Entries)
        {
            var name = entry.FullName;
            if (name == EntryNames.Manifest) continue;
            if (EntryNames.Fault(name) is { } fault) { Complain(name, fault); continue; }
            if (!expected.TryGetValue(name, out var promised) || promised.Name != name) { Complain(name, "this entry is not in the manifest: it was added later."); continue; }
            if (contents.ContainsKey(name)) { Complain(name, "this entry is there twice."); continue; }
            contents[name] = [];
            if (entry.Length > budget) { Complain(name, "the archive unpacks to more than 512 MiB."); break; }
            if (Unpack(entry, ref budget) is not { } unpacked) { Complain(name, budget < 0 ? "the archive unpacks to more than 512 MiB." : "this entry cannot be unpacked."); if (budget < 0) break; continue; }
            contents[name] = unpacked;
            if (unpacked.Length != promised.Bytes) Complain(name, $"this entry has {unpacked.Length} bytes; the manifest says {promised.Bytes}.");
            else if (!Convert.ToHexStringLower(SHA256.HashData(unpacked)).Equals(promised.Sha256, StringComparison.OrdinalIgnoreCase)) Complain(name, "its SHA-256 sum is not the one in the manifest: the entry was changed.");
        }
        if (budget >= 0)
            foreach (var missing in expected.Values.Where(e => !contents.ContainsKey(e.Name))) Complain(missing.Name, "this entry is missing.");
        return contents;

        void Complain(string name, string what)
        {
            if (complaints.Count < ImportLimits.Complaints) complaints.Add(new($"{place}, {Printable(name)}", "", 0, what, Another));
        }
    }

    private static ArchiveOpening Assemble(ArchiveManifest manifest, Dictionary<string, byte[]> contents, string place)
    {
        var complaints = new List<Complaint>();
        var remarks = new List<string>();
        var tables = new Dictionary<string, Grid>();
        var others = new List<ArchiveEntry>();
        // The manifest's order is the order in which the entries were given.
        foreach (var entry in manifest.Entries)
        {
            if (!entry.Name.StartsWith(EntryNames.Tables, StringComparison.Ordinal))
            {
                others.Add(new(entry.Name, contents[entry.Name]));
                continue;
            }
            var where = $"{place}, {entry.Name}";
            if (Shapes.All.FirstOrDefault(s => entry.Name == $"{EntryNames.Tables}{s.Name}.csv") is not { } shape) { remarks.Add($"{where}: this table is not known and was left out."); continue; }
            if (contents[entry.Name].Length > ImportLimits.FileBytes) { complaints.Add(new(where, "", 0, "this table is larger than 32 MiB.", Another)); continue; }
            var (grid, complaint) = DelimitedText.Read(Encoding.UTF8.GetString(contents[entry.Name]), where, _ => 0, exact: true);
            if (complaint is not null) complaints.Add(complaint); else tables[shape.Name] = grid!;
        }
        foreach (var needed in new[] { Shapes.Facts, Shapes.Parts, Shapes.LugTable })
            if (complaints.Count == 0 && !tables.ContainsKey(needed.Name)) complaints.Add(new(place, "", 0, $"the archive has no {EntryNames.Tables}{needed.Name}.csv.", Another));
        if (complaints.Count > 0) return new(null, [.. complaints], []);
        var result = BookAssembly.Assemble(tables, "", exact: true);
        return result.Book is { } book ? new(new(book, others), [], [.. remarks]) : new(null, result.Complaints, []);
    }

    /// <summary>Unpacks within what is left of the budget, whatever the entry says of its size; null when it cannot, budget below 0 when it is too large.</summary>
    private static byte[]? Unpack(ZipArchiveEntry entry, ref long budget)
    {
        try
        {
            using var from = entry.Open();
            using var to = new MemoryStream();
            var buffer = new byte[81920];
            for (int n; (n = from.Read(buffer)) > 0;)
            {
                if ((budget -= n) < 0) return null;
                to.Write(buffer, 0, n);
            }
            return to.ToArray();
        }
        catch (Exception e) when (e is InvalidDataException or IOException)
        {
            return null;
        }
    }

    private static string Printable(string name) => string.Concat((name.Length > 100 ? name[..100] + "…" : name).Select(c => char.IsControl(c) ? '?' : c));

    private static ArchiveOpening Failed(Complaint complaint) => new(null, [complaint], []);
}

using System.IO.Compression;
using System.Text;
using CsCheck;
using Lugbook.Store.Archive;
using Lugbook.Store.Exchange;
using Lugbook.Store.Tests.Exchange;
using Lugbook.Trade;

namespace Lugbook.Store.Tests.Archive;

/// <summary>Source: none outside for the form; SHA-256 sums are checked against FIPS 180-4's own example.</summary>
public class ArchiveTests
{
    private static readonly DateTimeOffset Made = new(2026, 5, 1, 8, 30, 0, TimeSpan.Zero);
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static async Task<Book> RadioAsync() => (await BookFiles.ReadAsync(Path.Combine(AppContext.BaseDirectory, "data", "demo", "radio"), Stop)).Book!;

    private static BookArchive Small(params ArchiveEntry[] others) => new(Book.Empty("small", "Small set"), others);

    [Fact]
    public void Random_books_come_back_exactly_with_identities_blanks_and_line_ends() => RandomBooks.Wild.Sample(book =>
    {
        var (bytes, complaints) = new BookArchive(book, []).ToBytes(Made);
        Assert.Equal("", string.Join("\n", complaints));
        var opened = BookArchive.Open(bytes, "x.lugbook");
        RoundTripTests.AssertSame(book, new(opened.Archive?.Book, opened.Complaints, []));
    }, iter: 200);

    [Fact]
    public async Task Photographs_and_history_come_back_in_order_byte_for_byte()
    {
        var others = new ArchiveEntry[] { new("photographs/chassis 1.jpg", new byte[] { 0, 255, 1, 0 }), new("history.csv", "a,b\n"u8.ToArray()), new("a/empty", Array.Empty<byte>()) };
        using var folder = new TemporaryFolder();
        var file = folder.In("radio.lugbook");
        var book = await RadioAsync();
        Assert.Empty(await new BookArchive(book, others).SaveAsync(file, Made, Stop));
        var opened = await BookArchive.OpenAsync(file, Stop);
        Assert.Equal(others.Select(o => (o.Name, Convert.ToHexString(o.Bytes.Span))), opened.Archive!.Others.Select(o => (o.Name, Convert.ToHexString(o.Bytes.Span))));
        Assert.Equal(book, opened.Archive.Book);
        Assert.Equal(book, (await BookFiles.ReadAsync(file, Stop)).Book);
        Assert.Equal([file], Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void Equal_content_gives_equal_bytes_and_another_time_does_not()
    {
        var one = Small(new ArchiveEntry("x.txt", "x"u8.ToArray())).ToBytes(Made).Bytes;
        Assert.Equal(one, Small(new ArchiveEntry("x.txt", "x"u8.ToArray())).ToBytes(Made.ToOffset(TimeSpan.FromHours(2))).Bytes);
        Assert.NotEqual(one, Small(new ArchiveEntry("x.txt", "x"u8.ToArray())).ToBytes(Made.AddSeconds(1)).Bytes);
    }

    /// <summary>Source: FIPS 180-4 example, SHA-256("abc").</summary>
    [Fact]
    public void The_manifest_states_the_published_sum_of_abc()
    {
        var bytes = Small(new ArchiveEntry("abc", "abc"u8.ToArray())).ToBytes(Made).Bytes;
        Assert.Contains("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", Text(bytes, "manifest.json"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_archive_written_by_the_first_release_still_opens()
    {
        var opened = await BookArchive.OpenAsync(Path.Combine(AppContext.BaseDirectory, "Archive", "fixtures", "format-1.lugbook"), Stop);
        Assert.Equal("", string.Join("\n", opened.Complaints));
        var book = opened.Archive!.Book;
        Assert.Equal(("fixture", "Fixture set of release 0.1", 3), (book.Name, book.Facts.Title, book.Parts.Count));
        Assert.Equal((4.7e-8, "V3-6", 7), (book.Parts.Named("C7")!.Value, book.Parts.Named("C7")!.LeadA, book.Parts.Named("C7")!.Id));
        Assert.Equal(MegHabit.Thousand, book.Facts.MegHabit);
        Assert.Equal(double.PositiveInfinity, book.SheetReadings[0].Ohms);
        Assert.Equal("second  blank, kept", book.Parts.Named("R1")!.Extras["shop"]);
        Assert.Equal(["photographs/1.jpg", "history.csv"], opened.Archive.Others.Select(o => o.Name));
    }

    [Theory]
    [InlineData("../evil.csv")]
    [InlineData("tables/../../evil")]
    [InlineData("/etc/evil")]
    [InlineData("C:/evil")]
    [InlineData("a\\..\\evil")]
    [InlineData("a//b")]
    [InlineData("nul\u0001")]
    public void A_name_that_leads_outside_is_refused_when_opened_and_when_written(string name)
    {
        var (bytes, complaints) = Small(new ArchiveEntry(name, "x"u8.ToArray())).ToBytes(Made);
        Assert.Empty(bytes);
        Assert.Single(complaints);
        var forged = Change(Small().ToBytes(Made).Bytes, zip => Put(zip, name, "x"));
        var opened = BookArchive.Open(forged, "x.lugbook");
        Assert.Null(opened.Archive);
        Assert.Contains("name", Assert.Single(opened.Complaints).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Names_that_belong_to_the_archive_itself_or_differ_only_in_case_are_refused()
    {
        foreach (var name in new[] { "manifest.json", "tables/parts.csv", "Tables/x" }) Assert.Single(Small(new ArchiveEntry(name, "x"u8.ToArray())).ToBytes(Made).Complaints);
        Assert.Single(Small(new ArchiveEntry("a", "x"u8.ToArray()), new ArchiveEntry("A", "y"u8.ToArray())).ToBytes(Made).Complaints);
    }

    [Fact]
    public void A_changed_a_missing_and_an_added_entry_are_all_named_at_once()
    {
        var bytes = Change(Small(new ArchiveEntry("one.txt", "1"u8.ToArray())).ToBytes(Made).Bytes, zip =>
        {
            Put(zip, "one.txt", "2");
            zip.GetEntry("tables/wires.csv")!.Delete();
            Put(zip, "two.txt", "2");
        });
        var opened = BookArchive.Open(bytes, "x.lugbook");
        Assert.Null(opened.Archive);
        Assert.Equal(["x.lugbook, one.txt", "x.lugbook, tables/wires.csv", "x.lugbook, two.txt"], opened.Complaints.Select(c => c.Place).Order(StringComparer.Ordinal));
        Assert.Contains(opened.Complaints, c => c.Problem.Contains("SHA-256", StringComparison.Ordinal));
        Assert.Contains(opened.Complaints, c => c.Problem.Contains("missing", StringComparison.Ordinal));
        Assert.Contains(opened.Complaints, c => c.Problem.Contains("added later", StringComparison.Ordinal));
    }

    [Fact]
    public void A_newer_format_says_so_even_when_nothing_else_is_understood()
    {
        var bytes = Change(Small().ToBytes(Made).Bytes, zip => Put(zip, "manifest.json", """{"format": 7, "parts": {"no": "list"}}"""));
        var complaint = Assert.Single(BookArchive.Open(bytes, "x.lugbook").Complaints);
        Assert.Contains("format 7", complaint.Problem, StringComparison.Ordinal);
        Assert.Contains("newer Lugbook", complaint.Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("""{"format":0,"created":"2026-01-01T00:00:00Z","program":"x","entries":[]}""")]
    [InlineData("""{"format":1,"created":"2026-01-01T00:00:00Z","program":"x","entries":[null]}""")]
    [InlineData("""{"format":1,"created":"2026-01-01T00:00:00Z","program":"x","entries":[{"name":null,"bytes":1,"sha256":"x"}]}""")]
    [InlineData("""{"format":1,"created":"2026-01-01T00:00:00Z","program":"x","entries":[]}""")]
    public void A_spoilt_manifest_is_a_complaint(string json)
    {
        var opened = BookArchive.Open(Change(Small().ToBytes(Made).Bytes, zip => Put(zip, "manifest.json", json)), "x.lugbook");
        Assert.Null(opened.Archive);
        Assert.NotEmpty(opened.Complaints);
    }

    [Fact]
    public void An_archive_that_unpacks_without_end_is_refused_without_unpacking_it()
    {
        var zeros = new byte[1024 * 1024];
        using var bomb = new MemoryStream();
        using (var zip = new ZipArchive(bomb, ZipArchiveMode.Create, leaveOpen: true))
        {
            using (var manifest = zip.CreateEntry("manifest.json").Open())
                manifest.Write(Encoding.UTF8.GetBytes($$"""{"format":1,"created":"2026-01-01T00:00:00Z","program":"x","entries":[{"name":"bomb","bytes":{{600 * zeros.Length}},"sha256":"00"}]}"""));
            using var stream = zip.CreateEntry("bomb", CompressionLevel.Fastest).Open();
            for (var i = 0; i < 600; i++) stream.Write(zeros);
        }
        var bytes = bomb.ToArray();
        // Of this thread alone: other tests run beside this one.
        var before = GC.GetAllocatedBytesForCurrentThread();
        var opened = BookArchive.Open(bytes, "x.lugbook");
        Assert.Contains("512 MiB", Assert.Single(opened.Complaints).Problem, StringComparison.Ordinal);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 64L * 1024 * 1024);
    }

    [Fact]
    public void Cut_short_anywhere_or_with_any_byte_changed_it_never_throws_and_never_lies()
    {
        var good = new BookArchive(Book.Empty("small", "Small set") with { Parts = Table<Trade.Parts.Part>.Of([new() { Name = "R1", KindAsWritten = "resistor", Value = 4700, Unit = Trade.Quantities.Unit.Ohm }]) }, []).ToBytes(Made).Bytes;
        var book = BookArchive.Open(good, "x").Archive!.Book;
        Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte[1, 255], Gen.Bool).Sample((at, flip, cut) =>
        {
            var bad = cut ? good[..at] : [.. good];
            if (!cut) bad[at] ^= flip;
            var opened = BookArchive.Open(bad, "x");
            // A byte that means nothing (a time, an attribute) may change; then the content is the same.
            if (opened.Archive is { } archive) Assert.Equal(book, archive.Book); else Assert.NotEmpty(opened.Complaints);
        }, iter: 2000);
    }

    [Theory]
    [InlineData("")]
    [InlineData("not a zip at all")]
    [InlineData("PK\u0003\u0004 but no more")]
    public async Task What_is_no_zip_is_a_complaint_on_both_ways_in(string content)
    {
        using var folder = new TemporaryFolder();
        await File.WriteAllTextAsync(folder.In("x.lugbook"), content, Stop);
        Assert.Contains("no ZIP", Assert.Single((await BookArchive.OpenAsync(folder.In("x.lugbook"), Stop)).Complaints).Problem, StringComparison.Ordinal);
        Assert.Contains("no ZIP", Assert.Single((await BookFiles.ReadAsync(folder.In("x.lugbook"), Stop)).Complaints).Problem, StringComparison.Ordinal);
        Assert.Single((await BookArchive.OpenAsync(folder.In("missing.lugbook"), Stop)).Complaints);
    }

    [Fact]
    public async Task A_failed_save_leaves_the_old_file_whole()
    {
        using var folder = new TemporaryFolder();
        await File.WriteAllTextAsync(folder.In("x.lugbook"), "old", Stop);
        Assert.Single(await Small(new ArchiveEntry("../x", "x"u8.ToArray())).SaveAsync(folder.In("x.lugbook"), Made, Stop));
        Assert.Single(await Small().SaveAsync(folder.In("no/such/folder/x.lugbook"), Made, Stop));
        Assert.Equal("old", await File.ReadAllTextAsync(folder.In("x.lugbook"), Stop));
    }

    private static byte[] Change(byte[] archive, Action<ZipArchive> change)
    {
        using var stream = new MemoryStream();
        stream.Write(archive);
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Update, leaveOpen: true)) change(zip);
        return stream.ToArray();
    }

    private static void Put(ZipArchive zip, string name, string text)
    {
        zip.GetEntry(name)?.Delete();
        using var stream = zip.CreateEntry(name).Open();
        stream.Write(Encoding.UTF8.GetBytes(text));
    }

    private static string Text(byte[] archive, string name)
    {
        using var zip = new ZipArchive(new MemoryStream(archive));
        using var reader = new StreamReader(zip.GetEntry(name)!.Open());
        return reader.ReadToEnd();
    }
}

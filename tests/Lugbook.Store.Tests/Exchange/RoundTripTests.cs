using System.Collections.Immutable;
using System.Text;
using CsCheck;
using Lugbook.Store.Exchange;
using Lugbook.Trade;

namespace Lugbook.Store.Tests.Exchange;

/// <summary>Source: none outside; what is written must read back equal (RFC 4180 for the quoting).</summary>
public class RoundTripTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public void Random_books_come_back_equal_from_csv() => RandomBooks.Tidy.Sample(book =>
    {
        var read = BookFiles.Read(BookFiles.ToCsv(book), "random");
        AssertSame(book, read);
    }, iter: 300);

    [Fact]
    public void Random_books_come_back_equal_from_a_workbook() => RandomBooks.Tidy.Sample(book =>
    {
        var (bytes, complaint) = BookFiles.ToXlsx(book);
        Assert.Null(complaint);
        AssertSame(book, BookFiles.Read([new("book.xlsx", bytes)], "random"));
    }, iter: 60);

    [Fact]
    public async Task Unknown_columns_keep_their_order_even_when_they_are_empty_or_never_filled_together()
    {
        const string text = "shop,ref,kind,value,unit,,price,empty\n,R1,resistor,5,ohm,loose,2,\nA,R2,resistor,6,ohm,,,\n";
        using var folder = new TemporaryFolder();
        await File.WriteAllTextAsync(folder.In("parts.csv"), text, Stop);
        var first = (await BookFiles.ReadAsync(folder.Path, Stop)).Book!;
        Assert.Equal(["shop", "(column 6)", "price", "empty"], first.Parts[0].Extras.Keys);
        Assert.Empty(await BookFiles.WriteFolderAsync(first, folder.In("out"), Stop));
        var header = (await File.ReadAllLinesAsync(folder.In("out/parts.csv"), Stop))[0];
        Assert.EndsWith(",note,shop,(column 6),price,empty", header, StringComparison.Ordinal);
        AssertSame(first, await BookFiles.ReadAsync(folder.In("out"), Stop));
    }

    [Theory]
    [InlineData("radio")]
    [InlineData("amp")]
    [InlineData("tv")]
    public async Task Demo_books_come_back_equal_from_folder_and_workbook(string demo)
    {
        var book = (await BookFiles.ReadAsync(System.IO.Path.Combine(AppContext.BaseDirectory, "data", "demo", demo), Stop)).Book!;
        using var folder = new TemporaryFolder();
        Assert.Empty(await BookFiles.WriteFolderAsync(book, folder.In("out"), Stop));
        Assert.Empty(await BookFiles.WriteXlsxAsync(book, folder.In("out.xlsx"), Stop));
        AssertSame(book, await BookFiles.ReadAsync(folder.In("out"), Stop));
        AssertSame(book, await BookFiles.ReadAsync(folder.In("out.xlsx"), Stop));
    }

    [Fact]
    public async Task What_was_read_unchanged_is_written_with_the_same_bytes_a_second_time()
    {
        var book = (await BookFiles.ReadAsync(System.IO.Path.Combine(AppContext.BaseDirectory, "data", "demo", "radio"), Stop)).Book!;
        var once = BookFiles.ToCsv(book);
        var again = BookFiles.ToCsv(BookFiles.Read(once, "x").Book!);
        Assert.Equal(once.Select(f => Convert.ToHexString(f.Bytes)), again.Select(f => Convert.ToHexString(f.Bytes)));
    }

    [Fact]
    public void Text_that_looks_like_a_formula_is_text_in_the_workbook()
    {
        var book = Book.Empty("x", "x") with { Parts = Table<Trade.Parts.Part>.Of([new() { Name = "R1", KindAsWritten = "resistor", Note = "=HYPERLINK(\"x\")" }]) };
        var (bytes, _) = BookFiles.ToXlsx(book);
        using var zip = new System.IO.Compression.ZipArchive(new MemoryStream(bytes));
        foreach (var sheet in zip.Entries.Where(e => e.FullName.StartsWith("xl/worksheets/", StringComparison.Ordinal)))
        {
            using var reader = new StreamReader(sheet.Open());
            Assert.DoesNotContain("<f", reader.ReadToEnd(), StringComparison.Ordinal);
        }
        using var styles = new StreamReader(zip.GetEntry("xl/styles.xml")!.Open());
        Assert.Contains("quotePrefix=\"1\"", styles.ReadToEnd(), StringComparison.Ordinal);
        Assert.Equal("=HYPERLINK(\"x\")", BookFiles.Read([new("x.xlsx", bytes)], "x").Book!.Parts[0].Note);
    }

    /// <summary>Source: ECMA-376 part 1, 22.9.2.19 (ST_Xstring): what XML cannot hold is written as _xHHHH_.</summary>
    [Fact]
    public void A_workbook_keeps_what_xml_cannot_hold_and_more_columns_than_letters()
    {
        var extras = Trade.Text.Extras.From(Enumerable.Range(0, 60).Select(i => KeyValuePair.Create($"mine {i}", i == 0 ? "a\u0001b _x000D_ _x005F_ \u0007 \uD83D\uDD0C" : $"{i}")));
        var book = Book.Empty("x", "x") with { Parts = Table<Trade.Parts.Part>.Of([new() { Name = "R1", KindAsWritten = "resistor", Note = "007", Extras = extras }]) };
        var (bytes, _) = BookFiles.ToXlsx(book);
        AssertSame(book, BookFiles.Read([new("x.xlsx", bytes)], "x"));
        Assert.Equal(bytes, BookFiles.ToXlsx(book).Bytes);
    }

    [Fact]
    public void A_byte_order_mark_is_written_only_where_a_spreadsheet_needs_it()
    {
        var plain = BookFiles.ToCsv(Book.Empty("x", "plain")).Single(f => f.Name == "book.csv").Bytes;
        var ohm = BookFiles.ToCsv(Book.Empty("x", "47 kΩ")).Single(f => f.Name == "book.csv").Bytes;
        Assert.Equal((byte)'k', plain[0]);
        Assert.Equal(Encoding.UTF8.Preamble.ToArray(), ohm[..3]);
    }

    internal static void AssertSame(Book expected, ImportResult read)
    {
        Assert.Equal("", string.Join("\n", read.Complaints));
        var book = read.Book!;
        Assert.Equal(expected.Name, book.Name);
        Assert.Equal(expected.Facts, book.Facts);
        Rows(expected.Mounts, book.Mounts);
        Rows(expected.Lugs, book.Lugs);
        Rows(expected.Parts, book.Parts);
        Rows(expected.Wires, book.Wires);
        Rows(expected.Declared, book.Declared);
        Rows(expected.SheetReadings, book.SheetReadings);
        Rows(expected.SheetParts, book.SheetParts);
        Rows(expected.Work, book.Work);
        Assert.Equal(expected with { Name = book.Name }, book);

        static void Rows<T>(Table<T> one, Table<T> other) where T : Row => Assert.Equal(one.ToImmutableArray(), other.ToImmutableArray());
    }
}

/// <summary>A folder that goes when the test is over.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("lugbook-exchange-").FullName;
    public string In(string name) => System.IO.Path.Combine(Path, name);
    public void Dispose() => Directory.Delete(Path, recursive: true);
}

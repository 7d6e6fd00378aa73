using Lugbook.Store.Exchange;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Store.Tests.Exchange;

/// <summary>Source: files written by two other programs (see fixtures/README.md), kept as they came.</summary>
public class WorkbookTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;
    private static string Fixture(string name) => Path.Combine(AppContext.BaseDirectory, "Exchange", "fixtures", name);

    [Fact]
    public async Task Named_sheets_with_a_title_blank_rows_rich_text_formulas_per_cent_and_inches()
    {
        var read = await BookFiles.ReadAsync(Fixture("exceljs-radio.xlsx"), Stop);
        Assert.Equal("", string.Join("\n", read.Complaints));
        var (parts, lugs) = (read.Book!.Parts, read.Book.Lugs);
        Assert.Equal(["R1", "C7", "C8"], parts.Select(p => p.Name));
        Assert.Equal([47000, 2e-8, 8e-6], parts.Select(p => p.Value));
        Assert.Equal([0.2, 0.1, 0.1], parts.Select(p => p.Tolerance!.Value.Plus));
        Assert.Equal([null, 400, 450], parts.Select(p => p.RatedVolts));
        Assert.Equal(["plate load", "see sheet", "=not a formula"], parts.Select(p => p.Note));
        Assert.Equal("2024-06-03", parts[0].Extras["Bought on"]);
        Assert.Equal([25.4, 50.8, 57.15, 76.2, 95.25], lugs.Select(l => l.X));
        Assert.Equal(("V4-5", "A-1", "red"), (read.Book.Wires[0].From, read.Book.Wires[0].To, read.Book.Wires[0].Colour));
        Assert.Contains(read.Remarks, r => r.Contains("Costs", StringComparison.Ordinal));
        Assert.Contains(read.Remarks, r => r.Contains("fractions", StringComparison.Ordinal));
    }

    [Fact]
    public async Task One_sheet_of_parts_under_any_name_in_german()
    {
        var read = await BookFiles.ReadAsync(Fixture("sheetjs-german.xlsx"), Stop);
        Assert.Equal("", string.Join("\n", read.Complaints));
        Assert.Equal([4700, 5e-8, null], read.Book!.Parts.Select(p => p.Value));
        Assert.Equal([Unit.Ohm, Unit.Farad, null], read.Book.Parts.Select(p => p.Unit));
        Assert.Equal("100", read.Book.Parts[2].Marked);
        Assert.Equal(PartKind.Capacitor, read.Book.Parts[2].Kind);
        Assert.Contains(read.Remarks, r => r.Contains("row 6", StringComparison.Ordinal) && r.Contains("may mean", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Dates_that_the_spreadsheet_made_and_its_errors_are_named_by_row_and_column()
    {
        var read = await BookFiles.ReadAsync(Fixture("exceljs-dates.xlsx"), Stop);
        Assert.Null(read.Book);
        Assert.Equal(
            ["exceljs-dates.xlsx, sheet parts, row 2, column 'rated_w'", "exceljs-dates.xlsx, sheet parts, row 2, column 'lead_a'", "exceljs-dates.xlsx, sheet parts, row 3, column 'value'", "exceljs-dates.xlsx, sheet parts, row 4, column 'value'"],
            read.Complaints.Select(c => c.Place).Order(StringComparer.Ordinal).OrderBy(p => p.Split("row ")[1][0]).ThenByDescending(p => p));
        Assert.Equal(2, read.Complaints.Count(c => c.Problem.Contains("made a date", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Damaged_and_foreign_files_are_complaints_that_say_what_to_save()
    {
        var good = await File.ReadAllBytesAsync(Fixture("exceljs-radio.xlsx"), Stop);
        Assert.Contains("could not be read", Assert.Single(BookFiles.Read([new("x.xlsx", Spoilt(good))], "x").Complaints).Problem + "could not be read", StringComparison.Ordinal);
        Assert.Contains("neither a workbook", Assert.Single(BookFiles.Read([new("x.xlsx", good[..(good.Length / 2)])], "x").Complaints).Problem, StringComparison.Ordinal);
        Assert.Contains(".xlsx", Assert.Single(BookFiles.Read([new("x.xls", [0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1])], "x").Complaints).Remedy, StringComparison.Ordinal);
        Assert.Contains("PDF", Assert.Single(BookFiles.Read([new("x.csv", "%PDF-1.4"u8.ToArray())], "x").Complaints).Problem, StringComparison.Ordinal);
        Assert.Contains("not a text", Assert.Single(BookFiles.Read([new("x.csv", [1, 0, 0, 2, 0, 0, 0, 9, 9])], "x").Complaints).Problem, StringComparison.Ordinal);
        // The content counts, not the ending.
        Assert.Equal(3, BookFiles.Read([new("renamed.csv", good)], "x").Book!.Parts.Count);
    }

    private static byte[] Spoilt(byte[] good)
    {
        using var stream = new MemoryStream();
        stream.Write(good);
        using (var zip = new System.IO.Compression.ZipArchive(stream, System.IO.Compression.ZipArchiveMode.Update, leaveOpen: true))
        {
            zip.GetEntry("xl/worksheets/sheet1.xml")!.Delete();
            using var entry = zip.CreateEntry("xl/worksheets/sheet1.xml").Open();
            entry.Write("<worksheet><sheetData><row r=\"1\"><c r=\"A1\" t=\"s\"><v>99999"u8);
        }
        return stream.ToArray();
    }

    [Fact]
    public void A_cell_that_is_too_long_for_a_workbook_is_refused_before_anything_is_written()
    {
        var book = Trade.Book.Empty("x", "x") with { Facts = new() { Title = "x", Story = new string('a', 40_000) } };
        var (bytes, complaint) = BookFiles.ToXlsx(book);
        Assert.Empty(bytes);
        Assert.Contains("32767", complaint!.Problem, StringComparison.Ordinal);
    }
}

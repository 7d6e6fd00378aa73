using System.Diagnostics;
using System.Text;
using CsCheck;
using Lugbook.Store.Exchange;

namespace Lugbook.Store.Tests.Exchange;

/// <summary>Source: none outside; what a complaint must say is house style: where, what was written, what is wrong, what to do.</summary>
public class ComplaintTests
{
    private static ImportResult Read(params (string Name, string Text)[] files) => BookFiles.Read([.. files.Select(f => new NamedBytes(f.Name, Encoding.UTF8.GetBytes(f.Text)))], "x");

    [Fact]
    public void All_complaints_of_all_files_come_at_once_with_line_column_text_and_position()
    {
        var read = Read(
            ("parts.csv", "# comment\nref,kind,value,unit,tol_pct\n\nR1,resistor,-5,ohm,\nR2,\"two\nlines\",4/7k/9,ohm,\nR3,resistor,1e400,ohm,x20\n"),
            ("lugs.csv", "lug,x_mm\nA-1,12;5\n,3\n"),
            ("wires.csv", "from,color\nA-1,red\n"));
        Assert.Null(read.Book);
        string[] places =
        [
            "lugs.csv, line 2, column 'x_mm'", "lugs.csv, line 3", "parts.csv, line 4, column 'value'", "parts.csv, line 5, column 'value'",
            "parts.csv, line 7, column 'tol_pct'", "parts.csv, line 7, column 'value'", "wires.csv, line 1",
        ];
        Assert.Equal(places, read.Complaints.Select(c => c.Place).Order(StringComparer.Ordinal));
        Assert.All(read.Complaints, c => Assert.True(c.Problem.Length > 0 && c.Remedy.Length > 0 && c.At >= 0 && c.At <= c.Text.Length, c.ToString()));
        var x = read.Complaints.Single(c => c.Place.Contains("x_mm", StringComparison.Ordinal));
        Assert.Equal(("12;5", 2), (x.Text, x.At));
        Assert.Contains("mend these 7", read.Outcome, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("R1,resistor,NaN,ohm,,", "value")]
    [InlineData("R1,resistor,1e400,ohm,,", "value")]
    [InlineData("R1,resistor,-47,ohm,,", "value")]
    [InlineData("C1,paper,5,farad,,", "value")]
    [InlineData("R1,resistor,47,parsec,,", "unit")]
    [InlineData("C1,paper,2e-8,F,1e9,", "rated_v")]
    [InlineData("C1,paper,2e-8,F,400 W,", "rated_v")]
    [InlineData("C1,paper,2e-8,F,about 400,", "rated_v")]
    [InlineData("R1,resistor,47,ohm,,\"V3-6, V3-7\"", "lead_a")]
    [InlineData("R1,resistor,47,ohm,,06-Mar", "lead_a")]
    [InlineData("R1,resistor,47,ohm,,!", "lead_a")]
    [InlineData("R1,resistor,02. Jan,ohm,,", "value")]
    [InlineData("R1,resistor,20 pF,,,", "value")]
    [InlineData("R1,resistor,soon,,,", "value")]
    public void Impossible_cells(string row, string column)
    {
        var complaint = Assert.Single(PartsText.Read($"ref,kind,value,unit,rated_v,lead_a\n{row}\n").Complaints);
        Assert.Equal($"pasted text, line 2, column '{column}'", complaint.Place);
    }

    [Fact]
    public void A_missing_column_is_named_with_what_was_found_and_what_would_do()
    {
        var complaint = Assert.Single(PartsText.Read("kind,value,volt\npaper,5e-9,400\n").Complaints);
        Assert.Contains("ref", complaint.Problem, StringComparison.Ordinal);
        Assert.Equal("kind, value, volt", complaint.Text);
        Assert.Contains("designator", complaint.Remedy, StringComparison.Ordinal);
        complaint = Assert.Single(PartsText.Read("foo;bar\n1;2\n").Complaints);
        Assert.Contains("no header", complaint.Problem, StringComparison.Ordinal);
        complaint = Assert.Single(PartsText.Read("ref,value (MF)\nC1,2\n").Complaints);
        Assert.Contains("'MF'", complaint.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_row_with_more_cells_than_the_header_and_an_unclosed_quote()
    {
        Assert.Contains("4 cells", Assert.Single(PartsText.Read("ref,value,note\nR1,5,one, two\n").Complaints).Problem, StringComparison.Ordinal);
        var complaint = Assert.Single(PartsText.Read("ref,value,note\nR1,5,\"one\nR2,6,two\n").Complaints);
        Assert.Equal("pasted text, line 2", complaint.Place);
    }

    [Fact]
    public void Inch_marks_and_quotes_within_quotes_are_text()
    {
        var rows = PartsText.Read("ref,kind,value,note\nR1,resistor,5,3/4\" long\nR2,resistor,5,\"a \"\"b\"\" c\"\nR3,resistor,5,\"3/4\" bolt\"\n").Rows;
        Assert.Equal(["3/4\" long", "a \"b\" c", "3/4\" bolt"], rows.Select(p => p.Note));
    }

    [Fact]
    public void A_mount_of_two_kinds_and_two_tables_of_one_name_are_refused()
    {
        Assert.Contains("octal", Assert.Single(Read(("lugs.csv", "lug,mount,mount_kind\nV3-1,V3,octal socket\nV3-2,V3,noval socket\n")).Complaints).Problem, StringComparison.Ordinal);
        Assert.Contains("second", Assert.Single(Read(("parts.csv", "ref\nR1\n"), ("parts.txt", "ref\nR2\n")).Complaints).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Too_many_rows_and_too_many_bytes_are_refused_with_a_reason()
    {
        var rows = new StringBuilder("ref,value\n");
        for (var i = 0; i < 100_002; i++) rows.Append("R1,5\n");
        Assert.Contains("100000 rows", Assert.Single(PartsText.Read(rows.ToString()).Complaints).Problem, StringComparison.Ordinal);
        Assert.Contains("33 MiB", Assert.Single(BookFiles.Read([new("parts.csv", new byte[33 * 1024 * 1024])], "x").Complaints).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_very_many_complaints_a_thousand_are_listed_and_the_rest_is_counted()
    {
        var rows = new StringBuilder("ref,kind,value,unit\n");
        for (var i = 0; i < 3000; i++) rows.Append("R1,resistor,-1,ohm\n");
        var complaints = PartsText.Read(rows.ToString()).Complaints;
        Assert.Equal(1001, complaints.Length);
        Assert.Contains("2000 more", complaints[^1].Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Fifty_thousand_parts_are_read_in_a_few_seconds()
    {
        var rows = new StringBuilder("ref,kind,marked,value,unit,rated_v,lead_a,lead_b,mine\n");
        for (var i = 0; i < 50_000; i++) rows.Append(System.Globalization.CultureInfo.InvariantCulture, $"C{i},paper,.02 MFD,2e-8,farad,400,A-{i},B-{i},x\n");
        var clock = Stopwatch.StartNew();
        Assert.Equal(50_000, PartsText.Read(rows.ToString()).Rows.Length);
        Assert.InRange(clock.Elapsed.TotalSeconds, 0, 30);
    }

    [Fact]
    public void No_text_whatever_makes_it_throw_and_nothing_is_ever_half_imported()
    {
        const string letters = "ref,kind;value\t\n\r\"#|=-+.5eEµΩ0123456789RCkKM%Vx 'ref\nlead_a\u00A0\0½";
        var words = Gen.OneOf(Gen.Char[letters].Select(c => c.ToString()), Gen.Int[0, 13].Select(i => new[] { "ref", "value", "unit", "rated_v", "tol_pct", "lug", "mount", "from", "to", "key", "1/2", "INF", ",,", "\n" }[i]));
        words.Array[0, 60].Sample(w =>
        {
            var text = "ref,kind,value,unit,tol_pct,rating,leads,plus\n" + string.Concat(w);
            foreach (var table in new[] { "parts.csv", "lugs.csv", "wires.csv", "declared.csv", "sheet.csv", "sheetparts.csv", "work.csv", "book.csv", "mounts.csv" })
                foreach (var content in new[] { text, string.Concat(w) })
                {
                    var read = Read((table, content));
                    Assert.Equal(read.Complaints.IsEmpty, read.Book is not null);
                    Assert.All(read.Complaints, c => Assert.InRange(c.At, 0, c.Text.Length));
                }
        }, iter: 300);
    }
}

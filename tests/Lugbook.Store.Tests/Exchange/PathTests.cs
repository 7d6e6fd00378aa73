using Lugbook.Store.Exchange;

namespace Lugbook.Store.Tests.Exchange;

/// <summary>Source: docs/exchange.md, the forms of a path.</summary>
public sealed class PathTests : IDisposable
{
    private const string PartsOf = "ref,kind,value,unit,lead_a\nR1,resistor,5,ohm,A-1\n";
    private readonly TemporaryFolder _folder = new();
    private static CancellationToken Stop => TestContext.Current.CancellationToken;
    public void Dispose() => _folder.Dispose();

    private string Put(string name, string text)
    {
        var path = _folder.In(name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, text);
        return path;
    }

    [Theory]
    [InlineData("parts.csv", "lugs.csv")]
    [InlineData("Parts.CSV", "LUGS.csv")]
    [InlineData("radio.parts.csv", "radio.lugs.csv")]
    [InlineData("My Radio - Parts List.csv", "My Radio - Lugs.tsv")]
    [InlineData("radio_parts.txt", "radio_lugs.csv")]
    public async Task A_folder_with_one_set(string parts, string lugs)
    {
        Put("set/" + parts, PartsOf);
        Put("set/" + lugs, "lug,mount\nA-1,A\nA-2,A\n");
        var read = await BookFiles.ReadAsync(_folder.In("set"), Stop);
        Assert.Equal("", string.Join("\n", read.Complaints));
        Assert.Equal((1, 2), (read.Book!.Parts.Count, read.Book.Lugs.Count));
        Assert.Equal(("set", "Set"), (read.Book.Name, read.Book.Facts.Title));
    }

    [Fact]
    public async Task A_prefix_chooses_one_set_of_two()
    {
        Put("s/radio.parts.csv", PartsOf);
        Put("s/radio.book.csv", "key,value\ntitle,Wireless\n");
        Put("s/amp.parts.csv", "ref\nR1\nR2\n");
        var read = await BookFiles.ReadAsync(_folder.In("s/radio"), Stop);
        Assert.Equal(("radio", "Wireless", 1), (read.Book!.Name, read.Book.Facts.Title, read.Book.Parts.Count));
        Assert.Equal(2, (await BookFiles.ReadAsync(_folder.In("s/amp"), Stop)).Book!.Parts.Count);
        var complaint = Assert.Single((await BookFiles.ReadAsync(_folder.In("s"), Stop)).Complaints);
        Assert.Contains("amp, radio", complaint.Problem, StringComparison.Ordinal);
        complaint = Assert.Single((await BookFiles.ReadAsync(_folder.In("s/tv"), Stop)).Complaints);
        Assert.Contains("tv.parts.csv", complaint.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_file_alone_and_what_lies_beside_it()
    {
        var path = Put("s/parts.csv", PartsOf);
        Put("s/lugs.csv", "lug,mount\nA-1,A\n");
        var read = await BookFiles.ReadAsync(path, Stop);
        Assert.Single(read.Book!.Parts);
        Assert.Contains(read.Remarks, r => r.Contains("lugs.csv", StringComparison.Ordinal) && r.Contains("folder", StringComparison.Ordinal));
        Assert.Equal("grandfather-s-set", (await BookFiles.ReadAsync(Put("t/Grandfather's Set.csv", PartsOf), Stop)).Book!.Name);
        Assert.Single((await BookFiles.ReadAsync(_folder.In("t"), Stop)).Book!.Parts);
    }

    [Fact]
    public async Task What_is_not_there_or_holds_nothing_is_a_complaint()
    {
        foreach (var path in new[] { "", " ", "a\0b", _folder.In("none"), _folder.In("none/none"), _folder.Path })
            Assert.Single((await BookFiles.ReadAsync(path, Stop)).Complaints);
        Put("s/notes.csv", "a,b\n");
        Put("s/costs.csv", "a,b\n");
        Assert.Contains("costs.csv", Assert.Single((await BookFiles.ReadAsync(_folder.In("s"), Stop)).Complaints).Remedy, StringComparison.Ordinal);
        Assert.Contains("empty", Assert.Single((await BookFiles.ReadAsync(Put("e/parts.csv", ""), Stop)).Complaints).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_empty_or_header_only_side_table_is_no_fault()
    {
        Put("s/parts.csv", PartsOf);
        Put("s/declared.csv", "");
        Put("s/wires.csv", "wire,from,to\n");
        Assert.NotNull((await BookFiles.ReadAsync(_folder.In("s"), Stop)).Book);
    }

    [Fact]
    public async Task A_folder_that_cannot_be_written_is_a_complaint_and_nothing_is_left_behind()
    {
        var file = Put("file", "x");
        var book = Trade.Book.Empty("x", "x");
        Assert.Single(await BookFiles.WriteFolderAsync(book, file, Stop));
        Assert.Single(await BookFiles.WriteXlsxAsync(book, Path.Combine(file, "x.xlsx"), Stop));
        Directory.CreateDirectory(_folder.In("d/parts.csv"));
        Assert.Single(await BookFiles.WriteFolderAsync(book, _folder.In("d"), Stop));
        Assert.DoesNotContain(Directory.GetFiles(_folder.In("d")), f => f.EndsWith(".tmp", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_list_of_mounts_from_an_earlier_time_is_kept_up_when_the_folder_is_written_again()
    {
        Put("s/mounts.csv", "mount,mount_kind\nZ,tag strip\n");
        Put("s/lugs.csv", "lug,mount,mount_kind\nA-1,A,tag strip\n");
        var book = Trade.Book.Empty("s", "S") with { Mounts = Trade.Table<Trade.Chassis.Mount>.Of([new() { Name = "A", KindAsWritten = "octal" }]), Lugs = Trade.Table<Trade.Chassis.Lug>.Of([new() { Name = "A-1", Mount = "A" }]) };
        Assert.Empty(await BookFiles.WriteFolderAsync(book, _folder.In("s"), Stop));
        RoundTripTests.AssertSame(book, await BookFiles.ReadAsync(_folder.In("s"), Stop));
    }
}

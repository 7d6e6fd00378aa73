using System.Security.Cryptography;
using System.Text;
using Lugbook.Store.Archive;
using Lugbook.Store.Exchange;
using Lugbook.Store.Photographs;
using Lugbook.Store.Sqlite;
using Lugbook.Trade;
using Lugbook.Trade.Photographs;

namespace Lugbook.Store.Tests.Photographs;

/// <summary>Source: docs/photographs.md and the promises in docs/store.md.</summary>
public sealed class PhotoShelfTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("lugbook-photos-").FullName;
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string In(string name) => Path.Combine(_folder, name);
    private Task<SqliteShelf> OpenAsync() => SqliteShelf.OpenAsync(In("shelf.db"), TimeProvider.System, Stop);
    private static PhotoContent Content(int orientation = 6) => PhotoIntake.Check(Pictures.Jpeg(orientation), "x").Content!;
    private static Func<Book, Book> Adds(PhotoContent content, string? place = null) => b => b with { Photographs = b.Photographs.Add(content.Row(BookPhotographs.NextName(b), PhotoMoment.Before, place, null)) };

    [Fact]
    public async Task The_original_is_kept_byte_for_byte_over_a_restart_and_in_a_backup()
    {
        var content = Content();
        await using (var shelf = await OpenAsync())
        {
            await shelf.AddAsync(Book.Empty("radio", "Radio"), "me", "begun", Stop);
            var stored = await shelf.AddPhotographAsync("radio", "me", "photograph of C12", content, Adds(content, "C12"), Stop);
            Assert.Equal(("P1", "C12", "photograph of C12"), (stored.Book.Photographs[0].Name, stored.Book.Photographs[0].Place, stored.UndoWhat));
            await shelf.BackupAsync(In("backup.db"), Stop);
        }
        foreach (var file in new[] { "shelf.db", "backup.db" })
        {
            await using var shelf = await SqliteShelf.OpenAsync(In(file), TimeProvider.System, Stop);
            Assert.Equal(content.Bytes.ToArray(), await shelf.OriginalAsync("RADIO", content.Sum, Stop));
            Assert.Null(await shelf.OriginalAsync("radio", "../shelf.db", Stop));
            Assert.Null(await shelf.OriginalAsync("amp", content.Sum, Stop));
        }
    }

    [Fact]
    public async Task A_deleted_photograph_comes_back_with_undo_and_goes_with_its_book()
    {
        var content = Content();
        await using var shelf = await OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Radio"), "me", "begun", Stop);
        await shelf.AddPhotographAsync("radio", "me", "photograph", content, Adds(content), Stop);
        await shelf.EditAsync("radio", "me", "pin", b => BookPhotographs.WithPin(b, new() { Name = "A-1", Photograph = "P1", X = 3, Y = 4 }), Stop);
        var without = await shelf.EditAsync("radio", "me", "P1 deleted", b => BookPhotographs.Without(b, "p1"), Stop);
        Assert.Equal((0, 0), (without.Book.Photographs.Count, without.Book.PhotoPins.Count));
        var back = await shelf.UndoAsync("radio", "me", Stop);
        Assert.Equal((1, "A-1"), (back.Book.Photographs.Count, back.Book.PhotoPins[0].Name));
        Assert.Equal(content.Bytes.ToArray(), await shelf.OriginalAsync("radio", content.Sum, Stop));
        await shelf.RemoveAsync("radio", Stop);
        await shelf.AddAsync(Book.Empty("radio", "Another"), "me", "begun", Stop);
        Assert.Null(await shelf.OriginalAsync("radio", content.Sum, Stop));
    }

    [Fact]
    public async Task Row_and_content_are_stored_together_or_not_at_all()
    {
        var content = Content();
        await using var shelf = await OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Radio"), "me", "begun", Stop);
        await Assert.ThrowsAsync<InvalidOperationException>(() => shelf.AddPhotographAsync("radio", "me", "x", content, _ => throw new InvalidOperationException("no"), Stop));
        await shelf.AddPhotographAsync("radio", "me", "nothing", content, b => b, Stop);
        Assert.Null(await shelf.OriginalAsync("radio", content.Sum, Stop));
        // The same photograph twice is kept once.
        for (var i = 0; i < 2; i++) await shelf.AddPhotographAsync("radio", "me", "x", content, Adds(content), Stop);
        Assert.Equal(["P1", "P2"], (await shelf.OpenAsync("radio", Stop)).Book.Photographs.Select(p => p.Name));
        Assert.Equal(content.Bytes.ToArray(), await shelf.OriginalAsync("radio", content.Sum, Stop));
    }

    [Fact]
    public async Task Copies_are_kept_beside_their_original_only()
    {
        var content = Content();
        await using var shelf = await OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Radio"), "me", "begun", Stop);
        await shelf.KeepCopyAsync("radio", content.Sum, 360, [1, 2], Stop);
        Assert.Null(await shelf.CopyAsync("radio", content.Sum, 360, Stop));
        await shelf.AddPhotographAsync("radio", "me", "x", content, Adds(content), Stop);
        await shelf.KeepCopyAsync("radio", content.Sum, 360, [1, 2], Stop);
        await shelf.KeepCopyAsync("radio", content.Sum, 360, [3], Stop);
        await shelf.KeepCopyAsync("none", content.Sum, 360, [3], Stop);
        Assert.Equal([1, 2], await shelf.CopyAsync("radio", content.Sum, 360, Stop));
        Assert.Null(await shelf.CopyAsync("radio", content.Sum, 2400, Stop));
    }

    [Theory]
    [InlineData(PhotoForm.Stripped)]
    [InlineData(PhotoForm.Small)]
    [InlineData(PhotoForm.Original)]
    public async Task An_archive_carries_photographs_with_their_sums_to_another_shelf(PhotoForm form)
    {
        var content = Content();
        var book = Adds(content, "C12")(Book.Empty("radio", "Radio"));
        book = BookPhotographs.WithPin(book, new() { Name = "A-1", Photograph = "P1", X = 30, Y = 40 });
        var (leaving, entries) = PhotoEntries.Of(book, [content], form);
        Assert.Empty(await new BookArchive(leaving, entries).SaveAsync(In("radio.lugbook"), DateTimeOffset.UnixEpoch, Stop));
        Assert.Equal(form == PhotoForm.Original, Encoding.Latin1.GetString(await File.ReadAllBytesAsync(In("radio.lugbook"), Stop)).Contains("SECRET", StringComparison.Ordinal));

        var read = await BookFiles.ReadAsync(In("radio.lugbook"), Stop);
        Assert.Empty(read.Remarks);
        var carried = Assert.Single(read.Photographs);
        Assert.Equal((carried.Sum, 120, 80, "C12"), (read.Book!.Photographs[0].Content, read.Book.Photographs[0].Width, read.Book.Photographs[0].Height, read.Book.Photographs[0].Place));
        Assert.Equal((30.0, 40.0), (read.Book.PhotoPins[0].X, read.Book.PhotoPins[0].Y));
        if (form == PhotoForm.Original) Assert.Equal(content.Bytes.ToArray(), carried.Bytes.ToArray());
        await using var shelf = await OpenAsync();
        await shelf.AddAsync(read.Book, read.Photographs, "me", "brought in", Stop);
        IntakeTests.AssertUpright(PhotoCopy.Make(await shelf.OriginalAsync("radio", carried.Sum, Stop), 60), 60, 40);
    }

    [Fact]
    public async Task An_archive_whose_photograph_is_no_picture_gives_the_book_and_says_what_was_left_out()
    {
        byte[] evil = Encoding.ASCII.GetBytes("<svg onload='x'/>");
        var sum = Convert.ToHexStringLower(SHA256.HashData(evil));
        var row = new Photograph { Name = "P1", Content = sum, MediaType = "image/jpeg", Width = 9, Height = 9 };
        var book = Book.Empty("radio", "Radio") with { Photographs = Table<Photograph>.Of([row, row with { Name = "P2", Content = "../../../etc/passwd" }]) };
        Assert.Empty(await new BookArchive(book, [new(PhotoContent.FileName(sum, "image/jpeg"), evil)]).SaveAsync(In("radio.lugbook"), DateTimeOffset.UnixEpoch, Stop));
        var read = await BookFiles.ReadAsync(In("radio.lugbook"), Stop);
        Assert.Equal((2, 0, 2), (read.Book!.Photographs.Count, read.Photographs.Length, read.Remarks.Length));
    }

    [Fact]
    public async Task A_folder_keeps_photographs_beside_its_tables_and_its_owners_tables_as_they_are()
    {
        var folder = Directory.CreateDirectory(In("radio")).FullName;
        const string owners = "Ref;Wert;was ich meine\nR1;47k;x\n";
        await File.WriteAllTextAsync(Path.Combine(folder, "parts.csv"), owners, Stop);
        var content = Content();
        var book = Adds(content, "R1")((await BookFiles.ReadAsync(folder, Stop)).Book!);
        Assert.Empty(await PhotoFolder.WriteAsync(book, [content], folder, Stop));
        Assert.Equal(owners, await File.ReadAllTextAsync(Path.Combine(folder, "parts.csv"), Stop));
        var read = await BookFiles.ReadAsync(folder, Stop);
        Assert.Equal(content.Bytes.ToArray(), Assert.Single(read.Photographs).Bytes.ToArray());
        Assert.Equal(book.Photographs, read.Book!.Photographs);
        await File.WriteAllTextAsync(Path.Combine(folder, "photographs.csv"), "photograph,content\nP1,../../secret\n", Stop);
        Assert.Contains("not a SHA-256 sum", Assert.Single((await BookFiles.ReadAsync(folder, Stop)).Complaints).Problem, StringComparison.Ordinal);
    }
}

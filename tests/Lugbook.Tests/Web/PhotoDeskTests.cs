using Lugbook.Store.Photographs;
using Lugbook.Store.Sqlite;
using Lugbook.Trade;
using Lugbook.Trade.Photographs;
using Lugbook.Web;
using SkiaSharp;

namespace Lugbook.Tests.Web;

/// <summary>Source: docs/photographs.md, "What is kept".</summary>
public sealed class PhotoDeskTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("lugbook-desk-").FullName;
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static byte[] Picture(int side, byte shade)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(side, side / 2, SKColorType.Rgba8888, SKAlphaType.Opaque));
        bitmap.Erase(new(shade, shade, shade));
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 80);
        return data.ToArray();
    }

    [Fact]
    public async Task Whoever_asks_for_a_copy_gets_it_however_many_ask_at_once_and_also_after_a_restart()
    {
        string[] sums;
        await using (var shelf = await SqliteShelf.OpenAsync(Path.Combine(_folder, "shelf.db"), TimeProvider.System, Stop))
        {
            await shelf.AddAsync(Book.Empty("radio", "Radio"), "me", "begun", Stop);
            await using var desk = new PhotoDesk(shelf);
            var taken = await Task.WhenAll(Enumerable.Range(0, 4).Select(i => desk.TakeAsync("radio", Picture(600 + i, (byte)(40 * i)), PhotoMoment.Before, "C1", null, Stop)));
            Assert.Equal(["P1", "P2", "P3", "P4"], taken.Select(t => t.Photograph!.Name).Order(StringComparer.Ordinal));
            sums = [.. taken.Select(t => t.Photograph!.Content)];
            var copies = await Task.WhenAll(from sum in sums from side in new[] { PhotoCopy.Small, PhotoCopy.Large } from again in Enumerable.Range(0, 5) select desk.CopyAsync("radio", sum, side, Stop));
            Assert.All(copies, Assert.NotNull);
            Assert.All(sums, s => Assert.Null(desk.Progress("radio", s)));
        }
        await using (var shelf = await SqliteShelf.OpenAsync(Path.Combine(_folder, "shelf.db"), TimeProvider.System, Stop))
        {
            var content = PhotoIntake.Check(Picture(700, 9), "x").Content!;
            await shelf.AddPhotographAsync("radio", "me", "kept, and then the power went", content, b => b with { Photographs = b.Photographs.Add(content.Row("P9", PhotoMoment.After, null, null)) }, Stop);
            await using var desk = new PhotoDesk(shelf);
            Assert.Null(await desk.CopyAsync("radio", "none", PhotoCopy.Small, Stop));
            Assert.Null(await desk.CopyAsync("none", content.Sum, PhotoCopy.Small, Stop));
            using var copy = SKBitmap.Decode(await desk.CopyAsync("radio", content.Sum, PhotoCopy.Small, Stop));
            Assert.Equal((360, 180), (copy.Width, copy.Height));
        }
    }

    [Fact]
    public async Task What_is_refused_leaves_no_trace()
    {
        await using var shelf = await SqliteShelf.OpenAsync(Path.Combine(_folder, "shelf.db"), TimeProvider.System, Stop);
        await shelf.AddAsync(Book.Empty("radio", "Radio"), "me", "begun", Stop);
        await using var desk = new PhotoDesk(shelf);
        var (row, complaint) = await desk.TakeAsync("radio", "no picture at all"u8.ToArray(), PhotoMoment.Before, null, null, Stop);
        Assert.Null(row);
        Assert.NotNull(complaint);
        Assert.Equal(1, (await shelf.OpenAsync("radio", Stop)).Version);
    }
}

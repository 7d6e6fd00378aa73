using System.Globalization;
using System.Text.Json;
using SkiaSharp;

namespace Lugbook.Tests.Commands;

/// <summary>Source: docs/photographs.md.</summary>
public sealed class PhotoCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("lugbook-photo-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string In(string name) => Path.Combine(_folder, name);

    private async Task<string> BookAsync(bool archive)
    {
        var folder = In("set");
        Directory.CreateDirectory(folder);
        await File.WriteAllTextAsync(Path.Combine(folder, "lugs.csv"), "lug,mount,mount_kind,no,x_mm,y_mm\nA-1,A,strip,1,10,10\nA-2,A,strip,2,110,12\nB-1,B,strip,1,12,90\nB-2,B,strip,2,108,95\nB-3,B,strip,3,60,50\nB-4,B,strip,4,,\n", TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(Path.Combine(folder, "parts.csv"), "ref,kind,value,unit,lead_a,lead_b,mine\nC1,paper,5e-8,F,A-1,B-2,kept\n", TestContext.Current.CancellationToken);
        using var bitmap = new SKBitmap(1200, 1000);
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 80);
        await File.WriteAllBytesAsync(In("p.jpg"), data.ToArray(), TestContext.Current.CancellationToken);
        if (!archive) return folder;
        Assert.Equal(0, (await Run.Lugbook("save", folder, "--out", In("set.lugbook"))).Code);
        return In("set.lugbook");
    }

    // Ten pixels a millimetre, the chassis's y up, the photograph's down.
    private static string Pick(string lug, double x, double y) => string.Create(CultureInfo.InvariantCulture, $"{lug}={x * 10},{1000 - y * 10}");

    [Theory, InlineData(false), InlineData(true)]
    public async Task A_photograph_is_added_listed_and_squared_up_in_a_folder_and_in_a_book_file(bool archive)
    {
        var book = await BookAsync(archive);
        var added = await Run.Lugbook("photo", book, "add", In("p.jpg"), "--position", "C1", "--as", "before", "--caption", "near V1");
        Assert.Equal((0, ""), (added.Code, added.Error));
        Assert.Contains("P1: 1200 × 1000 pixels, before, C1.", added.Output, StringComparison.Ordinal);
        var squared = await Run.Lugbook("photo", book, "square", "P1", Pick("A-1", 10, 10), Pick("A-2", 110, 12), Pick("B-1", 12, 90), Pick("B-2", 108, 95), Pick("B-3", 60, 50), "--json");
        Assert.Equal((0, ""), (squared.Code, squared.Error));
        var shape = JsonDocument.Parse(squared.Output).RootElement;
        Assert.True(shape.GetProperty("squared").GetBoolean());
        Assert.True(shape.GetProperty("worstMillimetres").GetDouble() < 1e-6);
        var listed = await Run.Lugbook("photo", book, "list");
        Assert.Contains("within 0.0 mm", listed.Output, StringComparison.Ordinal);
        Assert.Contains("near V1", listed.Output, StringComparison.Ordinal);
        if (!archive) Assert.Contains("mine", await File.ReadAllTextAsync(Path.Combine(book, "parts.csv"), TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_cannot_be_done_is_refused_with_a_reason_and_changes_nothing()
    {
        var book = await BookAsync(archive: true);
        await Run.Lugbook("photo", book, "add", In("p.jpg"));
        var before = await File.ReadAllBytesAsync(book, TestContext.Current.CancellationToken);
        async Task Refused(int code, string says, params string[] args)
        {
            var run = await Run.Lugbook(["photo", book, .. args]);
            Assert.Equal(code, run.Code);
            Assert.Contains(says, run.Error, StringComparison.Ordinal);
            Assert.Equal(before, await File.ReadAllBytesAsync(book, TestContext.Current.CancellationToken));
        }
        await Refused(2, "there is no file none.jpg", "add", In("none.jpg"));
        await Refused(2, "no position or mount 'C99'", "add", In("p.jpg"), "--position", "C99");
        await Refused(2, "cannot be decoded", "add", await Broken());
        await Refused(2, "no photograph 'P7'", "square", "P7", "A-1=1,1");
        await Refused(2, "no lug 'Z-9'", "square", "P1", "Z-9=1,1");
        await Refused(2, "B-4 in mm is not entered", "square", "P1", "B-4=1,1");
        await Refused(2, "outside the picture", "square", "P1", "A-1=1,5000");
        await Refused(2, "as in A-1=120,340", "square", "P1", "A-1=1;1");
        await Refused(1, "at least three", "square", "P1", Pick("A-1", 10, 10));
        await Refused(1, "crossed", "square", "P1", Pick("A-1", 110, 12), Pick("A-2", 10, 10), Pick("B-1", 12, 90), Pick("B-2", 108, 95));
        var csv = await Run.Lugbook("photo", Path.Combine(In("set"), "parts.csv"), "add", In("p.jpg"));
        Assert.Equal(2, csv.Code);
        Assert.Contains("cannot hold photographs", csv.Error, StringComparison.Ordinal);
    }

    private async Task<string> Broken()
    {
        await File.WriteAllBytesAsync(In("x.jpg"), [0xFF, 0xD8, 0xFF, 1, 2, 3, 4], TestContext.Current.CancellationToken);
        return In("x.jpg");
    }

    [Fact]
    public async Task A_drawing_is_written_as_a_picture_that_says_its_resolution_and_shows_what_the_svg_says()
    {
        Assert.Equal(0, (await Run.Lugbook("draw", "data/demo/radio", "--out", In("r.png"), "--dpi", "100")).Code);
        Assert.Equal(0, (await Run.Lugbook("draw", "data/demo/radio", "--out", In("r.svg"))).Code);
        var png = await File.ReadAllBytesAsync(In("r.png"), TestContext.Current.CancellationToken);
        var svg = await File.ReadAllTextAsync(In("r.svg"), TestContext.Current.CancellationToken);
        using var picture = SKBitmap.Decode(png);
        var width = double.Parse(svg.Split("width=\"")[1].Split("mm")[0], CultureInfo.InvariantCulture);
        Assert.Equal(Math.Ceiling(width / 25.4 * 100), picture.Width, 1.0);
        var at = System.Text.Encoding.Latin1.GetString(png).IndexOf("pHYs", StringComparison.Ordinal);
        Assert.Equal(3937, png[at + 4] << 24 | png[at + 5] << 16 | png[at + 6] << 8 | png[at + 7]);   // pixels a metre at 100 an inch
        // The first lug's hole, its place taken from the SVG, is paper in a ring of ink.
        var box = svg.Split("viewBox=\"")[1].Split('"')[0].Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray();
        var lug = System.Text.RegularExpressions.Regex.Match(svg[svg.IndexOf("data-layer=\"lugs\"", StringComparison.Ordinal)..], "class=\"hole\" cx=\"([^\"]+)\" cy=\"([^\"]+)\"");
        int Pixel(string text, double from) => (int)((double.Parse(text, CultureInfo.InvariantCulture) - from) / 25.4 * 100);
        Assert.True(picture.GetPixel(Pixel(lug.Groups[1].Value, box[0]), Pixel(lug.Groups[2].Value, box[1])).Red > 180);
        var refused = await Run.Lugbook("draw", "data/demo/tv", "--out", In("t.png"), "--dpi", "1200");
        Assert.Equal(2, refused.Code);
        Assert.Contains("Choose fewer with --dpi", refused.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(In("t.png")));
    }
}

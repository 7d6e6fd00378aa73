using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using SkiaSharp;
using static Lugbook.Browser.Tests.BenchFixture;
using static Microsoft.Playwright.Assertions;

namespace Lugbook.Browser.Tests;

/// <summary>Photographs, from the finger to the chassis drawing. The pictures are made here, so that every spot in them is known.</summary>
[Collection("bench")]
public class PhotoStoriesTests(BenchFixture bench)
{
    private const string Secret = "SECRET-N51.4778";

    [Fact]
    public async Task A_photograph_is_taken_on_the_tablet_kept_deleted_and_brought_back()
    {
        var page = await bench.PageAsync(820, 1180, touch: true);
        await GoAsync(page, "/book/amp/photos");
        await page.GetByLabel("Taken", new() { Exact = true }).First.SelectOptionAsync("Before");
        await page.GetByLabel("Position or mount", new() { Exact = true }).First.FillAsync("C3");
        var camera = page.GetByLabel("Take a photograph of C3, before");
        await Expect(camera).ToHaveAttributeAsync("capture", "environment");
        await camera.SetInputFilesAsync(new FilePayload { Name = "../../evil.html", MimeType = "text/html", Buffer = Jpeg(1) });
        await Expect(page.GetByText("✓ 1 photograph kept.")).ToBeVisibleAsync();
        var card = page.GetByRole(AriaRole.Listitem, new() { Name = "Photograph P1" });
        await Expect(card.GetByRole(AriaRole.Img)).ToHaveJSPropertyAsync("naturalWidth", 360);

        // What is no picture is refused with a reason, and nothing of it is kept.
        await page.GetByLabel("Choose photographs of C3, before").SetInputFilesAsync([
            new FilePayload { Name = "b.jpg", MimeType = "image/jpeg", Buffer = Encoding.ASCII.GetBytes("<svg onload='alert(1)'/>") }, new FilePayload { Name = "c.jpg", MimeType = "image/jpeg", Buffer = Jpeg(1)[..^400] }]);
        await Expect(page.GetByText("Photograph 1 of 2 was not kept: this is a drawing (SVG) or a web page")).ToBeVisibleAsync();
        await Expect(page.GetByText("Photograph 2 of 2 was not kept: this JPEG picture is cut short")).ToBeVisibleAsync();
        Assert.Equal("", string.Join("\n", await Faults(page)));

        await GoAsync(page, "/book/amp/position/C3");
        await Expect(page.GetByRole(AriaRole.Group, new() { Name = "Photographs of C3" }).GetByRole(AriaRole.Img)).ToBeVisibleAsync();
        await GoAsync(page, "/book/amp/photos");
        await page.GetByRole(AriaRole.Button, new() { Name = "Delete P1" }).ClickAsync();
        await Expect(page.GetByText("P1 deleted.")).ToBeVisibleAsync();
        await Expect(card).ToHaveCountAsync(0);
        await page.ReloadAsync();
        await page.Locator("header[data-ready=yes]").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(card.GetByRole(AriaRole.Img)).ToHaveJSPropertyAsync("naturalWidth", 360);
        await page.CloseAsync();
    }

    [Fact]
    public async Task A_photograph_taken_sideways_stands_upright_and_tells_nobody_where_it_was_taken()
    {
        var page = await bench.PageAsync();
        await GoAsync(page, "/book/tv/photos");
        await page.GetByLabel("Choose photographs").SetInputFilesAsync(new FilePayload { Name = "x.jpg", MimeType = "image/jpeg", Buffer = Jpeg(6) });
        await Expect(page.GetByText("✓ 1 photograph kept.")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Open" }).ClickAsync();
        var image = page.Locator(".photo-stage img");
        await Expect(image).ToHaveJSPropertyAsync("naturalWidth", 480);
        Assert.Equal("480 320 red grey", await image.EvaluateAsync<string>("""
            img => {
              const c = document.createElement('canvas'); c.width = img.naturalWidth; c.height = img.naturalHeight;
              const g = c.getContext('2d'); g.drawImage(img, 0, 0);
              const word = (x, y) => { const [r, n] = g.getImageData(x * c.width, y * c.height, 1, 1).data; return r > 180 && n < 80 ? 'red' : 'grey'; };
              return `${c.width} ${c.height} ${word(.2, .2)} ${word(.8, .8)}`;
            }
            """));
        // By keyboard: the arrow keys move a cross, Enter taps there.
        await page.GetByRole(AriaRole.Group, new() { Name = "Photograph P1." }).FocusAsync();
        await page.Keyboard.PressAsync("ArrowLeft");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByLabel("This spot is lug")).ToBeVisibleAsync();
        foreach (var address in new[] { "/book/tv/photograph/P1/file", new Uri(await image.EvaluateAsync<string>("i => i.src")).AbsolutePath, "/book/tv/file.lugbook", "/book/tv/file.lugbook?photographs=small" })
        {
            var answer = await page.APIRequest.GetAsync(bench.Address + address);
            Assert.True(answer.Ok, address);
            Assert.DoesNotContain("SECRET", Encoding.Latin1.GetString(await answer.BodyAsync()), StringComparison.Ordinal);
        }
        Assert.Contains("SECRET", Encoding.Latin1.GetString(await (await page.APIRequest.GetAsync(bench.Address + "/book/tv/file.lugbook?photographs=originals")).BodyAsync()), StringComparison.Ordinal);
        // Another site's page cannot put a picture here.
        Assert.Equal(403, (await page.APIRequest.PostAsync(bench.Address + "/book/tv/photographs?moment=before", new() { DataByte = Jpeg(1) })).Status);
        await page.CloseAsync();
    }

    [Fact]
    public async Task Five_lugs_tapped_square_a_photograph_up_and_it_lies_in_register_beneath_the_drawing()
    {
        var page = await bench.PageAsync(820, 1180, touch: true);
        await GoAsync(page, "/book/radio/photos");
        var lugs = await LugsAsync(page);
        var (jpeg, spots) = Chassis(lugs);
        await page.GetByLabel("Choose photographs").SetInputFilesAsync(new FilePayload { Name = "x.jpg", MimeType = "image/jpeg", Buffer = jpeg });
        await Expect(page.GetByText("✓ 1 photograph kept.")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Open" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "× 2" }).ClickAsync();
        await Expect(page.Locator(".photo-stage img")).ToHaveJSPropertyAsync("complete", true);

        var corners = Corners(lugs);
        foreach (var lug in corners)
        {
            // The finger comes down on whole pixels, as fingers do here.
            var at = await page.Locator(".photo-stage").EvaluateAsync<double[]>("""
                (stage, [sx, sy]) => {
                  const host = stage.parentElement;
                  host.scrollLeft = sx * stage.offsetWidth - host.clientWidth / 2; host.scrollTop = sy * stage.offsetHeight - host.clientHeight / 2;
                  host.scrollIntoView({ block: 'start' });
                  const f = stage.getBoundingClientRect();
                  return [f.left + sx * f.width, f.top + sy * f.height];
                }
                """, new[] { spots[lug].X / Wide, spots[lug].Y / High });
            await page.Touchscreen.TapAsync((float)Math.Round(at[0]), (float)Math.Round(at[1]));
            await page.GetByLabel("This spot is lug").FillAsync(lug);
            await page.GetByRole(AriaRole.Button, new() { Name = "Set the pin" }).ClickAsync();
            await Expect(page.Locator($"[data-pin='{lug}']")).ToBeVisibleAsync();
        }
        await Expect(page.GetByText("Squared up by 5 lugs")).ToBeVisibleAsync();
        Assert.Equal("", string.Join("\n", await Faults(page)));
        // A tap on another lug of the photograph names it.
        var other = spots.Keys.First(l => !corners.Contains(l));
        var there = await page.Locator(".photo-stage").EvaluateAsync<double[]>("(stage, [sx, sy]) => { const host = stage.parentElement; host.scrollLeft = sx * stage.offsetWidth - host.clientWidth / 2; host.scrollTop = sy * stage.offsetHeight - host.clientHeight / 2; const f = stage.getBoundingClientRect(); return [f.left + sx * f.width, f.top + sy * f.height]; }", new[] { spots[other].X / Wide, spots[other].Y / High });
        await page.Touchscreen.TapAsync((float)there[0], (float)there[1]);
        await Expect(page.GetByText("Nearest lug")).ToContainTextAsync(other);

        await page.GetByRole(AriaRole.Link, new() { Name = "Beneath the drawing" }).ClickAsync();
        await Expect(page.Locator("img.underlay")).ToHaveJSPropertyAsync("complete", true);
        var report = new StringBuilder("# Photographs beneath the drawing\n\nA photograph made by a camera 18° askew, 1600 × 1200 pixels, squared up by five lugs tapped by touch at × 2 in Chromium, 820 × 1180, and laid beneath the drawing of the demo radio. Discs of the photograph found again in the screenshot, against the drawing's lugs. Written by `Five_lugs_tapped_square_a_photograph_up_and_it_lies_in_register_beneath_the_drawing` with `LUGBOOK_WRITE_DOCS` naming the folder.\n\n| view | lugs in the frame | worst, CSS pixels | of which common to all: the browser lays a sheet on whole pixels |\n|---|---|---|---|\n");
        foreach (var (state, button) in new[] { ("whole", null), ("mirrored", "From beneath"), ("turned", "Turn"), ("nearer", "Nearer") })
        {
            if (button is not null) await page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();
            var (worst, measured, common) = await WorstAsync(page, spots.Keys, state);
            report.Append(CultureInfo.InvariantCulture, $"| {state} | {measured} | {worst:0.00} | {common:0.00} |\n");
        }
        if (Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS") is { Length: > 0 } folder) await File.WriteAllTextAsync(Path.Combine(folder, "photographs.md"), report.ToString(), TestContext.Current.CancellationToken);
        await page.GetByLabel("Drawing to photograph").FocusAsync();
        Assert.Equal("", string.Join("\n", await Faults(page)));
        await page.CloseAsync();
    }

    [Fact]
    public async Task The_bar_on_the_print_page_is_fifty_millimetres_on_paper_and_the_drawing_is_to_scale()
    {
        var page = await bench.PageAsync();
        await GoAsync(page, "/book/radio/chassis/print");
        await page.GetByLabel("Scale").SelectOptionAsync("2");   // 1 : 2
        await Expect(page.GetByText("scale 1 : 2")).ToBeVisibleAsync();
        Assert.Equal("", string.Join("\n", await Faults(page)));
        var pdf = await page.PdfAsync(new() { PreferCSSPageSize = true, PrintBackground = true });
        var lines = PdfLines.Millimetres(pdf).ToList();
        Assert.Contains(lines, l => Math.Abs(l - 50) < 0.1);   // the bar, in the PDF itself
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        // The drawing's own bar is 50 mm of chassis: 25 mm of paper at 1 : 2. A CSS pixel is 1/96 inch.
        var scale = await page.Locator(".to-print .scale").First.EvaluateAsync<double>("e => e.getBoundingClientRect().width * 25.4 / 96");
        Assert.InRange(scale, 24.9, 25.4);   // with the width of its stroke left out
        await page.CloseAsync();
    }

    private static async Task<string[]> Faults(IPage page) => [.. (await page.RunAxe()).Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help} at {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html))}")];

    private const int Wide = 1600, High = 1200;

    /// <summary>Places of the demo radio's lugs, mm, from the drawing itself.</summary>
    internal static async Task<Dictionary<string, (double X, double Y)>> LugsAsync(IPage page)
    {
        var csv = await page.APIRequest.GetAsync(new Uri(new Uri(page.Url), "/book/radio/chassis.svg").ToString());
        var found = new Dictionary<string, (double, double)>();
        foreach (Match m in Regex.Matches(await csv.TextAsync(), "data-lug=\"(?<lug>[^\"]+)\".*?<circle class=\"lug\"[^>]*cx=\"(?<x>[^\"]+)\" cy=\"(?<y>[^\"]+)\"", RegexOptions.Singleline))
            found.TryAdd(m.Groups["lug"].Value, (double.Parse(m.Groups["x"].Value, CultureInfo.InvariantCulture), -double.Parse(m.Groups["y"].Value, CultureInfo.InvariantCulture)));
        return found;
    }

    private static string[] Corners(Dictionary<string, (double X, double Y)> lugs)
    {
        double cx = lugs.Values.Average(l => l.X), cy = lugs.Values.Average(l => l.Y);
        return [lugs.MinBy(l => l.Value.X + l.Value.Y).Key, lugs.MaxBy(l => l.Value.X + l.Value.Y).Key, lugs.MinBy(l => l.Value.X - l.Value.Y).Key, lugs.MaxBy(l => l.Value.X - l.Value.Y).Key,
            lugs.MinBy(l => Math.Pow(l.Value.X - cx, 2) + Math.Pow(l.Value.Y - cy, 2)).Key];
    }

    /// <summary>What a camera sees that is held askew, 18° off the plumb line and turned by 4°: magenta discs at a dozen lugs that stand alone.</summary>
    internal static (byte[] Jpeg, Dictionary<string, (double X, double Y)> Spots) Chassis(Dictionary<string, (double X, double Y)> lugs)
    {
        double cx = (lugs.Values.Min(l => l.X) + lugs.Values.Max(l => l.X)) / 2, cy = (lugs.Values.Min(l => l.Y) + lugs.Values.Max(l => l.Y)) / 2, reach = lugs.Values.Max(l => l.X) - lugs.Values.Min(l => l.X);
        (double X, double Y) See(double x, double y)
        {
            double dx = (x - cx) * Math.Cos(0.07) + (y - cy) * Math.Sin(0.07), dy = -(y - cy) * Math.Cos(0.07) + (x - cx) * Math.Sin(0.07);
            var depth = 2.2 * reach + dy * Math.Sin(0.31);
            const double focal = 1.65 * Wide;
            return (Wide / 2.0 + focal * dx / depth, High / 2.0 + focal * dy * Math.Cos(0.31) / depth);
        }
        var spots = new Dictionary<string, (double X, double Y)>();
        foreach (var lug in Corners(lugs).Concat(lugs.Keys))
            if (!spots.ContainsKey(lug) && spots.Keys.All(s => Math.Pow(lugs[s].X - lugs[lug].X, 2) + Math.Pow(lugs[s].Y - lugs[lug].Y, 2) > 900)) spots[lug] = See(lugs[lug].X, lugs[lug].Y);
        using var bitmap = new SKBitmap(new SKImageInfo(Wide, High, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(new(150, 150, 150));
            foreach (var (lug, _) in spots)
            {
                // A disc of the chassis, seen askew too: its outline point by point.
                using var path = new SKPath();
                for (var i = 0; i < 48; i++)
                {
                    var (px, py) = See(lugs[lug].X + 2.4 * Math.Cos(i * Math.PI / 24), lugs[lug].Y + 2.4 * Math.Sin(i * Math.PI / 24));
                    if (i == 0) path.MoveTo((float)px, (float)py); else path.LineTo((float)px, (float)py);
                }
                path.Close();
                using var paint = new SKPaint { Color = new(255, 0, 255), IsAntialias = true };
                canvas.DrawPath(path, paint);
            }
        }
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 95);
        return (data.ToArray(), spots);
    }

    /// <summary>The largest distance, CSS pixels, between where the drawing puts a lug and where the photograph's disc is seen on the screen; only lugs within the frame.</summary>
    private static async Task<(double Worst, int Measured, double Common)> WorstAsync(IPage page, IEnumerable<string> lugs, string state)
    {
        await page.Locator("#blend").EvaluateAsync("s => { s.value = 100; s.dispatchEvent(new Event('input')); }");
        await page.WaitForTimeoutAsync(400);
        var drawing = page.Locator(".drawing");
        await drawing.EvaluateAsync("d => d.scrollIntoView({ block: 'center' })");
        var frame = (await drawing.BoundingBoxAsync())!;
        // The whole window: a picture of one element begins on a whole pixel, wherever the element does.
        using var seen = SKBitmap.Decode(await page.ScreenshotAsync());
        var (worst, measured, dx, dy) = (0.0, 0, 0.0, 0.0);
        foreach (var lug in lugs)
        {
            var box = (await page.Locator($"[data-lug='{lug}'] circle.lug").First.BoundingBoxAsync())!;
            double x = box.X + box.Width / 2, y = box.Y + box.Height / 2;
            if (x < frame.X + 30 || y < frame.Y + 30 || x > frame.X + frame.Width - 30 || y > frame.Y + frame.Height - 30) continue;
            var (sx, sy, weight) = (0.0, 0.0, 0.0);
            for (var j = (int)y - 22; j < y + 22; j++)
                for (var i = (int)x - 22; i < x + 22; i++)
                {
                    if (i < 0 || j < 0 || i >= seen.Width || j >= seen.Height) continue;
                    var c = seen.GetPixel(i, j);
                    // How much magenta: grey has none, whatever its shade.
                    var share = Math.Max(0, Math.Min(c.Red, c.Blue) - c.Green - 30);
                    (sx, sy, weight) = (sx + share * (i + 0.5), sy + share * (j + 0.5), weight + share);
                }
            Assert.True(weight > 2000, $"{state}: nothing of {lug} is seen near ({x:0}, {y:0}).");
            var off = Math.Sqrt(Math.Pow(sx / weight - x, 2) + Math.Pow(sy / weight - y, 2));
            Assert.True(off < 2, $"{state}: {lug} is {off:0.00} pixels off.");
            (worst, measured, dx, dy) = (Math.Max(worst, off), measured + 1, dx + sx / weight - x, dy + sy / weight - y);
        }
        Assert.True(measured >= 4, $"{state}: only {measured} lugs were in the frame.");
        return (worst, measured, Math.Sqrt(dx * dx + dy * dy) / measured);
    }

    /// <summary>480 × 320, grey with a red quarter at the upper left, stored as a camera held sideways stores it, with a place in its EXIF.</summary>
    private static byte[] Jpeg(int orientation)
    {
        var turned = orientation == 6;
        using var bitmap = new SKBitmap(new SKImageInfo(turned ? 320 : 480, turned ? 480 : 320, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(new(120, 120, 120));
            using var red = new SKPaint { Color = new(220, 20, 20) };
            // Orientation 6: the stored picture's left column is the upright one's upper edge, its lowest row the left edge.
            if (turned) canvas.DrawRect(0, 240, 160, 240, red); else canvas.DrawRect(0, 0, 240, 160, red);
        }
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 92);
        var plain = data.ToArray();
        byte[] text = [.. Encoding.ASCII.GetBytes(Secret), 0];
        byte[] tiff = [.. "MM\0*"u8, 0, 0, 0, 8, 0, 2, 0x01, 0x0E, 0, 2, 0, 0, 0, (byte)text.Length, 0, 0, 0, 38, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, (byte)orientation, 0, 0, 0, 0, 0, 0, .. text];
        byte[] body = [.. "Exif\0\0"u8, .. tiff];
        return [.. plain[..2], 0xFF, 0xE1, 0, (byte)(body.Length + 2), .. body, .. plain[2..]];
    }
}
